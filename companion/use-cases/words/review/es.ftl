# Un servicio en frases.
review-purchase = { $kind ->
    [tin] cubeta
    [fish] pescado
    [cut] pieza
   *[batch] elaboración
} { $id }
review-purchase-labelled = { $kind ->
    [tin] cubeta
    [fish] pescado
    [cut] pieza
   *[batch] elaboración
} { $id }, { $label }
review-part = { $part ->
    [trim] recorte
    [cook] cocción
    [press] prensado
    [spill] derrame
    [tasting] cata
    [portioned] racionado
    [left] resto
    [should-be-left] debería quedar
   *[unaccounted] sin explicar
}
review-not-known = no se sabe
review-interval = de { $low } a { $high }

review-one-portion = Una ración de { $mean }.
review-evenness = Media { $mean } ({ $mean_in }), desviación { $spread } ({ $spread_in }).
review-hand = De eso, la báscula pone { $scale } y la mano { $hand }.
review-hand-hidden = La dispersión de la báscula tapa la de la mano.
review-sample-none = (muy pocas para hablar de desviación.)
review-sample-small = (muestra pequeña: el intervalo dice lo poco que se sabe.)
review-sample-some = (menos de 30 raciones: los límites son provisionales.)
review-percentiles = El 5 % está por debajo de { $low }, la mitad por debajo de { $middle }, el 95 % por debajo de { $high } (percentiles por { $method }).
review-cost = { $short } de { $n } con falta, { $heavy } con sobra; { $given } regalados por encima del objetivo.
review-cost-money = { $short } de { $n } con falta, { $heavy } con sobra; { $given } regalados por encima del objetivo, { $money }.
review-cost-part = { $short } de { $n } con falta, { $heavy } con sobra; { $given } regalados por encima del objetivo, { $money } en las { $costed } de coste conocido.
review-cost-not-known = { $short } de { $n } con falta, { $heavy } con sobra; { $given } regalados por encima del objetivo; su coste no consta.
review-cost-both = Sin los pesos dudosos: { $relied } Con ellos: { $all }
review-usual = Lo habitual es { $mean } en { $services } servicios, cada noche a menos de { $within } de eso 19 de cada 20 veces; esta noche { $tonight }.
review-usual-not-known = Aún no se sabe su peso habitual: hacen falta { $portions } raciones esta noche y { $services } servicios anteriores con otras tantas.
review-capability = Capacidad Cp { $cp } ({ $cp_in }), Cpk { $cpk } ({ $cpk_in }); con 1 la desviación cabe justo en la tolerancia.

review-too-few = Pocas raciones para decir si fue regular: hacen falta { $portions }.
review-steady = Regular, hasta donde se puede decir.
review-false-alarms = De los servicios regulares, de 1 en { $services } como mucho se dice algo falso, contando todos los platos.
finding-grew = { $way ->
    [up] se hizo más pesado{ $since }: { $by } de media sobre lo habitual{ $seen }
   *[down] se hizo más ligero{ $since }: { $by } de media bajo lo habitual{ $seen }
}
finding-off-usual = { $by } { $way ->
    [up] más pesado
   *[down] más ligero
} que de costumbre
finding-moved = { $by } { $way ->
    [up] más pesado
   *[down] más ligero
} que antes{ $since }
finding-uneven = { $way ->
    [up] menos regular
   *[down] más regular
} que de costumbre
finding-uneven-times = { $way ->
    [up] menos regular
   *[down] más regular
} que de costumbre: desviación { $times } veces la de siempre
finding-uneven-later = { $way ->
    [up] menos regular
   *[down] más regular
} hacia el final
finding-since = desde las { $time } más o menos
finding-seen = visible a las { $time }

