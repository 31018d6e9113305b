# Une pièce coupée en tranches.
cut-heading = Couper une pièce
cut-dish = Pour le plat
cut-touch-dish = Touchez le plat
cut-no-dish = Aucun plat dans la liste
cut-plan =
    { $count ->
        [one] { $count } tranche de { $each } ; reste { $over }, sans les bouts de { $ends }.
       *[other] { $count } tranches de { $each } ; reste { $over }, sans les bouts de { $ends }.
    }
cut-nothing-between = Les bouts pèsent autant que la pièce ou plus. Pesez les deux à nouveau.
cut-no-piece = Ce qui reste entre les bouts est moins qu'une tranche.
cut-too-many = Ce serait plus de 500 tranches. Vérifiez les deux poids.
cut-too-few =
    { $count ->
        [one] { $count } tranche seulement : il en faut { $fewest } pour corriger la suivante.
       *[other] { $count } tranches seulement : il en faut { $fewest } pour corriger la suivante.
    }
cut-as-meant = Les dernières tranches sont comme voulu : pas de correction.
cut-next-under = Les { $count } dernières ont fait { $by } de trop en moyenne ({ $low } à { $high }) : coupez la suivante { $by } en dessous de votre geste.
cut-next-over = Les { $count } dernières ont fait { $by } de moins en moyenne ({ $low } à { $high }) : coupez la suivante { $by } au-dessus de votre geste.
