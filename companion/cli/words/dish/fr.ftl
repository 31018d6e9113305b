# Les plats, et les bacs dont on les portionne.
dish-line = { $dish } : { $target } (-{ $below }, +{ $above }), { $mode ->
    [adding] en ajoutant
   *[taking] en prenant
}
dish-off-list = hors de la carte
dish-since = depuis { $time } : { $dish }
dish-called = appelé { $name } jusqu'à { $time }
dish-melt-unread = LIMIT : { $value } n'est pas une durée ; écrivez-en une comme 6 min, ou off
dish-melt-refused = LIMIT : la limite hors du froid est de { $seconds } s ; de 10 s à 2 h sont attendus
dish-melt = { $dish } : hors du froid au plus { $limit }.
dish-no-melt = { $dish } : aucune limite au temps hors du froid.
dish-nothing-yet = Aucun plat n'est encore noté ; `evenhand dish add` ou une première `evenhand portion` en commence un.
tin-nothing-yet = Aucun bac, poisson ni pièce n'est encore noté ; `evenhand tin open` en ouvre un.
tin-line = { $kind ->
    [tin] bac
    [fish] poisson
    [cut] pièce
   *[batch] préparation
} { $id } : { $dish }
tin-bought = { $mass } achetés, fermé
tin-left = reste { $left } sur { $net }, { $possible }
possible = { $count ->
    [one] { $count } portion
   *[other] { $count } portions
}
possible-range = { $fewest } à { $most } portions
# Ce qu'est devenu un achat.
yield-line-number = LINE : { $value } n'est pas le numéro d'une ligne ; écrivez le numéro que montre `evenhand yield show`
yield-struck = la ligne { $line } est écartée ; elle reste notée
yield-days = du { $first } au { $last } : { $count ->
    [one] { $count } achat ouvert ou portionné
   *[other] { $count } achats ouverts ou portionnés
}
yield-bought = acheté
yield-portioned = portionné
yield-lost = perdu : { $loss }
yield-left-weighed = reste, pesé
yield-left-by-record = reste selon le registre
yield-unaccounted = sans explication
yield-trimmed = paré
yield-should-be-left = devrait rester
yield-not-weighed = De { $count ->
    [one] { $count } achat
   *[other] { $count } achats
}, personne n'a pesé le reste : ce qui en est parti sans nom n'est pas connu. Pesez-le avec `evenhand yield left`.
yield-from-none = { $mass } de plus ont été portionnés d'aucun achat noté.
yield-cost = coût à l'achat { $bought }, une fois portionné { $portioned }
yield-possible = de ce qui reste, on peut faire { $possible }
yield-more = Il en est sorti plus que ce qui fut acheté : une pesée manque ou est fausse.
yield-line = ligne { $line } : { $what } { $mass }, { $time }
yield-line-struck = ligne { $line } : { $what } { $mass }, { $time }, écartée
cut-how-large = dites ce que doit peser un morceau avec --each ou --dish, ou combien avec --pieces
cut-refused = { $why ->
    [ends] les bouts mis de côté pèsent autant que la pièce ou plus : pesez de nouveau les deux
    [zero] { $what ->
        [slab] la pièce
       *[piece] un morceau
    } doit avoir une masse au-dessus de zéro
    [no-piece] ce qui reste entre les bouts est moins qu'un morceau
   *[too-many] cela ferait plus de { $most } morceaux : vérifiez les deux masses
}
cut-plan = { $count ->
    [one] { $count } morceau
   *[other] { $count } morceaux
} de { $each }, reste { $rest } en plus des bouts de { $ends }
cut-too-few = Jusqu'ici { $count ->
    [one] seulement { $count } morceau
   *[other] seulement { $count } morceaux
} : il en faut { $needed } pour corriger la prochaine coupe.
cut-no-correction = Les derniers morceaux tournent autour de ce qui était voulu : aucune correction.
cut-correction = { $was ->
    [over] Les { $pieces } derniers sont sortis en moyenne { $by } au-dessus ({ $low } à { $high }) : coupez le prochain { $by } en dessous de là où vous auriez coupé.
   *[under] Les { $pieces } derniers sont sortis en moyenne { $by } en dessous ({ $low } à { $high }) : coupez le prochain { $by } au-dessus de là où vous auriez coupé.
}
