# Elaboraciones registradas: qué toca, qué se halló, qué lo impide.
batch-due = { $task ->
    [turn] Dar la vuelta
   *[take-out] Sacar
}{ $when ->
    [overdue] : con { $span } de retraso.
    [now] {" "}ya.
   *[in] {" "}dentro de { $span }.
}
batch-less-than-a-minute = menos de un minuto
batch-days = { $days } d
batch-days-hours = { $days } d { $hours } h
batch-heavier = { $percent } % más pesado que al principio: revise lo pesado
batch-lost = { $lost } % perdido de { $aim } %, faltan { $to_go }
batch-down = { $lost } % perdido de { $aim } %, ya está
batch-mark = { $mark } de 9

batch-outcome = { $outcome ->
    [kept] dentro del límite
    [broken] fuera del límite
    [running] dentro del límite hasta ahora, sin acabar
    [cannot-tell] el registro no permite saberlo
    [too-close] demasiado justo para decirlo
   *[noted] a tener en cuenta
}
batch-furthest = lectura más alejada { $reading }, límite { $side ->
    [at-least] como mínimo
   *[at-most] como máximo
} { $limit }
batch-beyond = { $said }; hasta { $beyond } fuera de él
batch-beyond-allowed = { $said }; hasta { $beyond } fuera de él, se permiten { $allowed }
batch-gaps = { $count ->
    [one] { $total } sin lecturas en 1 hueco
   *[other] { $total } sin lecturas en { $count } huecos
}
batch-probe = { $said }; la sonda acierta hasta { $within } (k = 2)
batch-log-empty = el registro está vacío
batch-other-limit = el límite de conservación en frío no es solo de temperatura: { $why }

batch-no-such = no se pesó nada con el n.º { $item }
batch-not-there = se sacó { $taken } y solo hay { $there }
batch-renamed = n.º { $item }: { $was } está registrado como lo que es; anule antes esa línea, con un motivo
batch-other-way = se dijo { $now } y está registrado { $was }; diga por qué es otra, queda registrado
batch-empty = no se escribió nada: escriba algo o déjelo
batch-not-in-bath = nada de esta elaboración se pesó al entrar en salmuera o adobo
batch-words = las palabras son demasiado largas o contienen algo que no es una letra: escríbalas de nuevo
batch-soak = lo que salió del baño no puede ser de lo que entró: péselo otra vez
batch-line = la línea { $line } no se puede cambiar así
batch-not-ready = no está lista: { $why }

batch-nameless = el n.º { $item } aún no tiene nombre; diga qué es, por si es un agente de curado
batch-called-curing = el n.º { $item } está registrado como corriente y se llama { $name }, como se llaman los agentes de curado; anule su nombre y póngalo como agente de curado
batch-unknown = el n.º { $item }, { $name }, es { $percent } % de la carne, como podría serlo un agente de curado, y no está en la lista de lo que se sabe sin nitrito; lea su envase y diga qué lleva
batch-way-not-said = lleva { $agent } y su nitrito no se comparó con un límite: diga cómo se cura
batch-no-agent = se dijo una forma de curado, pero no hay agente de curado registrado
batch-which-is-meat = diga cuál es la carne: { $items }
batch-item = n.º { $item }, { $name }
batch-contradiction = se dijo { $said } y se pesó { $weighed }; cuenta el registro, corrija lo que esté mal
batch-amount = falta pesar algo que pide el cálculo: { $what ->
    [meat] el peso en crudo de la carne
    [pickle] el agua, la sal y el azúcar de la salmuera
    [pick-up] la parte de su peso en crudo que absorbe la carne
   *[other] { $why }
}
batch-over-as-written = hay anotadas { $ppm } ppm de nitrito añadido, como máximo { $most } ppm para { $method }
batch-not-as-weighed = hay anotadas { $written } ppm de nitrito añadido, y lo pesado da { $ppm } ppm
batch-not-as-weighed-unknown = hay anotadas { $written } ppm de nitrito añadido, y con lo pesado no se puede saber
batch-cold-store = la cámara estuvo fuera de su límite: { $found }

batch-something-else = el n.º { $item } se pesó y no está en su proporción: apártela y empiece otra vez
batch-renamed-since = el n.º { $item } está registrado como { $now } y en su proporción es { $aimed }: apártela y empiece otra vez
batch-broken-ratio = su proporción registrada no tiene sentido: apártela y empiece otra vez

# Cada línea del registro de un lote, sin su hora.
batch-wrote-titled = se llama { $title }
batch-wrote-weighed = n.º { $item }: { $mass } { $way ->
    [back] retirados
   *[in] añadidos
}
batch-wrote-weighed-at = n.º { $item }: { $mass } { $way ->
    [back] retirados
   *[in] añadidos
}, a { $at }
batch-wrote-named = el n.º { $item } es { $name }
batch-wrote-taken-out = se sacaron { $mass } de la mezcla
batch-wrote-planned = entra: { $into }; sale: { $due }
batch-wrote-planned-turned = entra: { $into }; sale: { $due }; hay que darle la vuelta cada { $every }
batch-wrote-aimed = se mezcla según una proporción
batch-wrote-as-you-go = se pesa lo que entra; el recipiente pesa { $vessel }
batch-wrote-put-aside = no se mezcla más
batch-wrote-turned = se le dio la vuelta
batch-wrote-came-out = salió
batch-wrote-to-lose = debe perder el { $percent } % de { $green }: hasta { $down }
batch-wrote-cured = curado: { $method }
batch-wrote-cured-for = curado de otro modo: { $method }; { $reason }
batch-wrote-packet = n.º { $item }: en su envase pone { $packet }
batch-wrote-reweighed = pesa { $mass }
batch-wrote-stored = cámara a { $at }
batch-wrote-dough = masa amasada; el amasado y el local añadieron { $rise } K
batch-wrote-into-bath = { $mass } de { $cut } a un baño con { $strength } % de sal, a { $at }
batch-wrote-out-of-bath = fuera del baño: { $mass }; su sal no se midió
batch-wrote-out-bath-after = fuera del baño: { $mass }; el baño tenía después { $strength } ± { $within } % de sal{ $bath ->
    [none] {""}
   *[other] {" "}y pesaba { $bath }
}
batch-wrote-out-salt = fuera del baño: { $mass }, con { $salt } ± { $within } % de sal
batch-wrote-yielded = salieron { $mass } de { $name }
batch-wrote-yielded-dense = salieron { $mass } de { $name }, { $density } kg/l
batch-wrote-noted = nota: { $text }
batch-wrote-tasted = catado, { $mark } de 9: { $note }
batch-wrote-ready = listo: nada lo impedía
batch-wrote-ready-nitrite = listo, con { $ppm } ppm de nitrito añadido, de { $most } permitidas como máximo ({ $method })
batch-wrote-struck = línea { $line } tachada: { $reason }

# Lo que salió de lo que se remojó, infusionó, prensó o coló.
batch-yields-row = por uno de { $of }: entran { $into }, { $out }; se pierden { $lost }; { $mark }
batch-yields-density = {" "}a { $density } kg/l
batch-yields-not-tasted = sin catar
batch-yields-more-than-went-in = salió más de lo que entró: algo que entró no se pesó
batch-yields-usual = { $name }: { $mean } por uno de { $of }, en { $batches } lotes; el próximo queda entre { $from } y { $to } ocho de cada diez veces
batch-yields-not-known = { $name }: aún no se sabe cuánto sale normalmente; pese tres lotes
batch-yields-left-out = { $count } sin contar: sin { $of }, o no se pesó nada de lo que salió
