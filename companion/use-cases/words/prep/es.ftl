# Cómo está un paso de la mise en place: una palabra corta.
prep-standing = { $standing ->
    [late] TARDE
    [now] YA
    [under-way] en marcha
    [next] sigue
    [later] después
   *[done] hecho
}

prep-latest-about = hacia { $time }
prep-seen-done = visto hecho en la báscula a las { $time }
prep-oven-no-name = { $log }: ningún registro se llama así.
prep-oven-not-recorded = { $log }: sin registrar, no se sabe cuándo estará.
prep-oven-no-band = { $log }: su intervalo no tiene sentido.
prep-oven-coming = { $log } en su intervalo hacia las { $likely } (de { $early } a { $late }); { $advice }
prep-oven-perhaps-never = { $log } en su intervalo hacia las { $likely } (no antes de las { $early }, quizá nunca); { $advice }
prep-oven-inside = { $log } ya en su intervalo; { $advice }
prep-oven-inside-until = { $log } ya en su intervalo, hasta las { $leaves }; { $advice }
prep-oven-not-coming = { $log }: tal como va, no llega a su intervalo.
prep-oven-not-coming-alone = { $log }: tal como va, no llega a su intervalo; { $advice }
prep-oven-unknown = { $log }: { $why }
prep-oven-surprise = { $note }; planeado de nuevo, porque bajó { $way ->
        [faster] más rápido
       *[slower] más despacio
    } de lo previsto a las { $then }, cuando se decía: { $was }
prep-oven-door-too-few = no se sabe qué hace abrir la puerta: { $openings ->
        [0] nunca se anotó
        [one] se anotó una vez
       *[other] se anotó { $openings } veces
    }, hacen falta { $least }; anote "door open" y "door shut"
prep-oven-door-not-of-this = no se sabe qué hace ahora abrir la puerta: las { $openings } veces que se anotó, el horno estaba más caliente o más frío, o no se miró bastante tiempo después

prep-begin = empiece a partir de las { $from }
prep-begin-done = empiece a partir de las { $from }, listo a las { $until }
prep-begin-else = { $begin }; si no, { $action }: después { $then }
prep-now-or-not = ya, a las { $latest } lo más tarde, u hoy no
prep-action-then = { $action }; después, { $begin }
prep-oven-too-short = no es seguro que aguante lo que esto tarda
prep-open-door = abra la puerta ahora { $length }
prep-relight = vuelva a encender el horno

prep-mend-oven = para { $step }, { $action }
prep-mend-more = uno más de { $resource }, de { $from } a { $to }
prep-mend-swap = sirva { $fallback } en lugar de { $preparation }
prep-mend-buy = compre { $preparation } ya hecho
prep-mend-drop = quite { $preparation } de la carta
prep-mend-later = abra { $length } más tarde

prep-more-hands = Más manos no ayudan: los pasos, uno tras otro, tardan demasiado.
prep-short-of = No alcanza: { $resource }.
prep-short-and-late = No alcanza: { $resource }; aun alcanzando, { $late } tarde.
prep-dish-off = { $dish }: fuera de carta hasta { $ready }, { $late } tarde.

prep-open = Sin saber, hay demasiadas formas que probar: { $open }.
prep-open-shortage = si lo que falta es { $resource }
prep-open-more = uno más de { $resource }
prep-open-oven = el horno para { $step }
prep-open-without = sin { $preparation }

prep-no-menu = No hay carta en el registro para el { $day }: haga una o traiga una en Cartas.

