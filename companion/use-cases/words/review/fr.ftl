# Un service en phrases.
review-purchase = { $kind ->
    [tin] bac
    [fish] poisson
    [cut] pièce
   *[batch] préparation
} { $id }
review-purchase-labelled = { $kind ->
    [tin] bac
    [fish] poisson
    [cut] pièce
   *[batch] préparation
} { $id }, { $label }
review-part = { $part ->
    [trim] parage
    [cook] cuisson
    [press] pressage
    [spill] renversé
    [tasting] goûté
    [portioned] portionné
    [left] reste
    [should-be-left] devrait rester
   *[unaccounted] inexpliqué
}
review-not-known = pas connu
review-interval = de { $low } à { $high }

review-one-portion = Une portion de { $mean }.
review-evenness = Moyenne { $mean } ({ $mean_in }), écart type { $spread } ({ $spread_in }).
review-hand = La balance en apporte { $scale }, la main { $hand }.
review-hand-hidden = La dispersion de la balance cache celle de la main.
review-sample-none = (trop peu pour parler d'écart type.)
review-sample-small = (petit échantillon : l'intervalle dit combien on en sait peu.)
review-sample-some = (moins de 30 portions : limites provisoires.)
review-percentiles = 5 % sont sous { $low }, la moitié sous { $middle }, 95 % sous { $high } (centiles par { $method }).
review-cost = { $short } sur { $n } en manque, { $heavy } en trop ; { $given } donnés au-dessus de la cible.
review-cost-money = { $short } sur { $n } en manque, { $heavy } en trop ; { $given } donnés au-dessus de la cible, { $money }.
review-cost-part = { $short } sur { $n } en manque, { $heavy } en trop ; { $given } donnés au-dessus de la cible, { $money } pour les { $costed } au coût connu.
review-cost-not-known = { $short } sur { $n } en manque, { $heavy } en trop ; { $given } donnés au-dessus de la cible ; coût non enregistré.
review-cost-both = Sans les poids douteux : { $relied } Avec eux : { $all }
review-usual = D'habitude { $mean } sur { $services } services, chaque soir à { $within } près 19 fois sur 20 ; ce soir { $tonight }.
review-usual-not-known = Son poids habituel n'est pas encore connu : il faut { $portions } portions ce soir et { $services } services avant avec autant.
review-capability = Capabilité Cp { $cp } ({ $cp_in }), Cpk { $cpk } ({ $cpk_in }) ; à 1, l'écart type tient juste dans la tolérance.

review-too-few = Trop peu de portions pour dire si c'était régulier : il en faut { $portions }.
review-steady = Régulier, autant qu'on puisse dire.
review-false-alarms = Sur les services réguliers, 1 sur { $services } au plus reçoit une remarque fausse, tous plats confondus.
finding-grew = { $way ->
    [up] plus lourd{ $since } : { $by } en moyenne au-dessus de l'habitude{ $seen }
   *[down] plus léger{ $since } : { $by } en moyenne sous l'habitude{ $seen }
}
finding-off-usual = { $way ->
    [up] plus lourd
   *[down] plus léger
} que d'habitude de { $by }
finding-moved = { $by } { $way ->
    [up] de plus
   *[down] de moins
} qu'avant{ $since }
finding-uneven = { $way ->
    [up] moins régulier
   *[down] plus régulier
} que d'habitude
finding-uneven-times = { $way ->
    [up] moins régulier
   *[down] plus régulier
} que d'habitude : écart type { $times } fois celui d'avant
finding-uneven-later = { $way ->
    [up] moins régulier
   *[down] plus régulier
} vers la fin
finding-since = depuis { $time } environ
finding-seen = visible à { $time }

doubt-failed-test = { $count } autour d'un test de balance raté
doubt-two-portions = { $count } qui sont peut-être deux portions
doubt-off-pan = { $count } prises avec le bac hors du plateau
doubt-instrument = { $count } avec quelque chose au plateau ou un poste agité
doubt-figures = moyenne { $mean }, écart type { $spread }
doubt-count = { $count } poids sur { $n } sont douteux : { $reasons }.
doubt-weights = { $count } poids sur { $n } sont douteux : { $reasons }. Avec eux { $all } ; sans eux { $relied }, et seuls ceux-ci servent à juger et à viser.
doubt-straddling = { $count ->
    [one] Un poids est si près d'une limite que la balance ne sait dire de quel côté.
   *[other] { $count } poids sont si près d'une limite que la balance ne sait dire de quel côté.
}
doubt-straddling-more = { $count } autres sont si près d'une limite que la balance ne sait dire de quel côté.
doubt-far = { $count ->
    [one] Un poids est loin de tous les autres ({ $weights }) : rayez-le si ce n'était pas une portion. Les chiffres le comptent.
   *[other] { $count } poids sont loin de tous les autres ({ $weights }) : rayez ce qui n'était pas une portion. Les chiffres les comptent.
}
review-left-out = Dans aucun chiffre : { $struck } écartées, { $corrected } corrigées.
review-left-out-topped = Dans aucun chiffre : { $struck } écartées, { $corrected } corrigées, dont { $topped } complétées.

lead-aim = visez { $aim }
lead-aim-below = visez { $aim }, sous les { $promised } promis
lead-no-aim = pas de visée : { $why }
lead-scale = { $dish } : la balance a affiché { $percent } de { $way ->
    [up] trop
   *[down] moins
} pour { $count } portions sur { $n }, et rien au registre ne l'a corrigée : testez-la avant tout.
lead-scale-calibrated = { $dish } : la balance a affiché { $percent } de { $way ->
    [up] trop
   *[down] moins
} jusqu'à { $time } ({ $count } portions sur { $n }) : testez-la encore, puis { $aim }.
lead-scale-passed = { $dish } : la balance a affiché { $percent } de { $way ->
    [up] trop
   *[down] moins
} jusqu'à { $time } ({ $count } portions sur { $n }) : { $aim }.
lead-far = { $count ->
    [one] { $dish } : un poids sur { $n } est loin de tous les autres : rayez-le si ce n'était pas une portion ; { $aim }.
   *[other] { $dish } : { $count } poids sur { $n } sont loin de tous les autres : rayez ce qui n'était pas une portion ; { $aim }.
}
lead-weights = { $dish } : { $count } poids sur { $n } sont douteux ; sans eux, { $aim }.
lead-off = { $dish } : { $count } sur { $n } { $way ->
    [short] trop légères, { $by } sous
   *[heavy] trop lourdes, { $by } au-dessus de
} la cible en moyenne ; { $aim }.
lead-finding = { $dish } : { $finding } ; { $aim }.
lead-plain = { $dish } : { $aim }.
lead-steady = { $dish } était régulier : { $aim }.

no-aim-coarse = { $count } portions sur { $n } sont plus près d'une limite que la balance ne distingue
no-aim-too-few = { $count ->
    [one] une portion fiable
   *[other] { $count } portions fiables
}, il en faut { $fewest } ou plus
no-aim-no-spread = l'écart type est nul, il n'y a rien à peser
no-aim-too-cheap = une portion courte coûte trop peu face à la marchandise pour qu'une visée paie : vérifiez les deux prix
no-aim-misfit = l'écart type de { $spread } ne tient pas dans cette tolérance ; il tiendrait jusqu'à { $fits }, ou élargissez la tolérance
no-aim-other = { $why }

advice-aim = Visez { $aim } : alors environ { $short } en manque et { $heavy } en trop{ $basis }{ $held } (d'après { $n } portions).
advice-made-again = , le moins cher si une courte coûte { $cost }, sa marchandise à refaire
advice-as-said = , le moins cher si une courte coûte { $cost }, comme indiqué
advice-topped-up = , car les courtes sont complétées depuis le bac au prix de ce qui manque
advice-share = , pour qu'avec 95 % de confiance pas plus de { $share } soient en manque
advice-promise =  ; viser plus bas paierait, mais la cible est promise au client
advice-as-it-is =  ; il n'en sort pas de légères, plus serait donné
advice-below = C'est { $by } de moins que les { $promised } promis au client : vous l'avez permis.
advice-cut-off = Le côté léger est coupé, comme là où les légères sont complétées.
advice-longer = Le côté léger va plus loin que le lourd.
advice-saving = Un écart type réduit de { $by } épargne { $saving } par mois, à { $portions } portions ({ $services } services comme celui-ci).
advice-saving-rate = Un écart type réduit de { $by } épargne { $saving } par mois ({ $rate } par gramme), à { $portions } portions ({ $services } services comme celui-ci).
saving-one-gram = { $dish } : un gramme de moins par portion, { $saving } par mois.
saving-to-aim = { $dish } : ramener la moyenne à la visée, de { $by }, { $saving } par mois.
saving-narrower = { $dish } : un écart type réduit de { $by }, { $saving } par mois.
saving-unaccounted = { $dish } : retrouver les { $by } inexpliqués, { $saving } par mois.

failed-found = à { $when } un poids de { $known } a donné { $read }, { $out } d'erreur, pour une limite en service de { $limit } (OIML R 76-1, 3.5.2)
failed-when = { $time } le { $day }
failed-calibrated = avant l'étalonnage de { $when }
failed-passed = avant un test réussi à { $when }
failed-not-right = et rien au registre n'a corrigé la balance depuis
failed-after = { $count } sur { $n } pesées après un test raté, { $right } : { $found }.
failed-food = Si l'erreur croît avec la charge, { $shown } affichés étaient { $food } de marchandise.
failed-last-good = et après le dernier bon, à { $when }
failed-none-good = et aucun bon avant n'est enregistré
failed-before = { $count } sur { $n } pesées avant un test raté { $good } : { $found }. On ne sait pas lesquelles sont touchées.
failed-before-too = { $count } sur { $n } pesées avant ce test { $good }. On ne sait pas lesquelles sont touchées.
failed-in-figures = un test de la balance a raté à { $time } le { $day } ({ $measured }) ; ce qui fut pesé autour est dans ces chiffres tel que la balance l'a affiché : voir evenhand service show --day { $date }
failed-measured = { $known } a donné { $read }, { $out } d'erreur ; limite { $limit }
failed-portion-before = Pesée avant un test raté ({ $time } : { $measured }).
failed-portion-after = Pesée après un test raté ({ $time } : { $measured }).

# La page pour le mur.
page-title = Service du { $day }
page-portions = { $count ->
    [one] { $count } portion
   *[other] { $count } portions
}
page-first-order = premier bon { $time }
page-last-order = dernier bon { $time }
page-given-away = donné au-dessus des cibles
page-target = cible { $target } ± { $within }
page-target-between = cible { $target }, de { $low } à { $high }
page-spread = écart type { $spread }
page-counts = { $short } en manque, { $heavy } en trop sur { $n }
page-given = { $mass } donnés
page-given-money = { $mass } donnés, { $money }
page-aim = Visez { $aim }
page-before = { $count ->
    [0] aucun service avant
   *[other] { $count } avant, ce soir
}
page-test-failed = test de balance raté
page-by-mass = portions par poids
page-bought = { $purchase } : { $mass } achetés
page-marks = À gauche : moyennes des services d'avant, avec un écart type de chaque côté. Marques : triangle vers le bas manque, point au poids, triangle vers le haut en trop. { $alarms } Les intervalles disent vrai 19 fois sur 20 pour des portions réparties normalement ; ce qu'ils laissent ouvert n'est pas connu. L'économie suppose { $services } services par mois comme celui-ci. Plus : evenhand service show.
page-more-dishes = Et { $count } de plus : voir evenhand service show.
page-more = Plus : evenhand service show

# What plates cost, and every gram of some days.
plate-cost = { $plate } : { $cost }
plate-cost-price = { $plate } : { $cost } sur { $price }, il reste { $margin } ({ $share } en marchandise)
plate-component = { $name } : { $weight } à { $rate }, { $cost }
plate-not-known = { $plate } : coût inconnu. { $why }
plate-not-served = { $dish } n'a pas de portions dans ce service : portionnez-en, ou regardez un autre service.
plate-no-cost = Le coût de { $dish } n'est pas connu : ouvrez un bac avec son prix, ou donnez un coût au plat.
plate-currency = { $name } coûte dans une autre monnaie que le reste de l'assiette.
plate-empty = L'assiette n'a pas de composants.
days-bought = { $first } au { $last } : { $mass } achetés en { $count ->
    [one] un achat
   *[other] { $count } achats
}
days-not-weighed = { $count ->
    [one] D'un achat
   *[other] De { $count } achats
} personne n'a pesé le reste : ce qui en est parti sans nom n'est pas connu.
days-beside = { $mass } de plus ont été portionnés depuis aucun achat enregistré.
before-doubted = Services d'avant avec des poids douteux, laissés de côté : { $days }.
before-doubted-day = { $day }, { $doubted } sur { $count }
none-counts =
    { $count ->
        [one] { $dish } : aucune portion ne compte plus ({ $count } écartée) ; il n'y a rien à en dire.
       *[other] { $dish } : aucune de ses { $count } portions ne compte plus ; il n'y a rien à en dire.
    }