doubt-failed-test = { $count } alrededor de una prueba fallida de la báscula
doubt-two-portions = { $count } que quizá sean dos raciones
doubt-off-pan = { $count } sacadas con la cubeta fuera de la bandeja
doubt-instrument = { $count } con algo en la bandeja o la mesa inquieta
doubt-figures = media { $mean }, desviación { $spread }
doubt-count = { $count } de { $n } pesos son dudosos: { $reasons }.
doubt-weights = { $count } de { $n } pesos son dudosos: { $reasons }. Con ellos { $all }; sin ellos { $relied }, y solo por estos se juzga y se apunta.
doubt-straddling = { $count ->
    [one] Un peso está tan cerca de un límite que la báscula no sabe de qué lado.
   *[other] { $count } pesos están tan cerca de un límite que la báscula no sabe de qué lado.
}
doubt-straddling-more = Otras { $count } están tan cerca de un límite que la báscula no sabe de qué lado.
doubt-far = { $count ->
    [one] Un peso está lejos de todos los demás ({ $weights }): táchelo si no fue una ración. Las cifras lo incluyen.
   *[other] { $count } pesos están lejos de todos los demás ({ $weights }): tache lo que no fue una ración. Las cifras los incluyen.
}
review-left-out = En ninguna cifra: { $struck } anuladas, { $corrected } corregidas.
review-left-out-topped = En ninguna cifra: { $struck } anuladas, { $corrected } corregidas, de ellas { $topped } completadas.

lead-aim = apunte a { $aim }
lead-aim-below = apunte a { $aim }, por debajo de los { $promised } prometidos
lead-no-aim = sin peso al que apuntar: { $why }
lead-scale = { $dish }: la báscula marcó { $percent } de { $way ->
    [up] más
   *[down] menos
} en { $count } de { $n } raciones y no consta que se arreglara: pruébela antes que nada.
lead-scale-calibrated = { $dish }: la báscula marcó { $percent } de { $way ->
    [up] más
   *[down] menos
} hasta las { $time } ({ $count } de { $n } raciones): pruébela otra vez y después { $aim }.
lead-scale-passed = { $dish }: la báscula marcó { $percent } de { $way ->
    [up] más
   *[down] menos
} hasta las { $time } ({ $count } de { $n } raciones): { $aim }.
lead-far = { $count ->
    [one] { $dish }: un peso de { $n } está lejos de todos los demás: táchelo si no fue una ración; { $aim }.
   *[other] { $dish }: { $count } pesos de { $n } están lejos de todos los demás: tache lo que no fue una ración; { $aim }.
}
lead-weights = { $dish }: { $count } de { $n } pesos son dudosos; sin ellos, { $aim }.
lead-off = { $dish }: { $count } de { $n } { $way ->
    [short] cortas, { $by } por debajo
   *[heavy] pesadas de más, { $by } por encima
} del objetivo de media; { $aim }.
lead-finding = { $dish }: { $finding }; { $aim }.
lead-plain = { $dish }: { $aim }.
lead-steady = { $dish } fue regular: { $aim }.

no-aim-coarse = { $count } de { $n } raciones están más cerca de un límite de lo que la báscula distingue
no-aim-too-few = { $count ->
    [one] una ración fiable
   *[other] { $count } raciones fiables
}, hacen falta { $fewest } o más
no-aim-no-spread = no hay desviación, así que no hay nada que sopesar
no-aim-too-cheap = una ración corta cuesta demasiado poco frente al género para que compense: revise los dos precios
no-aim-misfit = la desviación de { $spread } no cabe en esta tolerancia; cabría hasta { $fits }, o amplíe la tolerancia
no-aim-other = { $why }

advice-aim = Apunte a { $aim }: así, { $short } con falta y { $heavy } con sobra{ $basis }{ $held } (según { $n } raciones).
advice-made-again = , lo más barato si una corta cuesta { $cost }, su género otra vez
advice-as-said = , lo más barato si una corta cuesta { $cost }, como se indicó
advice-topped-up = , porque las cortas se completan de la cubeta al coste de lo que les falta
advice-share = , para que con un 95 % de confianza no haya más de { $share } con falta
advice-promise = ; compensaría bajar, pero al cliente se le promete el objetivo
advice-as-it-is = ; no salen ligeras, así que más solo sería regalar
advice-below = Son { $by } menos de los { $promised } que se prometen al cliente: usted lo ha permitido.
advice-cut-off = El lado ligero está cortado, como donde se completan las ligeras.
advice-longer = El lado ligero llega más lejos que el pesado.
advice-saving = Una desviación { $by } menor ahorra { $saving } al mes, con { $portions } raciones ({ $services } servicios como este).
advice-saving-rate = Una desviación { $by } menor ahorra { $saving } al mes ({ $rate } por cada gramo), con { $portions } raciones ({ $services } servicios como este).
saving-one-gram = { $dish }: un gramo menos en cada ración, { $saving } al mes.
saving-to-aim = { $dish }: bajar la media { $by } hasta lo aconsejado, { $saving } al mes.
saving-narrower = { $dish }: una desviación { $by } menor, { $saving } al mes.
saving-unaccounted = { $dish }: encontrar los { $by } sin explicar, { $saving } al mes.

