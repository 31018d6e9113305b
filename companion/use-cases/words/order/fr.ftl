# La commande.
order-title = À commander, { $at }
order-supplier = { $supplier } : à commander avant { $by }, livré { $day }
order-supplier-no-time = { $supplier } : livré { $day } ; l'heure limite de commande n'est pas écrite
order-supplier-no-days = { $supplier } : aucun jour de livraison n'est écrit
order-lasts = Doit suffire pour { $count ->
    [one] un service, { $first }
   *[other] { $count } services, de { $first } à { $last }
}.
order-lasts-after = Le stock est pour { $before ->
    [one] celui d'avant la livraison
   *[other] les { $before } d'avant la livraison
} ; les colis sont pour { $count ->
    [one] celui d'après, { $first }
   *[other] les { $count } d'après, de { $first } à { $last }
}.
order-lasts-none-after = { $before ->
    [one] Il a lieu avant la livraison, et le stock est pour lui ; aucun colis n'est pour lui.
   *[other] Les { $before } ont lieu avant la livraison, et le stock est pour eux ; aucun colis n'est pour eux.
}
order-lasts-none = Aucun service d'ici la livraison suivante.
order-total = En tout { $cost }.

order-packs = { $packs } x { $pack } { $goods }
order-packs-none = rien : { $goods }
order-packs-range = de { $from } à { $to } x { $pack } { $goods } : on ne sait pas mieux
order-packs-from = { $from } x { $pack } { $goods } ou plus : on ne sait pas combien de plus
order-packs-unknown = { $goods }, colis de { $pack } : INCONNU
order-cost = { $line }, { $cost }
order-over = Il en restera sans doute { $over }.

order-need = Il faut dès maintenant : { $likely } sans doute ; { $enough } suffisent cinq soirs sur six.
order-need-exactly = Il faut dès maintenant : { $amount }.
order-need-likely = Il faut dès maintenant : { $likely } sans doute ; on ne sait pas ce qui suffit cinq soirs sur six.
order-need-at-least = Il faut dès maintenant : pas moins de { $least }, le poids servi.
order-need-nothing = Rien à prévoir.
order-after = Après la livraison, ce que couvrent les colis : { $likely } sans doute ; { $enough } suffisent cinq soirs sur six.
order-after-exactly = Après la livraison, ce que couvrent les colis : { $amount }.
order-after-likely = Après la livraison, ce que couvrent les colis : { $likely } sans doute.
order-after-nothing = Rien après la livraison, que couvrent les colis.
order-hand = En stock, tel qu'acheté : { $amount }, compté { $at }.
order-hand-old = En stock, tel qu'acheté : de { $least } à { $most }, compté { $at }.
order-hand-open = En stock, tel qu'acheté : { $amount } entamé ; personne n'a compté ce qui est fermé.
order-hand-none = En stock, tel qu'acheté : personne ne l'a compté.
order-on-the-way = { $packs ->
    [one] Un colis est commandé et reste à venir.
   *[other] { $packs } colis sont commandés et restent à venir.
}
order-placed = { $packs } x { $pack } { $goods } pour { $day }, noté { $at }
order-taken-back = Retiré { $at } : { $reason }
order-runs-out = RISQUE : le stock ne suffira sans doute pas jusqu'à la livraison.

order-for-dish = { $dish } : { $likely } portions sans doute, { $enough } suffisent, d'après { $nights } soirs passés
order-for-dish-one = { $dish } : { $likely } portions sans doute, d'après un soir passé
order-for-ready = { $count } prêtes
order-for-ready-food = { $mass } prêts à portionner, ôtés de ce qui se sert et non de ce qui s'achète
order-for-portion = { $mass } la portion telle que servie, sur { $count }
order-for-target = { $mass } la portion d'après sa cible
order-for-takes = { $amount } la portion, telle qu'achetée
order-for-yield = un rendement de { $likely } sur { $count } achats, cinq sur six au-dessus de { $low }, dégustation et pertes sans nom ôtées
order-for-yield-likely = un rendement de { $likely } sur { $count ->
    [one] un achat
   *[other] { $count } achats
}, dégustation et pertes sans nom ôtées
order-for-batch = { $name } : { $count ->
    [one] une préparation
   *[other] { $count } préparations
} à faire, { $amount } chacune
order-for-batch-unknown = { $name } : on ne sait pas combien de préparations, { $amount } chacune
order-for-cover = { $likely } couverts sans doute, { $amount } chacun
order-for-cover-unknown = { $amount } par couvert : on ne sait pas combien viennent
order-for-unknown = { $name } : on ne sait pas combien

order-know = Pour le savoir : { $what }.
order-know-dish = enregistrer le plat { $dish }
order-know-covers = dire combien de couverts viennent le { $day }
order-know-past = peser des portions de { $dish } des soirs dont les couverts sont notés
order-know-one-night = un soir de plus de { $dish } avec ses couverts
order-know-few-nights = { $more ->
    [one] un soir de plus
   *[other] { $more } soirs de plus
} de { $dish } avec les couverts : avec { $nights } soirs, nul ne sait rien d'un autre genre de soir, comme une fête
order-know-yield = noter ce qui est paré, cuit et goûté d'un achat de { $dish }
order-know-one-yield = de même d'un deuxième achat de { $dish }
order-know-off-menu = { $name } n'est sur aucune carte de ces jours
order-know-count = compter le stock
order-know-count-again = recompter le stock, { $count ->
    [one] un service a eu lieu
   *[other] { $count } services ont eu lieu
} depuis
order-know-typed = { $what } : { $command }
order-no-goods = Aucune liste de ce que la cuisine achète n'est encore enregistrée.
order-no-such-supplier = Rien ne vient de « { $wanted } » d'après la liste de marchandises ; elles viennent de : { $known }.
order-basis = Suffisant vaut pour des soirs et des achats comme ceux enregistrés. Ce que plusieurs plats demandent d'une même marchandise est supposé monter et descendre ensemble.

order-and = { $one } ; { $more }
order-pieces = { $count ->
    [one] { $number } pièce
   *[other] { $number } pièces
}
order-page = À commander, page { $page } sur { $pages }
