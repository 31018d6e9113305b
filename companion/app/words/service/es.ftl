# Tras el servicio: lo regular que fue el equipo y adónde fue el género.
service-nothing-yet = Aún no hay raciones registradas. Tras el servicio se miran aquí.
service-earlier = Anterior
service-later = Siguiente
service-night = Noche
service-dishes = Platos
service-last-ten = Diez últimos
service-yield = De cubeta a plato
service-money = Dinero
service-everything = Todo
service-summary = { $count ->
    [one] { $count } ración
   *[other] { $count } raciones
}
service-first-order = primera comanda { $time }
service-last-order = última comanda { $time }
service-given-away = { $money } regalados

service-this-one = este servicio, y una desviación a cada lado
service-one-before = un servicio anterior
service-of-all = con pesos dudosos
service-target = objetivo
service-tolerance = tolerancia
service-struck-out = anulada
service-test-failed = prueba de báscula fallida
service-stretch = tramo descrito
service-picked = porción descrita

service-why = ¿Por qué no debe contar?
service-let-it-be = Dejarla
service-strike-out = Anular
service-count-again = Volver a contarla
service-whole-night = Toda la noche
service-evidence = Por qué
service-fold = Plegar
service-below-promise = Apuntar por debajo de lo prometido
service-keep-promise = Mantener lo prometido
service-portion = { $mass } a las { $time }: { $verdict }, { $off }
service-portion-target = Objetivo { $target }, de { $low } a { $high }.
service-portion-struck = Anulada a las { $time }: { $reason }. No cuenta en ninguna cifra.
service-portion-uncertain = La báscula declara ± { $within } (factor de cobertura 2).
service-portion-probe = Sonda { $temperature }.
service-portion-cost = Su género costó { $cost }; de ello, { $given } por encima del objetivo.
service-portion-id = Ración { $number }, número { $id }.
service-span = De { $from } a { $to }
service-span-empty = No hay raciones ahí.

service-closer = Acercar
service-wider = Alejar
service-all = Todo
service-left = Antes
service-right = Luego
service-portion-before = Ración anterior
service-portion-after = Ración siguiente

service-picture-night = { $dish }: { $count ->
    [one] { $count } ración
   *[other] { $count } raciones
} en el tiempo, { $struck } anuladas, de { $low } a { $high }
service-picture-masses = { $dish }: cuántas raciones de qué peso
service-picture-before = { $dish }: la media de este servicio, { $mean }, junto a { $before } anteriores
service-picture-all = { $count ->
    [one] { $count } ración
   *[other] { $count } raciones
}, cada una según los gramos desde su objetivo
service-mean = media { $mean }
service-struck-because = anulada: { $reason }

service-reading = Leyendo todas las raciones
service-elsewhere = Tandas empezadas en otro sitio
service-figures = { $dish }: { $count ->
    [one] { $count } ración
   *[other] { $count } raciones
}, media { $mean }, desviación { $spread }, { $short } con falta, { $given } regalados.
service-figures-money = { $dish }: { $count ->
    [one] { $count } ración
   *[other] { $count } raciones
}, media { $mean }, desviación { $spread }, { $short } con falta, { $given } regalados, { $money }.
service-evenness = media { $mean }, desviación { $spread }, { $short } con falta
service-figures-doubted = { $dish }: { $doubted } de { $count } pesos son dudosos; sin ellos { $relied }; con ellos { $all }; regalados { $given }.
service-no-purchase = No se racionó de ninguna cubeta, pescado o pieza registrada. Indique una al preparar la próxima tanda.
service-bought = { $purchase }: { $mass } comprados
service-cost = Coste { $bought } en compra, { $portioned } ya racionado.
service-possible = { $portions } posibles con lo que queda.
service-more-came-out = Salió más de lo comprado: falta una pesada o está mal.

# What plates cost, and what would save most.
service-no-plates = No hay platos registrados.
service-change-plates = Crear o cambiar platos
service-savings = Lo que más ahorraría en un mes
service-no-savings = No se sabe: ningún plato tiene un coste registrado. Abra una cubeta con su precio o dé un coste a un plato.
