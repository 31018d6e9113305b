# Les températures entre lesquelles rester, en degrés entiers.
heat-band = de { $low } à { $high } °C (de { $low_fahrenheit } à { $high_fahrenheit } °F)
heat-one-temperature = { $celsius } °C ({ $fahrenheit } °F)

# Les relevés qu'on a dans toute cuisine, et ce qui leur arrive.
heat-log = { $name ->
    [oven] four
    [stock] marmite de fond
    [store] chambre froide
    [core] à cœur
   *[other] { $written }
}
heat-marker = { $word ->
    [fire-out] feu éteint
    [loaded] chargé
    [taken-out] sorti
    [into-the-cold] au froid
    [solid] solide
    [door-open] porte ouverte
    [door-shut] porte fermée
    [lit] allumé
   *[other] { $written }
}

# Quand la plage est atteinte, quand elle est quittée.
forecast-coming = { $side ->
    [hot] Trop chaud
    [cold] Trop froid
   *[other] Pas encore
} jusqu'à { $enters } ; puis dans la plage jusqu'à { $leaves }, environ { $stay }.
forecast-coming-stays = { $side ->
    [hot] Trop chaud
    [cold] Trop froid
   *[other] Pas encore
} jusqu'à { $enters } ; puis y reste sans doute.
forecast-enters-leaves = Entre dans la plage { $enters } ; en sort { $leaves }.
forecast-enters = Entre dans la plage { $enters }.
forecast-leaves = En sort { $leaves }.
forecast-inside = Dans la plage, jusqu'à { $leaves }.
forecast-inside-stays = Dans la plage, et y reste sans doute.
forecast-not-coming = À ce train, la plage n'est pas atteinte.
forecast-between = entre { $early } et { $late }
forecast-not-before = pas avant { $early }, peut-être jamais

# Pourquoi il n'y a pas de prévision, et ce qu'il faudrait.
why-too-few = Trop peu de mesures pour le dire.
why-silent = La sonde se tait : pas de prévision.
why-still = Ça ne bouge presque pas : pas de prévision.
why-changed = Ça évolue autrement qu'avant : pas encore connu. Laissez la sonde en place quelques minutes.
why-doubtful = Pas encore connu : trop d'heures conviennent. Laissez la sonde en place et dites où se trouve le produit.
why-plateau = Pas encore connu : ça gèle ou dégèle en chemin, ce qui ne peut se prévoir d'ici.
why-stalled = Pas encore connu : ça ralentit tant que la surface est humide. Gardez la sonde immobile et redemandez quand ça monte plus vite.

# Combien de prévisions se sont vérifiées.
record-none = Aucune prévision de cette cuisine n'est encore arrivée à terme.
record-held = { $counted ->
    [1] La seule prévision arrivée à terme { $held ->
        [1] s'est vérifiée
       *[other] ne s'est pas vérifiée
    }.
   *[other] Sur les { $counted } dernières prévisions de cette cuisine, { $held ->
        [0] aucune ne s'est vérifiée
        [1] 1 s'est vérifiée
       *[other] { $held } se sont vérifiées
    }.
}
record-limit-none = Rien de ce qui a été dit d’une limite dans cette cuisine n’est encore vérifié.
record-limit-held = { $counted ->
    [1] La seule chose dite d’une limite et vérifiée jusqu’ici { $held ->
        [1] s’est confirmée
       *[other] ne s’est pas confirmée
    }.
   *[other] Sur les { $counted } dernières fois où il a été dit si une limite serait tenue, { $held ->
        [0] aucune ne s’est confirmée
        [1] 1 s’est confirmée
       *[other] { $held } se sont confirmées
    }.
}

# De combien la sonde peut se tromper.
probe-chain = La sonde est juste à { $within } près (k = 2) : type { $kind }, classe { $class }, convertisseur { $converter }, soudure froide { $junction } ; { $source }.
probe-said = La sonde est juste à { $within } près (k = 2), comme indiqué.
probe-unknown = De combien la sonde peut se tromper n'est ni connu ni compté : indiquez probe-within-celsius, ou type, classe, convertisseur et soudure froide sous [probe], dans limits.toml.

# Où va un relevé d'après une limite.
bound-at-most = à { $limit } au plus
bound-at-least = à { $limit } au moins
remedy-chill = en chambre froide
remedy-heat = montez le feu
remedy-look-again = remuez et regardez à nouveau sous peu
remedy-ice-if-it-matters = sur glace si c'est important, ou regardez dans 5 minutes ; plus tard, la glace peut arriver trop tard
remedy-ice = divisez en bacs, sur glace

going-not-started = { $here } maintenant ; le délai de refroidissement part sous { $from }.
going-overdue = { $to } devait être atteint il y a { $ago } ; c'est à { $here } maintenant.
going-in-time = À ce train, { $to } est atteint { $before } avant la limite.
going-perhaps-late = À ce train, { $to } est sans doute atteint { $before } avant la limite, mais peut l'être { $late } trop tard : { $remedy }.
going-perhaps-never = À ce train, { $to } est sans doute atteint { $before } avant la limite, mais ne l'est peut-être jamais : { $remedy }.
going-late = À ce train, { $to } est atteint { $late } trop tard (de { $early } à { $latest }) : { $remedy }.
going-late-or-in-time = À ce train, { $to } est atteint { $late } trop tard (entre à temps et { $latest }) : { $remedy }.
going-late-or-never = À ce train, { $to } est atteint { $late } trop tard (ou jamais) : { $remedy }.
going-missed = À ce train, { $to } n'est pas atteint à temps : { $remedy }.
going-not-enough = Ça ne refroidit peut-être pas assez ; reste { $left } pour atteindre { $to } : { $remedy }.
going-unknown = Reste { $left } pour atteindre { $to } : { $remedy }. { $why }
going-start-unseen = Le relevé ne montre pas le début du refroidissement : compté depuis la première mesure, il reste moins de temps en réalité.

going-beyond = { $here }, limite { $bound } ; hors limite jusqu'à { $time } : { $remedy }.
going-too-close = { $here }, limite { $bound } : trop juste pour le dire, la sonde est juste à { $within } près (k = 2) : { $remedy }.
going-passes = { $here }, limite { $bound } ; à ce train, franchie dans { $time }.
going-passes-soon = { $here }, limite { $bound } ; à ce train, franchie dans { $time } : { $remedy }.
going-keeps = { $here }, limite { $bound }.

going-time-left = Sorti depuis { $out }, limite { $allowed } : reste { $left }.
going-time-up = Sorti depuis { $out }, limite { $allowed } : délai dépassé depuis { $ago }.

going-held = Maintenu { $bound } pendant { $lasted }, limite { $asked }.
going-holding = Maintenu { $bound } pendant { $lasted } sur { $asked } : reste { $left }.
going-hold-ahead = { $here } maintenant ; { $at } sans doute atteint dans { $likely } (entre { $early } et { $late }), puis à maintenir { $asked }.
going-hold-perhaps-never = { $here } maintenant ; { $at } sans doute atteint dans { $likely } (pas avant { $early }, peut-être jamais), puis à maintenir { $asked }.
going-hold-not-coming = { $here } maintenant ; à ce train, { $at } n'est pas atteint.
