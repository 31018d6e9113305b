# Días y duraciones. Los días cuentan desde el lunes.
weekday = { $nth ->
    [1] lunes
    [2] martes
    [3] miércoles
    [4] jueves
    [5] viernes
    [6] sábado
   *[7] domingo
}
weekday-short = { $nth ->
    [1] lun
    [2] mar
    [3] mié
    [4] jue
    [5] vie
    [6] sáb
   *[7] dom
}
month = { $nth ->
    [1] enero
    [2] febrero
    [3] marzo
    [4] abril
    [5] mayo
    [6] junio
    [7] julio
    [8] agosto
    [9] septiembre
    [10] octubre
    [11] noviembre
   *[12] diciembre
}
month-short = { $nth ->
    [1] ene
    [2] feb
    [3] mar
    [4] abr
    [5] may
    [6] jun
    [7] jul
    [8] ago
    [9] sept
    [10] oct
    [11] nov
   *[12] dic
}
day = { $weekday } { $date } de { $month }
day-short = { $date } { $month }

minutes = { $count ->
    [one] { $count } minuto
   *[other] { $count } minutos
}