failed-found = a las { $when } una pesa de { $known } marcó { $read }, { $out } de error; el límite en servicio es { $limit } (OIML R 76-1, 3.5.2)
failed-when = { $time } del { $day }
failed-calibrated = antes de calibrar la báscula a las { $when }
failed-passed = antes de una prueba superada a las { $when }
failed-not-right = y no consta que la báscula se arreglara desde entonces
failed-after = { $count } de { $n } pesadas tras una prueba fallida, { $right }: { $found }.
failed-food = Si el error crece con la carga, { $shown } en pantalla eran { $food } de género.
failed-last-good = y después de la última buena, a las { $when }
failed-none-good = y no consta ninguna buena antes
failed-before = { $count } de { $n } pesadas antes de una prueba fallida { $good }: { $found }. No se sabe a cuáles alcanzó el error.
failed-before-too = { $count } de { $n } pesadas antes de esa prueba { $good }. No se sabe a cuáles alcanzó el error.
failed-in-figures = una prueba de la báscula falló a las { $time } del { $day } ({ $measured }); lo pesado alrededor está en estas cifras tal como lo marcó la báscula: vea evenhand service show --day { $date }
failed-measured = { $known } marcó { $read }, { $out } de error; límite { $limit }
failed-portion-before = Pesada antes de una prueba fallida ({ $time }: { $measured }).
failed-portion-after = Pesada tras una prueba fallida ({ $time }: { $measured }).

# La hoja para la pared.
page-title = Servicio del { $day }
page-portions = { $count ->
    [one] { $count } ración
   *[other] { $count } raciones
}
page-first-order = primera comanda { $time }
page-last-order = última comanda { $time }
page-given-away = regalado por encima de los objetivos
page-target = objetivo { $target } ± { $within }
page-target-between = objetivo { $target }, de { $low } a { $high }
page-spread = desviación { $spread }
page-counts = { $short } con falta, { $heavy } con sobra de { $n }
page-given = { $mass } regalados
page-given-money = { $mass } regalados, { $money }
page-aim = Apunte a { $aim }
page-before = { $count ->
    [0] ningún servicio antes
   *[other] { $count } antes, esta noche
}
page-test-failed = prueba de báscula fallida
page-by-mass = raciones por peso
page-bought = { $purchase }: { $mass } comprados
page-marks = Izquierda: medias de los servicios anteriores, con una desviación a cada lado. Marcas: triángulo abajo falta, punto en peso, triángulo arriba sobra. { $alarms } Los intervalos aciertan 19 de cada 20 veces con raciones de reparto normal; lo que uno deja abierto no se sabe. El ahorro supone { $services } servicios al mes como este. Más: evenhand service show.
page-more-dishes = Y { $count } más: vea evenhand service show.
page-more = Más: evenhand service show

# What plates cost, and every gram of some days.
plate-cost = { $plate }: { $cost }
plate-cost-price = { $plate }: { $cost } de { $price }, quedan { $margin } (el { $share } es género)
plate-component = { $name }: { $weight } a { $rate }, { $cost }
plate-not-known = { $plate }: coste desconocido. { $why }
plate-not-served = { $dish } no tiene raciones en este servicio: racione algunas o mire otro servicio.
plate-no-cost = No se sabe cuánto cuesta { $dish }: abra una cubeta con su precio o dé un coste al plato.
plate-currency = { $name } cuesta en otra moneda que el resto del plato.
plate-empty = El plato no tiene componentes.
days-bought = { $first } a { $last }: { $mass } comprados en { $count ->
    [one] una compra
   *[other] { $count } compras
}
days-not-weighed = { $count ->
    [one] De una compra
   *[other] De { $count } compras
} nadie pesó el resto: lo que se fue sin nombre no se sabe.
days-beside = Además se racionaron { $mass } de ninguna compra registrada.
before-doubted = Servicios anteriores con pesos dudosos, que no cuentan: { $days }.
before-doubted-day = { $day }, { $doubted } de { $count }
none-counts =
    { $count ->
        [one] { $dish }: su única ración está anulada; no hay nada que decir.
       *[other] { $dish }: ninguna de sus { $count } raciones cuenta ya; no hay nada que decir.
    }
