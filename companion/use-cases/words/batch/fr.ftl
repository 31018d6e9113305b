# Préparations au registre : ce qui est dû, ce qui a été trouvé, ce qui gêne.
batch-due = { $task ->
    [turn] Retourner
   *[take-out] Sortir
}{ $when ->
    [overdue] {" "}: { $span } de retard.
    [now] {" "}maintenant.
   *[in] {" "}dans { $span }.
}
batch-less-than-a-minute = moins d'une minute
batch-days = { $days } j
batch-days-hours = { $days } j { $hours } h
batch-heavier = { $percent } % de plus qu'au début : regardez ce qui a été pesé
batch-lost = { $lost } % perdus sur { $aim } %, encore { $to_go }
batch-down = { $lost } % perdus sur { $aim } %, c'est fait
batch-mark = { $mark } sur 9

batch-outcome = { $outcome ->
    [kept] dans la limite
    [broken] hors limite
    [running] dans la limite jusqu'ici, pas fini
    [cannot-tell] le relevé ne permet pas de le dire
    [too-close] trop juste pour le dire
   *[noted] à noter
}
batch-furthest = relevé le plus éloigné { $reading }, limite { $side ->
    [at-least] au moins
   *[at-most] au plus
} { $limit }
batch-beyond = { $said } ; jusqu'à { $beyond } au-delà
batch-beyond-allowed = { $said } ; jusqu'à { $beyond } au-delà, { $allowed } admises
batch-gaps = { $count ->
    [one] { $total } sans relevé en 1 trou
   *[other] { $total } sans relevé en { $count } trous
}
batch-probe = { $said } ; la sonde est juste à { $within } près (k = 2)
batch-log-empty = le relevé est vide
batch-other-limit = la limite de maintien au froid n'est pas une température seule : { $why }

batch-no-such = rien n'a été pesé sous le n° { $item }
batch-not-there = { $taken } ont été retirés, il n'y en a que { $there }
batch-renamed = n° { $item } : { $was } est au registre pour ce que c'est ; écartez d'abord cette ligne, avec une raison
batch-other-way = { $now } est dit, { $was } est au registre ; dites pourquoi c'est une autre, cela reste au registre
batch-empty = rien n'est écrit : écrivez quelque chose ou laissez
batch-not-in-bath = rien de cette préparation n'a été pesé en entrant en saumure ou marinade
batch-words = les mots sont trop longs ou contiennent ce qui n’est pas une lettre : réécrivez-les
batch-soak = ce qui est sorti du bain ne peut pas être de ce qui y est entré : pesez-le encore
batch-line = la ligne { $line } ne se change pas ainsi
batch-not-ready = pas prête : { $why }

batch-nameless = le n° { $item } n'a pas encore de nom ; dites ce que c'est, au cas où ce serait un agent de salaison
batch-called-curing = le n° { $item } est au registre comme ordinaire et s'appelle { $name }, comme les agents de salaison ; écartez son nom et entrez-le comme agent de salaison
batch-unknown = le n° { $item }, { $name }, fait { $percent } % de la viande, comme pourrait le faire un agent de salaison, et n'est pas sur la liste de ce qu'on sait sans nitrite ; lisez son paquet et dites ce qu'il y a dedans
batch-way-not-said = il y a { $agent }, et son nitrite n'a pas été comparé à une limite : dites comment c'est salé
batch-no-agent = une façon de saler est dite, mais aucun agent de salaison n'est au registre
batch-which-is-meat = dites quelle est la viande : { $items }
batch-item = n° { $item }, { $name }
batch-contradiction = { $said } dit, { $weighed } pesé ; le registre compte, corrigez ce qui est faux
batch-amount = il manque une pesée que le calcul demande : { $what ->
    [meat] le poids cru de la viande
    [pickle] l'eau, le sel et le sucre de la saumure
    [pick-up] la part de son poids cru que la viande absorbe
   *[other] { $why }
}
batch-over-as-written = { $ppm } ppm de nitrite ajouté sont notés, au plus { $most } ppm pour { $method }
batch-not-as-weighed = { $written } ppm de nitrite ajouté sont notés, et la pesée donne { $ppm } ppm
batch-not-as-weighed-unknown = { $written } ppm de nitrite ajouté sont notés, et la pesée ne permet pas de le dire
batch-cold-store = la chambre froide a dépassé sa limite : { $found }

