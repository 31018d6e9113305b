# Salaison : façons, limites et ce qui a été trouvé en face. Les sources sont
# citées dans leur propre langue.
cure-mark = ◆ NITRITE
cure-agent = { $mark } { $name }, { $fraction }
cure-fraction = { $percent } % de nitrite
cure-method = { $method ->
    [comminuted] viande hachée
    [pumped] injection
    [immersion-pickup] immersion par absorption
    [immersion-equilibrium] immersion à l'équilibre
    [dry] salaison à sec
    [bacon-pumped] poitrine injectée
    [bacon-immersion-pickup] poitrine en immersion par absorption
    [bacon-immersion-equilibrium] poitrine en immersion à l'équilibre
   *[bacon-dry] poitrine salée à sec
}
cure-reckoning = { $sum ->
    [pick-up] nitrite x part de son poids que la viande absorbe x 1000000 / poids de la saumure
    [together] nitrite x 1000000 / (poids cru de la viande + poids de la saumure)
   *[meat] nitrite x 1000000 / poids cru de la viande
}
cure-also-bacon-pumped = La poitrine injectée reçoit aussi 550 ppm d'ascorbate ou d'érythorbate de sodium (9 CFR 424.22(b)(1), lu en citation) ; pesez-le comme un ingrédient à part.
cure-caution = Le nitrite est toxique en surdose. Une limite est un chiffre publié, pas un jugement sur l'aliment : la réglementation locale et les professionnels habilités priment. Salée ou non, la viande crue reste au froid.

cure-at-most = au plus { $most } ppm
cure-level = { $level } ppm exigés (de { $low } à { $high } ppm, c'est admis)
cure-counted = { $counted ->
    [ion] { $asked } d'ion nitrite ({ $sodium } ppm de nitrite de sodium)
   *[sodium] { $asked } de nitrite de sodium
}
cure-stated-quarter-ounce = { $limit } (1/4 oz pour 100 lb de viande, que le manuel arrondit à 156 ppm)
cure-finished = { $limit } ; dans le produit fini au plus { $most } ppm, par analyse
cure-limit-by = { $limit }, selon { $source }

cure-found = { $counted ->
    [ion] { $ppm } ppm de nitrite de sodium ajouté ({ $ion } d'ion nitrite)
   *[sodium] { $ppm } ppm de nitrite ajouté
}
cure-against = { $limit } pour { $method } selon { $source }
cure-over = au-dessus de la limite : { $found }, { $against } ; pas prête
cure-under = en dessous du niveau exigé : { $found }, { $against } ; pas prête
cure-close = trop près de la limite : { $found }, à { $doubt } ppm près, { $against } ; pas prête
cure-under-usual = en dessous du minimum usuel : { $found } ; { $usual } ppm sont d'usage pour une viande salée gardée au froid selon { $source } ; { $against }
cure-within = { $found }, { $against }
cure-other-way = { $said } ; calculé comme { $method } ce serait { $ppm } ppm
cure-other-way-over = { $said } ; calculé comme { $method } ce serait { $ppm } ppm, au-dessus de la limite
cure-no-limit = aucune limite n'est en vigueur pour { $method }

cure-dose = { $dose } g de { $agent } pour 1 kg { $what ->
    [together] de viande et d'eau ensemble
    [water] d'eau
   *[meat] de viande
}
cure-dose-least = { $dose } ; cette balance en pèse { $least } g et plus
cure-dose-nothing = { $target } ppm, ce n'est pas de nitrite du tout : il faut plus de zéro
cure-dose-over = { $target } ppm, c'est au-dessus de la limite pour { $method } : { $limit } selon { $source }
cure-dose-under = { $target } ppm, c'est moins que ce que { $method } doit avoir : { $limit } selon { $source }
cure-dose-beyond-agent = { $target } ppm, c'est plus que ce que cet agent apporte ainsi : prenez-en un avec plus de nitrite, ou que la viande absorbe plus de saumure
cure-dose-beyond-mass = { $target } ppm demandent moins d'un microgramme d'agent, ou plus qu'on ne peut tenir : vérifiez les quantités
cure-too-small = cette balance est juste à { $within } g près, soit { $percent } % d'une dose de { $dose } g ; elle suffit à partir de { $least } g. Dissolvez { $agent } g de l'agent dans { $water } g d'eau et prenez-en { $take } g, étiquetez le reste ou jetez-le ; ou faites { $times } fois la quantité
cure-untold = la balance ne dit pas son échelon de vérification : on prend { $interval }, dix pas de son affichage, le plus grossier possible

cure-nitrate = cet agent contient du nitrate. Le nitrate devient nitrite peu à peu, en semaines, a ses propres limites et n'est pas admis dans la poitrine (9 CFR 424.22(b), de mémoire) ; ce qu'il apporte ne se sait pas en pesant, rien n'est donc calculé ici avec lui. Prenez un agent au nitrite seul, ou une recette éprouvée sous l'œil de quelqu'un d'habilité
cure-mixture = cet agent contient nitrite et nitrate ensemble, pour des viandes séchées des semaines. Les deux ont leurs limites, qui valent ensemble ; rien n'est calculé ici pour les mélanges. Il ne doit jamais remplacer un agent au nitrite seul
cure-potassium = cet agent est du nitrite de potassium. Ses limites dans la poitrine sont d'autres chiffres que ceux du nitrite de sodium, et seul le nitrite de sodium est calculé ici
cure-vegetable = cet agent est une poudre végétale. Le nitrite qu'elle apporte change d'un lot à l'autre et n'est pas sur l'étiquette : rien ne peut être calculé ici avec elle
cure-unusual = { $fraction } est hors de { $low } à { $high }, ce qu'ont les agents vendus pour la cuisine. Relisez le paquet
cure-read-differently = le paquet a été lu { $first } puis { $again } ; lisez-le encore une fois
cure-name-empty = le nom est vide : écrivez ce qu'il y a sur le paquet
cure-name-salt = un agent de salaison ne peut pas s'appeler sel : écrivez ce qu'il y a sur son paquet
cure-name-curing = c'est ainsi que s'appellent les agents de salaison : entrez-le comme agent de salaison, avec le nitrite de son étiquette