prep-not-known = sin saber
prep-lot = { $portions } de { $ready }, usar antes de { $by }
prep-end-of = el final del { $day }
prep-supply-stock = { $name }: en existencia { $lots }
prep-supply-none-needed = { $name }: no hace falta
prep-supply-made = { $name }: hecho
prep-supply-made-short = { $name }: hecho, faltan { $short } para lo necesario
prep-supply-make = { $batches ->
    [one] { $name }: haga una elaboración de { $portions };
   *[other] { $name }: haga { $batches } elaboraciones de { $portions };
}
prep-supply-record = Según las últimas { $count } elaboraciones registradas, cada una da { $portions }.
prep-supply-beyond = El plan lleva { $most } elaboraciones; otras { $more } no tienen pasos en él.
prep-why-short = hacen falta { $needed }, hay { $stock }.
prep-why-begun = ya está empezada.
prep-why-keeping = no se sabe cuánto se conserva: la carta no lo dice.
prep-why-stock = no se sabe cuánto queda: lo que se llevó el { $day } no está registrado.
prep-why-covers = no se sabe cuántas hacen falta: no hay cubiertos previstos.
prep-why-dish = no se sabe cuántas hacen falta: no hay plato { $dish } registrado y la carta no da número.
prep-why-past = no se sabe cuántas hacen falta: ningún servicio anterior de { $dish } está registrado con sus cubiertos.
prep-remedy-left = Anótelo: evenhand prep left "{ $dish }" N --for { $date }
prep-remedy-covers = Anótelos: evenhand prep covers N --for { $date }
prep-remedy-dish = Ponga needs o per_cover en la carta, o registre el plato: evenhand dish add
prep-remedy-past = Ponga needs o per_cover en la carta, o anote los cubiertos que hubo: evenhand prep covers N --for DATE
prep-remedy-keeping = Ponga keeps y su source en la carta.
prep-stock-past = PASADO DE FECHA, no cuenta: { $name }: { $lots }
prep-stock-no-keeping = { $name }: no cuenta, no se sabe cuánto se conserva: { $lots }
prep-stock-unsure = { $name }: como mucho { $lots }; lo que se llevó el { $day } no está registrado
prep-stock-beyond = { $portions ->
    [one] { $name }: se sirvió una ración más de las que había en elaboraciones registradas
   *[other] { $name }: se sirvieron { $portions } raciones más de las que había en elaboraciones registradas
}

prep-week-heading = SEMANA, del { $first } al { $last }
prep-week-make = hacer
prep-week-stock = hay { $portions }
prep-week-made = hecho
prep-week-none = nada

label-moment = { $day }, { $time }
label-use-by = Usar antes de { $by }
label-use-by-end-of = Usar como tarde el { $day }
label-use-by-not-known = Usar antes de: sin saber
label-made = Hecho: { $at }
label-made-not-known = Hecho: sin saber
label-not-begun = Hecho: sin empezar
label-ready = Listo: { $at }
label-not-ready = Listo: aún no
label-lot = Lote: { $lot }
label-lot-tub = Lote: { $lot }, cubeta { $nth } de { $of }
label-allergens = Alérgenos: { $allergens }
label-allergens-none = Alérgenos: ninguno, según la carta
label-allergens-not-entered = Alérgenos: sin anotar
label-keeps = Se conserva { $length } desde que está listo; fuente: { $source }.
label-keeps-not-known = No se sabe cuánto se conserva: la carta no lo dice.
label-mark = Límite de días: { $days } a { $temperature } o menos, contando el primero: { $day } es el último. { $source }.
label-mark-left-out = No se aplica el límite de días, según la carta.

prep-who-missing = { $missing ->
    [one] falta uno libre que sepa
   *[other] faltan { $missing } libres que sepan
}
prep-who-heading = { $name }, { $day }
prep-who-with = con { $names }
prep-who-passes = pasa a { $names }
prep-who-nothing = Nada que hacer.
prep-opening-heading = RELEVO A LAS { $time }
prep-opening-later = { $step }: sin empezar, listo a las { $until }
prep-opening-rests = { $step }: en reposo hasta { $until }
prep-opening-under-way = { $step }: en marcha hasta { $until }

# La lista del día en papel.
prep-print-step = [ ] de { $from } a { $until }: { $step } ({ $takes })
prep-print-page = { $list }: página { $page } de { $pages }
prep-list-heading = PREPARACIÓN PARA EL { $day }
prep-list-opens = el servicio abre a las { $opens }; así estaba a las { $now }
prep-list-start-by = empezar
prep-list-latest = límite
prep-list-takes = dura
prep-list-what = qué
prep-list-will-be-late = LLEGARÁ TARDE
prep-list-to-begin = POR EMPEZAR
prep-list-batches = LOTES
prep-list-done = HECHO
prep-list-decides = la cadena que decide el día
prep-list-unknown = se anotó «{ $step }», que ya no está en ninguna carta
prep-list-late = TARDE: tal como está, no todo queda listo a tiempo; lo peor llega { $late } tarde.
prep-list-late-perhaps = Quizá menos: al menos { $least }.
prep-list-no-time = SIN TIEMPO: { $step } no cabe en su horario ni en su horno.
prep-list-no-mend = Ningún cambio por sí solo lo arregla.
prep-list-no-known-mend = No se conoce ningún cambio que por sí solo lo arregle.
prep-list-mends = Cualquiera de estos lo arregla:

