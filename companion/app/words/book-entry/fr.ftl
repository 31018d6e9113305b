# Ce qui s'écrit aux écrans du livre de la cuisine.
book-typed = { $name } : « { $text } » ne peut pas servir : { $expected }
book-typed-nothing = { $name } n'est pas dit : { $expected }
book-not-said = pas dit
book-on-scale = Sur la balance : { $mass }
book-no-worker = Le registre ne répond plus. Fermez le programme et ouvrez-le de nouveau.
book-field = { $field ->
    [slab-mass] Pièce entière
    [slab-ends] Bouts mis de côté
    [piece-mass] Une tranche pèse
    [piece-count] Ou tant de tranches
    [plate-name] Nom
    [plate-price] Le client paie
    [part-name] Nom
    [part-weight] Servi
    [part-cost] Coûte à l'achat
    [part-yield] Peut être servi
    [part-waste] Jeté de cela
    [formula-name] Nom
    [work] Comment on fait
    [at-opening] Prêt à l'ouverture
    [in-at] Entré à
    [out-at] Sorti à
    [ends-at] Pâte à
    [ingredient] Ingrédient
    [percent] Pour cent de la base
    [water-in] Son eau
    [stage] Étape
    [takes] Entre dans l'étape
    [starter] Levain
    [hydration] Eau du levain
    [base] Par la base
    [total] Par le tout
    [pieces] Pièces
    [each] Chacune
    [lost] Perdu en divisant
    [of-mass] Combien il y en a
    [step] Pas de la balance
    [flour-at] Farine à
    [before-at] Ce qui est fait avant, à
    [dough-at] Pâte voulue à
    [coldest] Eau la plus froide
    [room] Salle, par règle
    [friction] Friction, par règle
    [water-at] L'eau était à
    [ice] Dont glace
    [came-out-at] Pâte sortie à
    [freeze-as] Gardée comme
    [mark] Note minimale
    [cut] Morceau
    [cut-mass] Poids
    [thickness] Le plus épais
    [meat-water] Son eau
    [bath-water] Eau du bain
    [bath-salt] Sel du bain
    [sauce-name] Sauce ou pâte
    [sauce-mass] Combien
    [sauce-salt] Sel de son étiquette
    [sauce-water] Eau de son étiquette
    [held-at] À quelle température
    [core] Cœur à atteindre
    [lasting] Prévu après
    [out-mass] Poids, égouttée
    [bath-after] Bain maintenant, sel
    [bath-mass] Bain maintenant, poids
    [in-piece] Ou sel par appareil
   *[within] À … près
}
book-entry = { $field ->
    [slab-mass] Combien pèse la pièce entière ?
    [slab-ends] Combien pèsent les bouts mis de côté ?
    [piece-mass] Combien doit peser une tranche ?
    [piece-count] Combien de tranches doit-elle donner ?
    [plate-name] Comment s'appelle l'assiette ?
    [plate-price] Combien paie le client ?
    [part-name] Que met-on sur l'assiette ?
    [part-weight] Combien en sert-on ?
    [part-cost] Combien cela coûte-t-il à l'achat ?
    [part-yield] Quelle part de l'achat peut être servie ?
    [part-waste] Quelle part de cela est jetée malgré tout ?
    [formula-name] Comment s'appelle-t-elle ?
    [work] Comment fait-on ? Une phrase
    [at-opening] Combien de portions sont prêtes ?
    [in-at] À quelle heure est-il entré ?
    [out-at] À quelle heure est-il sorti ?
    [ends-at] À quelle température la pâte doit-elle sortir ?
    [ingredient] Quel ingrédient ?
    [percent] Combien, de la base ?
    [water-in] Combien d'eau contient-il ?
    [stage] Qu'est-ce qui est fait avant ?
    [takes] Combien entre dans l'étape, de toute la base ?
    [starter] Combien de levain mûr, de toute la base ?
    [hydration] Combien d'eau a le levain, de sa farine ?
    [base] Combien de base en tout, étapes comprises ?
    [total] Combien de tout ensemble ?
    [pieces] Combien de pièces ?
    [each] Combien pèse chacune à la division ?
    [lost] Combien est perdu avant la division ?
    [of-mass] Combien y en a-t-il ?
    [step] Quel est le plus petit pas de la balance ?
    [flour-at] À quelle température est la farine ?
    [before-at] À quelle température est ce qui est fait avant ?
    [dough-at] À quelle température veut-on la pâte ?
    [coldest] À quelle température est l'eau la plus froide ?
    [room] À quelle température est la salle ?
    [friction] Avec quelle friction compte-t-on ?
    [water-at] À quelle température était l'eau ?
    [ice] Combien de l'eau était de la glace ?
    [came-out-at] À quelle température est sortie la pâte ?
    [freeze-as] Sous quel nom est-elle gardée ?
    [mark] À partir de quelle note est-ce bon ? De 1 à 9
    [cut] Qu'est-ce qui entre ? Les préparations d'un nom vont ensemble
    [cut-mass] Combien pèse le tout ?
    [thickness] Quelle est l'épaisseur d'une pièce au plus épais ?
    [meat-water] Combien d'eau contient-elle ?
    [bath-water] Combien d'eau dans le bain ?
    [bath-salt] Combien de sel dans le bain ?
    [sauce-name] Quelle sauce ou pâte ?
    [sauce-mass] Combien en entre-t-il ?
    [sauce-salt] Combien de sel, d'après l'étiquette ?
    [sauce-water] Combien d'eau, d'après l'étiquette ?
    [held-at] À quelle température sont pièce et bain ?
    [core] Combien de sel au cœur ?
    [lasting] Après combien d'heures faut-il le dire ?
    [out-mass] Combien pèse le tout, égoutté ?
    [bath-after] Quelle est la force du bain remué ?
    [bath-mass] Combien pèse le bain maintenant ?
    [in-piece] Combien de sel dans la pièce, par appareil ?
   *[within] À combien de points près a-t-on lu ?
}
# What is asked for of one thing of several, such as a dish.
book-entry-about = { $about } : { $caption }
book-entry-hint = { $field ->
    [slab-mass] Touchez ce qui est sur la balance, ou écrivez.
    [slab-ends] Rien, si aucun n'est mis de côté.
    [plate-price] Rien, pour ne pas avoir de prix.
    [part-yield] Rien, si c'est tout.
    [part-waste] Rien, s'il n'y en a pas.
    [in-at] Rien, si c'est maintenant. Le jour se choisit à côté.
    [out-at] Rien, si c'est maintenant. Le jour se choisit à côté.
    [friction] Seulement jusqu'à ce qu'une pâte soit mesurée.
    [takes] Rien, s'il n'en entre pas.
    [starter] Rien, s'il n'y en a pas.
    [cut-mass] Touchez ce qui est sur la balance, ou écrivez.
    [thickness] Longue et ronde : son diamètre.
    [sauce-salt] Si l'étiquette donne le sodium : 2,5 fois cela.
    [sauce-water] Rien, si personne ne sait.
    [core] En pour cent du poids cru. Rien pour ne pas le dire.
    [lasting] Rien pour ne pas le dire.
    [out-mass] Les mêmes pièces, sans récipient.
    [bath-after] Pour cent de toute la saumure, par le poids d'un récipient connu ou un appareil.
    [in-piece] Toute hachée. Pour cent de ce qui est sorti.
   *[other] {""}
}
book-expected = { $field ->
    [cut-pieces] écrivez un nombre de 1 à 500
    [money] écrivez un montant et sa monnaie, comme 26 EUR
    [cost] écrivez un montant, sa monnaie et la masse achetée, comme 2,40 EUR/kg
    [yield] écrivez un pourcentage au-dessus de 0 et jusqu'à 100, comme 75
    [waste] écrivez un pourcentage de 0 à moins de 100, comme 10
    [share] écrivez un pourcentage de la base, au-dessus de 0, comme 70
    [water-in] écrivez un pourcentage de 0 à 100
    [hydration] écrivez un pourcentage de sa farine, de 30 à 300
    [pieces] écrivez un nombre de 1 à 10000
    [lost] écrivez un pourcentage de 0 à moins de 50
    [mark] écrivez une note de 1 à 9
    [degrees] écrivez des degrés, comme 12
    [words] écrivez un nom court d'une ligne
    [sentence] écrivez une phrase de 200 lettres au plus
    [portions] écrivez un nombre de 0 à 10000
    [time] écrivez une heure du jour, comme 9:30
    [mass] écrivez un poids au-dessus de zéro, en grammes ou avec son unité, comme 250 ou 1,2kg
    [mass-or-none] écrivez un poids de zéro ou plus, en grammes ou avec son unité, comme 250 ou 1,2kg
    [thickness] écrivez des millimètres au-dessus de zéro, comme 30
    [meat-water] écrivez un pourcentage de 20 à 90, comme 75
    [sauce-salt] écrivez un pourcentage au-dessus de 0 et jusqu'à 50, comme 16
    [sauce-water] écrivez un pourcentage qui avec le sel fasse au plus 100, ou rien
    [temperature] écrivez une température, comme 4 ou 39degF
    [core] écrivez un pourcentage du poids cru, comme 1,6
    [lasting] écrivez une durée au-dessus de zéro, comme 5 pour des heures ou 90min
    [strength] écrivez un pourcentage du tout de 0 à 26,395, qui est la saturation à 60 °F
    [within] écrivez des points de pourcentage au-dessus de 0, comme 0,2
   *[percent] écrivez un pourcentage, comme 1,8
}
# A time of day and its day.
book-now = maintenant
book-today = aujourd'hui
book-yesterday = hier
book-moment = { $problem ->
    [to-come] { $value } est encore à venir. Choisissez d'abord le jour, ou écrivez une heure passée.
    [skipped] { $value } n'existe pas : l'heure avance et la saute.
    [twice] { $value } arrive deux fois, car l'heure recule. Écrivez son décalage derrière, comme 2:10+02:00.
   *[other] { $value } n'est pas une heure du jour. Écrivez des heures et des minutes, comme 9:30.
}
