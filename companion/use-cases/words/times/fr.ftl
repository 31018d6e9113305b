# Jours et durées. Les jours se comptent depuis le lundi.
weekday = { $nth ->
    [1] lundi
    [2] mardi
    [3] mercredi
    [4] jeudi
    [5] vendredi
    [6] samedi
   *[7] dimanche
}
weekday-short = { $nth ->
    [1] lun.
    [2] mar.
    [3] mer.
    [4] jeu.
    [5] ven.
    [6] sam.
   *[7] dim.
}
month = { $nth ->
    [1] janvier
    [2] février
    [3] mars
    [4] avril
    [5] mai
    [6] juin
    [7] juillet
    [8] août
    [9] septembre
    [10] octobre
    [11] novembre
   *[12] décembre
}
month-short = { $nth ->
    [1] janv.
    [2] févr.
    [3] mars
    [4] avr.
    [5] mai
    [6] juin
    [7] juil.
    [8] août
    [9] sept.
    [10] oct.
    [11] nov.
   *[12] déc.
}
day = { $weekday } { $date ->
    [1] 1er
   *[other] { $date }
} { $month }
day-short = { $date ->
    [1] 1er
   *[other] { $date }
} { $month }

minutes = { $count ->
    [one] { $count } minute
   *[other] { $count } minutes
}