batch-something-else = le n° { $item } a été pesé et n'est pas dans sa proportion : mettez-la de côté et recommencez
batch-renamed-since = le n° { $item } est au registre comme { $now } et dans sa proportion comme { $aimed } : mettez-la de côté et recommencez
batch-broken-ratio = sa proportion au registre n'a pas de sens : mettez-la de côté et recommencez

# Chaque ligne du relevé d'un lot, sans son heure.
batch-wrote-titled = s'appelle { $title }
batch-wrote-weighed = n° { $item } : { $mass } { $way ->
    [back] retirés
   *[in] ajoutés
}
batch-wrote-weighed-at = n° { $item } : { $mass } { $way ->
    [back] retirés
   *[in] ajoutés
}, à { $at }
batch-wrote-named = le n° { $item } est { $name }
batch-wrote-taken-out = { $mass } du mélange retirés
batch-wrote-planned = entrée : { $into } ; sortie : { $due }
batch-wrote-planned-turned = entrée : { $into } ; sortie : { $due } ; à retourner toutes les { $every }
batch-wrote-aimed = mélangé selon une proportion
batch-wrote-as-you-go = on pèse ce qui entre ; le récipient pèse { $vessel }
batch-wrote-put-aside = on ne mélange plus
batch-wrote-turned = retourné
batch-wrote-came-out = sorti
batch-wrote-to-lose = doit perdre { $percent } % de { $green } : jusqu'à { $down }
batch-wrote-cured = salaison : { $method }
batch-wrote-cured-for = autre salaison : { $method } ; { $reason }
batch-wrote-packet = n° { $item } : son emballage indique { $packet }
batch-wrote-reweighed = pèse { $mass }
batch-wrote-stored = chambre froide à { $at }
batch-wrote-dough = pâte pétrie ; le pétrissage et la pièce ont ajouté { $rise } K
batch-wrote-into-bath = { $mass } de { $cut } dans un bain à { $strength } % de sel, à { $at }
batch-wrote-out-of-bath = hors du bain : { $mass } ; son sel n'a pas été mesuré
batch-wrote-out-bath-after = hors du bain : { $mass } ; le bain avait ensuite { $strength } ± { $within } % de sel{ $bath ->
    [none] {""}
   *[other] {" "}et pesait { $bath }
}
batch-wrote-out-salt = hors du bain : { $mass }, avec { $salt } ± { $within } % de sel
batch-wrote-yielded = obtenu : { $mass } de { $name }
batch-wrote-yielded-dense = obtenu : { $mass } de { $name }, { $density } kg/l
batch-wrote-noted = note : { $text }
batch-wrote-tasted = goûté, { $mark } sur 9 : { $note }
batch-wrote-ready = prêt : rien ne s'y opposait
batch-wrote-ready-nitrite = prêt, avec { $ppm } ppm de nitrite ajouté, { $most } permises au plus ({ $method })
batch-wrote-struck = ligne { $line } barrée : { $reason }

# Ce qui est sorti de ce qu'on a trempé, infusé, pressé ou filtré.
batch-yields-row = pour un de { $of } : { $into } à l'entrée, { $out } ; { $lost } perdus ; { $mark }
batch-yields-density = {" "}à { $density } kg/l
batch-yields-not-tasted = non goûté
batch-yields-more-than-went-in = il est sorti plus qu'il n'est entré : une partie de ce qui est entré n'a pas été pesée
batch-yields-usual = { $name } : { $mean } pour un de { $of }, sur { $batches } lots ; le prochain sera entre { $from } et { $to } huit fois sur dix
batch-yields-not-known = { $name } : on ne sait pas encore ce qui sort d'habitude ; pesez-en trois lots
batch-yields-left-out = { $count } non comptés : sans { $of }, ou rien de ce qui est sorti n'a été pesé