# Cuándo suele llegar un pedido, junto a su paso.
prep-delivery-comes = llega entre { $from } y { $to } ocho de cada diez veces, según los últimos { $count }; el plan cuenta con las { $counted } (carta: { $menu }); hace falta a las { $needed }
prep-delivery-perhaps-late = puede llegar tarde: entre { $from } y { $to } ocho de cada diez veces, según los últimos { $count }; el plan cuenta con las { $counted }; hace falta a las { $needed }
prep-delivery-not-known = aún no se sabe cuándo suele llegar: marque { $more } más; hace falta a las { $needed }
prep-delivery-risk = DECIDIR antes de { $by }: { $step } puede llegar hasta { $to }, { $late } tarde para su plato.
prep-delivery-risk-else = Si no: { $what }.

# El plan como texto.
prep-plan-opened = El servicio abrió { $at }, hace { $ago }.
prep-plan-opens = El servicio abre { $at }, en { $until }.
prep-plan-moved = Qué pasaría: { $what } llega más tarde.
prep-plan-turned = Otro orden que antes: { $step } va ahora después de { $others }
prep-plan-turned-until = { $turned }, porque no puede empezar antes de { $at }
prep-plan-start-by = empezar
prep-plan-latest = a más tardar
prep-plan-spare = margen
prep-plan-what = qué
prep-plan-no-place = sin sitio
prep-plan-rests = reposa { $over } más que su máximo
prep-plan-decides = * la cadena que decide el día
prep-plan-not-shown = { $count ->
    [one] No se muestra un paso posterior, que empieza después de { $until }: --until FECHA lo muestra.
   *[other] No se muestran { $count } pasos posteriores, que empiezan después de { $until }: --until FECHA los muestra.
}

prep-par-heading = { $dish } para { $day }, { $covers } comensales:
prep-par-heading-weekday = { $dish } para { $day }, { $covers } comensales como otros días iguales de la semana:
prep-par-ready = tener listo
prep-par-ready-said = { $ready } raciones: { $likely } probables y { $margin } de margen (la parte dicha, un décimo de margen)
prep-par-ready-past = { $ready } raciones: { $likely } probables y { $margin } de margen (alcanza cinco de cada seis noches, según { $past } servicios pasados)
prep-par-few-nights = con tan pocas noches nadie sabe de otra clase de noche, como una fiesta
prep-par-make = racionar
prep-par-make-words = { $count }: ayer quedaron { $left }
prep-par-portion = una ración
prep-par-portion-target = { $mass } según su objetivo
prep-par-portion-served = { $mass } como se sirve de verdad, en { $count }
prep-par-food = género listo
prep-par-food-words = faltan { $wanted }, además de { $ready } ya listos
prep-par-start = empezar con
prep-par-range = { $likely }, hasta { $most }
prep-par-yield-said = { $range } con un rendimiento de { $bought } (dicho)
prep-par-yield-past = { $range } con un rendimiento de { $bought } (según { $count } compras recientes)
prep-par-no-yield = no se sabe: no hay rendimiento registrado (`evenhand yield` lo registra, --yield lo dice)
prep-par-start-by = empezar
prep-par-order = pedir
prep-par-order-words = { $range }, además de { $hand } tal como se compra

# Ficheros de cartas y de género que se rechazan.
prep-menu-refused = La carta del { $day } no se puede usar. { $why }
file-refused = El fichero { $path }: { $why }
file-unreadable = no se puede leer ({ $why }).
file-too-long = tiene { $bytes } bytes, y ninguno tiene más de { $most }.
file-no-toml = No es un fichero así en TOML, o algo en él falta, no se conoce o es de otra clase: { $why }
file-field = { $place }: { $field } es «{ $value }»; { $expected }.
file-field-nothing = { $place }: falta { $field }; { $expected }.
file-reversed = { $place }: su tiempo más corto es más largo que el más largo.
file-never-open = { $name } cierra todos los días de la semana; debe trabajar uno al menos.
file-no-such-resource = El paso { $step } necesita { $resource }, que no está entre las manos, hornos y sitios.
file-too-many-places = El paso { $step } necesita { $places } de { $resource }, que tiene { $has }.
file-closes = El servicio cierra antes de abrir.
file-ring = El paso { $step } espera, a través de otros, a sí mismo.
file-no-such-step = Nombra un paso que no está.
file-twice = { $name } está dos veces entre las manos, hornos y sitios.
what-if-no-time = «{ $text }» no nombra un tiempo; escriba qué se retrasa y cuánto, como fish +1h.
what-if-length = «{ $text }» no es un tiempo; escriba uno de más de nada y hasta 30 días, como 1h o 45 min.
what-if-unknown = No hay nada llamado «{ $name }»; hay { $known }.
take-off-not-on-menu = La carta del { $day } no tiene ninguna elaboración llamada { $preparation }.
take-off-refused = Sin { $preparation } la carta no se puede guardar. { $why }
