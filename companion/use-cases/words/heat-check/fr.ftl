# Ce qu'un relevé donne face à sa limite.
finding-empty = Le relevé est vide.
finding-not-of-heat = Aucun relevé de température ne répond à cette limite ; lisez ce qu'elle demande.
finding-not-started = { $side ->
    [at-least] Encore à { $from } ou plus : le délai de refroidissement n'a pas commencé.
   *[at-most] Encore à { $from } ou moins : le délai de réchauffage n'a pas commencé.
}
finding-span = entre { $least } et { $most }
finding-at-least = au moins { $least }
finding-unsure = { $why ->
    [no-cooling-start] Le relevé ne montre pas le début du refroidissement : { $said }
    [no-start] Le relevé ne montre pas le début : { $said }
    [start] Le début du refroidissement n'est pas exact : { $said }
   *[far-apart] Les mesures sont trop espacées pour le dire : { $said }
}
finding-took = de { $from } à { $to } en { $took }, limite { $limit }
finding-not-yet = { $last } après { $took }, pas encore à { $to }, limite { $limit }
finding-warmed-early = réchauffé { $after } après être passé sous { $from }, avant d'être à { $to } et avant la fin de ses { $limit }
finding-worst = { $said } (le pire des { $of } refroidissements du relevé, le n° { $number })
finding-reached = { $to } : atteint en { $took }, limite { $limit }
finding-reached-held = { $said } ; tenu { $held } sur { $asked }
finding-not-yet-bound = { $last } après { $took }, pas encore { $to }, limite { $limit }
finding-given-up = abandonné après { $after }, avant d'atteindre { $to } et avant la fin de ses { $limit }
finding-furthest = mesure la plus éloignée { $furthest }, limite { $bound }
finding-beyond = { $said } ; jusqu'à { $time } au-delà
finding-beyond-allowed = { $said } ; jusqu'à { $time } au-delà, { $allowed } admises
finding-out = { $out } depuis le début du relevé, limite { $allowed }
finding-began = { $first } au début, limite { $bound }
finding-began-or = { $first } au début, limite { $bound } ou { $hot }
finding-days = { $kept } jours depuis le début du relevé, limite { $days } jours, le premier compté
finding-days-end = { $said } : cela dépend de la fin de la journée ici
finding-hold-not-reached = { $bound } : pas atteint
finding-hold-reached = { $bound } : atteint
finding-hold-lasted = { $bound } : { $longest } d'affilée dans le relevé, limite { $asked }
finding-hold-solid = { $solid ->
    [not-said] { $said } (une fois solide, ce que personne n'a noté : mettez le repère « solid » à ce moment)
    [said] { $said } (à partir de quand il a été vu solide)
   *[too-warm] { $said } (il n'était pas à { $at } ou moins avant d'être vu solide)
}
finding-or = { $one } ; ou { $other }
finding-rewarmed = { $clock ->
    [anew] réchauffé au-dessus de { $above }, jusqu'à { $highest } à { $at } ; le délai de refroidissement a recommencé
   *[on] réchauffé au-dessus de { $above }, jusqu'à { $highest } à { $at } ; le délai de refroidissement a continué
}
finding-gaps = { $count ->
    [one] { $total } sans mesure en { $count } trou
   *[other] { $total } sans mesure en { $count } trous
}
finding-probe = { $said } ; la sonde est juste à { $within } près (k = 2)

# Ce qu'une limite demande, en chiffres.
demand-an-instant = un instant
demand-cooling = depuis { $from }{ $stages }
demand-stage = , à { $to } en { $time }
demand-hold = { $at } pendant { $time }
demand-hold-solid = { $solid } jusqu'à être solide, puis { $hold }
demand-within = { $side ->
    [at-least] au moins { $hold }, atteint en { $time }
   *[at-most] au plus { $hold }, atteint en { $time }
} { $start ->
    [left] à partir de { $from }
   *[made] à partir de la préparation
}
demand-time = { $time } au plus
demand-begins = { $said }, en partant de { $at } ou moins
demand-begins-or = { $said }, en partant de { $at } ou moins, ou de { $hot } ou plus
demand-never-above = { $said }, jamais au-dessus de { $at }
demand-days = { $days } jours au plus à { $at } ou moins, le premier compté
demand-any-of = { $side ->
    [at-least] au moins { $holds }
   *[at-most] au plus { $holds }
}
demand-salt = au moins { $percent } % de sel dans l'eau de l'aliment
demand-rule = une règle ; aucun relevé n'y répond

# De quoi parle une limite publiée.
limit-about = { $name ->
    [cooling] aliment cuit qui refroidit
    [cooling-from-ambient] aliment fait d'ingrédients à température ambiante, dès qu'il est fait
    [cold-holding] aliment froid gardé froid
    [hot-holding] aliment chaud gardé chaud
    [hot-holding-roast] rôtis entiers cuits selon cook-roast, gardés chauds
    [reheating] aliment cuit, refroidi et remis en température pour être gardé chaud
    [reheating-microwave] le même au micro-ondes : remué ou tourné, couvert, et laissé couvert 2 min
    [reheating-packaged] aliment prêt à manger emballé par un atelier inspecté, chauffé pour être gardé chaud
    [time-only] aliment sous contrôle du temps et non de la température ; marqué de l'heure de fin, selon des procédures écrites
    [time-only-cold] aliment froid sous contrôle du temps, qui reste frais ; marqué de l'heure de sortie et de l'heure de fin, selon des procédures écrites
    [date-marking] aliment prêt à manger fait ou ouvert ici et gardé au froid plus de 24 h, marqué du jour
    [cook-fish-whole-cut] poisson, pièces de viande entières où rien n'a été introduit, et œufs pour un seul bon, cuits
    [cook-minced] viande et poisson hachés, viande attendrie à la machine et viande injectée (de saumure), cuits : 155 degF pendant 17 s ou l'un des autres
    [cook-poultry] volaille, aliments farcis et farces à la viande, cuits
    [cook-roast] rôtis entiers de bœuf, de porc et d'agneau, et porc salé comme le jambon, dans un four aussi chaud que la section le demande
    [raw-fish-freezing] poisson à servir cru ou peu cuit, congelé contre les parasites ; solide est ce que l'œil voit : mettez le repère « solid » à ce moment du relevé
    [raw-fish-freezing-eu] poisson à manger cru ou presque, congelé contre les parasites dans toutes ses parties ; le poisson d'élevage nourri sans parasites possibles en est dispensé, comme celui d'eaux reconnues indemnes
    [raw-fish-exempt] non congelés contre les parasites : mollusques à coquille, noix de saint-jacques seules, les thons alalunga, albacares, atlanticus, maccoyii, obesus et thynnus, poisson d'élevage nourri de granulés sans parasites vivants, et œufs de poisson hors de leur poche et rincés
    [raw-fish-records] température et durée de la congélation, ou attestation du fournisseur, ou pour le poisson d'élevage l'attestation sur son aliment, gardées 90 jours à partir du service du poisson
    [salt-smoked-fish-vacuum] poisson fumé ou salé sous vide ou autre emballage sans air ; 3,0 % s'il a aussi de 100 à 200 ppm de nitrite
    [salt-smoked-fish-air] poisson fumé emballé à l'air ; certains États demandent plus (Michigan 3 %, R 285.569.8, lu)
    [salt-roe] œufs de poisson salés, réfrigérés
    [receiving-cold] aliment froid à la livraison, là où nulle autre loi ne donne une autre température
    [receiving-hot] aliment cuit livré chaud
    [receiving-eggs] l'air autour des œufs crus à la livraison
    [receiving-frozen] ce qui part congelé est livré congelé
    [receiving-shellfish] mollusques vivants à la livraison ; puis à 5 degC en 4 h
    [shellfish-tags] l'étiquette reste jusqu'à ce que le contenant soit vide, est marquée du jour où le dernier a été servi, et se garde 90 jours dans l'ordre de ce jour
    [variance] une dérogation préalable de l'autorité : saler, fumer pour conserver, ajouter de quoi conserver, emballer sans air autrement que le dit vacuum-packing, viviers de mollusques et germination de graines
    [vacuum-packing] le sous-vide, la cuisson sous vide et la cuisson suivie de refroidissement demandent un plan (HACCP) selon cette section, ou une dérogation
   *[other] { $written }
}
limit-about-nitrite = nitrite entrant dans la viande : { $method }

# Pourquoi ce qui est demandé d'un relevé ne se peut pas.
heat-refused-band = le bas de la plage est au-dessus du haut
heat-refused-spread = l'écart de l'entourage est hors de 0,1 à 100 degC
heat-refused-probe = { $what ->
    [type] le type de la sonde est { $value }, attendu T, K, N ou J
    [converter] le convertisseur de la sonde peut se tromper de { $value } degC, attendu de 0 à 20 degC
    [cold-junction] la soudure froide de la sonde peut se tromper de { $value } degC, attendu de 0 à 20 degC
    [within] la sonde est juste à { $value } degC près, attendu de 0 à 20 degC
   *[class] la classe de la sonde est { $value }, attendu 1 ou 2
}
heat-refused-z = z est { $value } degC, attendu de 3 à 30 degC
heat-refused-z-source = la source de z et de la température de référence manque : indiquez-la
heat-refused-reversed = la correction finit à { $to }, avant de commencer à { $from }
heat-refused-no-reason = la raison manque : dites pourquoi le relevé est corrigé
heat-refused-too-much = la différence est { $value } degC, attendu de -50 à 50 degC et pas 0 : laissez plutôt la période de côté
heat-table-header = l'en-tête est « { $value } », attendu « time,celsius » ou « time,fahrenheit »
heat-table-field = { $field ->
    [time] ligne { $line } : time est « { $value } », attendu une date et une heure avec leur décalage, comme 2026-05-01T10:40:00Z
   *[other] ligne { $line } : { $field } est « { $value } », attendu un simple nombre dans l'unité de l'en-tête
}
heat-table-line = ligne { $line } : elle n'a pas deux colonnes, ou n'est pas du texte
heat-table-reading = ligne { $line } : { $why }
heat-table-empty = le tableau n'a aucune mesure
heat-reading-backward = l'heure { $at } revient avant { $before } : attendu des heures qui avancent toujours
heat-reading-twice = l'heure { $at } est là deux fois avec des températures différentes
heat-reading-absurd = { $value } degC à { $at } est hors de -100 à 1400 degC, ce qu'aucune sonde de cuisine ne lit
