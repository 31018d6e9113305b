# Une formule du livre de la cuisine.
book-stage = { $name } (fait d'avance), { $total }
book-last-bowl = mélange final, { $total }
book-line = { $mass } { $name } ({ $percent } %)
book-starter = levain mûr
book-sum = { $total } en tout, dont { $base } de base ; eau { $hydration } % de la base.
book-pieces =
    { $count ->
        [one] Pour une pièce de { $each }.
       *[other] Pour { $count } pièces de { $each }.
    }
book-too-coarse = { $name } : trop peu pour des pas de { $step }. Ce qui est pesé est à { $off } % près. Prenez une balance plus fine ou faites-en plus à la fois.

# L'eau d'une pâte.
dough-water = Eau à { $at }.
dough-ice = { $ice } de glace et { $water } d'eau à { $coldest }.
dough-too-cold = L'eau devrait être à { $at }, plus de { $warmest }, ce que la levure ne supporte pas. Réchauffez la farine ou la pièce.
dough-too-warm = Même avec toute l'eau en glace la pâte sort trop chaude. Refroidissez la farine ou ce qui est fait d'avance.
dough-rise =
    { $doughs ->
        [one] Le pétrissage et la pièce ont ajouté { $kelvin } degrés à la seule pâte mesurée.
       *[other] Le pétrissage et la pièce ajoutent { $kelvin } degrés, d'après les { $doughs } dernières pâtes mesurées.
    }
dough-give-or-take = Huit pâtes sur dix sortent à moins de { $kelvin } degrés de ce qu'on veut.
dough-few =
    { $more ->
        [one] L'écart possible n'est pas connu avant qu'une pâte de plus soit mesurée.
       *[other] L'écart possible n'est pas connu avant que { $more } pâtes de plus soient mesurées.
    }
dough-by-rule = Eau à { $at }, par le calcul du métier avec la friction donnée. Il ne tient pas compte des quantités : mesurez cette pâte une fois pétrie, et la suivante sera mieux connue.
dough-by-rule-ice = Le calcul du métier donne { $at }, donc de la glace : combien, on ne le sait pas avant d'avoir mesuré une pâte. Prenez l'eau la plus froide et mesurez la pâte.
dough-not-known-yet = Pas encore connu : aucune pâte de ce nom n'a été mesurée. Mesurez farine, eau et pâte de la prochaine ; d'ici là donnez la température de la pièce et une friction.
dough-rose = Le pétrissage et la pièce ont ajouté { $kelvin } degrés.

# Ce que partagent les bons lots.
trials-count =
    { $count ->
        [one] Un lot, { $good } noté { $mark } ou mieux.
       *[other] { $count } lots, { $good } notés { $mark } ou mieux.
    }
trials-left-out =
    { $count ->
        [one] Un lot est laissé de côté : rien de la base, ou quelque chose sans nom.
       *[other] { $count } lots sont laissés de côté : rien de la base, ou quelque chose sans nom.
    }
trials-shared = { $name } { $mean } %, à { $spread } près (dans { $batches } sur { $good })
trials-shared-once = { $name } { $mean } % (dans { $batches } sur { $good })
trials-more-better = Plus de { $name } allait avec une meilleure note. Le hasard seul en donne autant { $chance } fois sur cent.
trials-less-better = Moins de { $name } allait avec une meilleure note. Le hasard seul en donne autant { $chance } fois sur cent.
trials-nothing = Rien de ce qui a varié ne se distingue du hasard dans les notes.
trials-not-known-yet =
    { $more ->
        [one] Ce qui change la note n'est pas encore connu : il faut encore un lot noté.
       *[other] Ce qui change la note n'est pas encore connu : il faut encore { $more } lots notés.
    }
trials-next = Pour en savoir plus, essayez { $name } à { $to } % au lieu de { $from } % et ne changez rien d'autre. Rien ne dit que ce sera meilleur.

# A file of the book, for a screen.
book-unreadable = { $path } ne peut pas être lu : { $why }.
book-file-line = { $file } : la ligne { $line } n'est pas comprise : { $value }
book-file-refused = { $file } : { $why }
book-twice = { $first } et { $second } s'appellent tous deux « { $name } ». Renommez l'un des deux.
book-not-there = « { $name } » n'est pas dans le livre. Revenez et choisissez de nouveau.
book-is-there = « { $name } » est déjà dans le livre, sous { $file }. Choisissez un autre nom.
book-unwritable = { $path } ne peut pas être écrit : { $why }. Rien n'a été changé.
# La page pour qui reprend un plat.
takeover-portion = Une portion fait { $target } ; de { $from } à { $to }, c'est bon.
takeover-formula = À peser
takeover-ends-at = Pétrie, elle doit être à { $at }.
takeover-how = Comment
takeover-steps = Pour quand, le { $day }
takeover-step-done = fait : { $step }
takeover-limits = Limites qui s'appliquent
takeover-watch = À surveiller
takeover-nothing = Rien dans le registre ne se distingue du hasard.
takeover-heavy = Les portions sont d'habitude trop lourdes de { $mean } % (de { $from } à { $to }, sur { $of } services).
takeover-light = Les portions sont d'habitude trop légères de { $mean } % (de { $from } à { $to }, sur { $of } services).
takeover-too-warm = Trop chaude au pétrissage : { $count } des { $of } dernières pâtes.
takeover-too-cold = Trop froide au pétrissage : { $count } des { $of } dernières pâtes.
takeover-more = On met d'habitude { $mean } % de { $name } en plus que ne dit la formule (de { $from } à { $to }, sur { $of } lots).
takeover-less = On met d'habitude { $mean } % de { $name } en moins que ne dit la formule (de { $from } à { $to }, sur { $of } lots).
takeover-tasted = { $day }, note { $mark } : { $note }
takeover-looked-at = Regardés : services { $services }, pâtes { $doughs }, lots { $batches }. Les fourchettes tiennent 96 fois sur cent.
takeover-pictures = Photos
takeover-picture = Photo { $number } ({ $width } sur { $height } pixels)
takeover-picture-of = Photo { $number } : { $caption } ({ $width } sur { $height } pixels)
takeover-picture-broken = La photo { $number } ne se lit plus. Retirez-la et donnez-la de nouveau.
takeover-foot = { $name }, page { $nth } sur { $of }

# Le dessin des lots d'après ce qui en est sorti.
yields-lost = entré et pas ressorti
yields-figures = entre > sort, sur { $of }, et la note

# Pourquoi une formule ou sa pâte ne se peut pas.
book-refused = { $field ->
    [base] Base : elle fait { $value }. Ce dont les parts sont comptées fait 100 % : les farines d'une pâte, étapes comprises.
    [formula] Nom : { $value } n'en est pas un. Écrivez un nom court d'une ligne.
    [ingredients] Ingrédients : { $value }. Une formule en a de 2 à 40.
    [stage] Étape : { $value } ne va pas. Une étape prend des ingrédients de la formule, chacun une fois, et pas plus qu'il n'y en a.
    [percent] { $name } : { $value } n'est pas une part. Écrivez un pourcentage de la base au-dessus de 0.
    [mark] Note : aucune de ces préparations n'atteint { $value }. Goûtez-en plus, ou demandez moins.
    [dough] Température de la pâte : { $value }. Dites à combien elle doit sortir, de 0 à 60 °C.
    [before] Ce qui est fait avant : { $value }. Dites à quelle température, de −30 à 60 °C.
    [warm] { $name } : { $value } n'entre pas dans une pâte. Écrivez une température de −30 à 60 °C, de l'eau de 0 à 100 °C.
    [ice] Glace : { $value } ne se peut pas. C'est au plus toute l'eau.
   *[other] { $name } : { $value } ne peut pas servir.
}
book-refused-name = { $field ->
    [flour] Farine
   *[water] Eau
}
