# Après le service : la régularité de l'équipe, et où est passée la marchandise.
service-nothing-yet = Aucune portion enregistrée. Après le service, c'est ici qu'on les regarde.
service-earlier = Précédent
service-later = Suivant
service-night = Soirée
service-dishes = Plats
service-last-ten = Dix derniers
service-yield = Du bac au plat
service-money = Argent
service-everything = Tout
service-summary = { $count ->
    [one] { $count } portion
   *[other] { $count } portions
}
service-first-order = premier bon { $time }
service-last-order = dernier bon { $time }
service-given-away = { $money } donnés

service-this-one = ce service, et un écart type de chaque côté
service-one-before = un service d'avant
service-of-all = avec les poids douteux
service-target = cible
service-tolerance = tolérance
service-struck-out = écartée
service-test-failed = test de balance raté
service-stretch = tranche décrite
service-picked = portion décrite

service-why = Pourquoi ne pas la compter ?
service-let-it-be = La laisser
service-strike-out = Écarter
service-count-again = La recompter
service-whole-night = Toute la soirée
service-evidence = Pourquoi
service-fold = Replier
service-below-promise = Viser sous la promesse
service-keep-promise = Tenir la promesse
service-portion = { $mass } à { $time } : { $verdict }, { $off }
service-portion-target = Cible { $target }, de { $low } à { $high }.
service-portion-struck = Écartée à { $time } : { $reason }. Elle ne compte dans aucun chiffre.
service-portion-uncertain = La balance annonce ± { $within } (facteur d'élargissement 2).
service-portion-probe = Sonde { $temperature }.
service-portion-cost = Marchandise : { $cost }, dont { $given } au-dessus de la cible.
service-portion-id = Portion { $number }, numéro { $id }.
service-span = De { $from } à { $to }
service-span-empty = Aucune portion ici.

service-closer = Zoomer
service-wider = Élargir
service-all = Tout
service-left = Gauche
service-right = Droite
service-portion-before = Portion précédente
service-portion-after = Portion suivante

service-picture-night = { $dish } : { $count ->
    [one] { $count } portion
   *[other] { $count } portions
} dans le temps, { $struck } écartées, de { $low } à { $high }
service-picture-masses = { $dish } : combien de portions de quel poids
service-picture-before = { $dish } : moyenne de ce service { $mean }, à côté de { $before } d'avant
service-picture-all = { $count ->
    [one] { $count } portion
   *[other] { $count } portions
}, chacune selon ses grammes d'écart à la cible
service-mean = moyenne { $mean }
service-struck-because = écartée : { $reason }

service-reading = Lecture de toutes les portions
service-elsewhere = Séries commencées ailleurs
service-figures = { $dish } : { $count ->
    [one] { $count } portion
   *[other] { $count } portions
}, moyenne { $mean }, écart type { $spread }, { $short } en manque, { $given } donnés.
service-figures-money = { $dish } : { $count ->
    [one] { $count } portion
   *[other] { $count } portions
}, moyenne { $mean }, écart type { $spread }, { $short } en manque, { $given } donnés, { $money }.
service-evenness = moyenne { $mean }, écart type { $spread }, { $short } en manque
service-figures-doubted = { $dish } : { $doubted } poids sur { $count } sont douteux ; sans eux { $relied } ; avec eux { $all } ; donnés { $given }.
service-no-purchase = Portionné depuis aucun bac, poisson ou pièce enregistré. Indiquez-en un en préparant la prochaine série.
service-bought = { $purchase } : { $mass } achetés
service-cost = Coût { $bought } à l'achat, { $portioned } une fois portionné.
service-possible = { $portions } possibles avec le reste.
service-more-came-out = Il est sorti plus qu'il n'a été acheté : une pesée manque ou est fausse.

# What plates cost, and what would save most.
service-no-plates = Aucune assiette enregistrée.
service-change-plates = Créer ou changer des assiettes
service-savings = Ce qui épargnerait le plus en un mois
service-no-savings = Inconnu : aucun plat n'a de coût enregistré. Ouvrez un bac avec son prix, ou donnez un coût à un plat.
