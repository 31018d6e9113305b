# Lo que se halló en un registro frente a su límite.
finding-empty = El registro está vacío.
finding-not-of-heat = Ningún registro de temperatura responde a este límite; lea lo que pide.
finding-not-started = { $side ->
    [at-least] Todavía a { $from } o más: el reloj de enfriado no ha empezado.
   *[at-most] Todavía a { $from } o menos: el reloj de calentado no ha empezado.
}
finding-span = entre { $least } y { $most }
finding-at-least = al menos { $least }
finding-unsure = { $why ->
    [no-cooling-start] El registro no muestra cuándo empezó a enfriar: { $said }
    [no-start] El registro no muestra el comienzo: { $said }
    [start] El comienzo del enfriado no es exacto: { $said }
   *[far-apart] Las lecturas están demasiado separadas para decirlo: { $said }
}
finding-took = de { $from } a { $to } tardó { $took }, límite { $limit }
finding-not-yet = { $last } al cabo de { $took }, aún no a { $to }, límite { $limit }
finding-warmed-early = se volvió a calentar { $after } después de bajar de { $from }, antes de llegar a { $to } y antes de que se cumplieran sus { $limit }
finding-worst = { $said } (el peor de { $of } enfriados del registro, el número { $number })
finding-reached = { $to }: alcanzado en { $took }, límite { $limit }
finding-reached-held = { $said }; mantenido { $held } de { $asked }
finding-not-yet-bound = { $last } al cabo de { $took }, aún no { $to }, límite { $limit }
finding-given-up = abandonado al cabo de { $after }, antes de alcanzar { $to } y antes de que se cumplieran sus { $limit }
finding-furthest = lectura más alejada { $furthest }, límite { $bound }
finding-beyond = { $said }; hasta { $time } fuera de él
finding-beyond-allowed = { $said }; hasta { $time } fuera de él, se permiten { $allowed }
finding-out = { $out } desde que empezó el registro, límite { $allowed }
finding-began = { $first } al empezar, límite { $bound }
finding-began-or = { $first } al empezar, límite { $bound } o { $hot }
finding-days = { $kept } días desde que empezó el registro, límite { $days } días, contando el primero
finding-days-end = { $said }: depende de cuándo acaba aquí el día
finding-hold-not-reached = { $bound }: no alcanzado
finding-hold-reached = { $bound }: alcanzado
finding-hold-lasted = { $bound }: { $longest } seguidos en el registro, límite { $asked }
finding-hold-solid = { $solid ->
    [not-said] { $said } (una vez sólido, y nadie lo anotó: ponga la marca «solid» en ese momento)
    [said] { $said } (desde que se vio sólido)
   *[too-warm] { $said } (no estuvo a { $at } o menos hasta que se vio sólido)
}
finding-or = { $one }; o { $other }
finding-rewarmed = { $clock ->
    [anew] se volvió a calentar por encima de { $above }, hasta { $highest } a las { $at }; el reloj de enfriado empezó de nuevo
   *[on] se volvió a calentar por encima de { $above }, hasta { $highest } a las { $at }; el reloj de enfriado siguió
}
finding-gaps = { $count ->
    [one] { $total } sin lecturas en { $count } hueco
   *[other] { $total } sin lecturas en { $count } huecos
}
finding-probe = { $said }; la sonda acierta con { $within } (k = 2)

# Lo que pide un límite, en cifras.
demand-an-instant = un instante
demand-cooling = desde { $from }{ $stages }
demand-stage = , a { $to } en { $time }
demand-hold = { $at } durante { $time }
demand-hold-solid = { $solid } hasta que esté sólido, después { $hold }
demand-within = { $side ->
    [at-least] como mínimo { $hold }, alcanzado en { $time }
   *[at-most] como máximo { $hold }, alcanzado en { $time }
} { $start ->
    [left] desde que pasa de { $from }
   *[made] desde que se hace
}
demand-time = { $time } como máximo
demand-begins = { $said }, empezando a { $at } o menos
demand-begins-or = { $said }, empezando a { $at } o menos, o a { $hot } o más
demand-never-above = { $said }, nunca por encima de { $at }
demand-days = { $days } días como máximo a { $at } o menos, contando el primero
demand-any-of = { $side ->
    [at-least] como mínimo { $holds }
   *[at-most] como máximo { $holds }
}
demand-salt = al menos { $percent } % de sal en el agua del alimento
demand-rule = una norma; ningún registro la responde

# De qué trata un límite publicado.
limit-about = { $name ->
    [cooling] comida cocinada que se enfría
    [cooling-from-ambient] comida hecha con ingredientes a temperatura ambiente, desde que se hace
    [cold-holding] comida fría que se conserva fría
    [hot-holding] comida caliente que se mantiene caliente
    [hot-holding-roast] asados enteros cocinados según cook-roast, que se mantienen calientes
    [reheating] comida cocinada, enfriada y regenerada para mantenerla caliente
    [reheating-microwave] lo mismo en el microondas: removida o girada, tapada, y tapada otros 2 min al acabar
    [reheating-packaged] comida lista para comer envasada por una planta inspeccionada, calentada para mantenerla caliente
    [time-only] comida con control de tiempo y sin control de temperatura; marcada con la hora en que se acaba, con procedimientos escritos
    [time-only-cold] comida fría con control de tiempo que sigue fresca; marcada con la hora en que se sacó y la hora en que se acaba, con procedimientos escritos
    [date-marking] comida lista para comer hecha o abierta aquí y conservada en frío más de 24 h, marcada con el día
    [cook-fish-whole-cut] pescado, piezas enteras de carne a las que no se metió nada, y huevos para una sola comanda, cocinados
    [cook-minced] carne y pescado picados, carne ablandada a máquina y carne inyectada (con salmuera), cocinados: 155 degF durante 17 s o una de las otras
    [cook-poultry] aves, comida rellena y rellenos con carne, cocinados
    [cook-roast] piezas enteras de vaca, cerdo y cordero, y cerdo curado como el jamón, en un horno tan caliente como pide la sección
    [raw-fish-freezing] pescado para servir crudo o poco hecho, congelado contra los parásitos; sólido es lo que ve el ojo: ponga la marca «solid» en ese momento del registro
    [raw-fish-freezing-eu] pescado para comer crudo o casi crudo, congelado contra los parásitos en todas sus partes; queda exento el de cría con un pienso que no puede llevarlos, y el de aguas en que consta que no los hay
    [raw-fish-exempt] sin congelar contra los parásitos: moluscos de concha, vieiras solo del músculo, los atunes alalunga, albacares, atlanticus, maccoyii, obesus y thynnus, pescado de cría con pienso granulado sin parásitos vivos, y huevas fuera de su bolsa y enjuagadas
    [raw-fish-records] temperatura y tiempo de la congelación, o la declaración del proveedor, o para pescado de cría la declaración sobre su pienso, guardadas 90 días desde que se sirvió el pescado
    [salt-smoked-fish-vacuum] pescado ahumado o salado al vacío o en otro envase sin aire; 3,0 % si además lleva de 100 a 200 ppm de nitrito
    [salt-smoked-fish-air] pescado ahumado envasado con aire; algunos estados piden más (Michigan 3 %, R 285.569.8, leído)
    [salt-roe] huevas saladas, en refrigeración
    [receiving-cold] comida fría al entregarla, donde ninguna otra ley dice otra temperatura
    [receiving-hot] comida cocinada que se entrega caliente
    [receiving-eggs] el aire alrededor de los huevos crudos al entregarlos
    [receiving-frozen] lo que se envía congelado se entrega congelado
    [receiving-shellfish] moluscos vivos al entregarlos; después, a 5 degC en 4 h
    [shellfish-tags] la etiqueta se queda hasta que el envase está vacío, se marca con el día en que se sirvió el último, y se guarda 90 días por orden de ese día
    [variance] un permiso previo de la autoridad: curar, ahumar para conservar, añadir algo para conservar, envasar sin aire de otro modo que como dice vacuum-packing, viveros de moluscos y germinar semillas
    [vacuum-packing] el vacío, la cocción al vacío y la cocción con enfriado necesitan un plan (HACCP) según esta sección, o un permiso
   *[other] { $written }
}
limit-about-nitrite = nitrito que entra en la carne: { $method }

# Por qué no puede ser lo que se pidió de un registro.
heat-refused-band = el extremo bajo del intervalo está por encima del alto
heat-refused-spread = la dispersión del entorno está fuera de 0,1 a 100 degC
heat-refused-probe = { $what ->
    [type] el tipo de la sonda es { $value }, se esperaba T, K, N o J
    [converter] el convertidor de la sonda puede errar { $value } degC, se esperaba de 0 a 20 degC
    [cold-junction] la unión fría de la sonda puede errar { $value } degC, se esperaba de 0 a 20 degC
    [within] la sonda acierta con { $value } degC, se esperaba de 0 a 20 degC
   *[class] la clase de la sonda es { $value }, se esperaba 1 o 2
}
heat-refused-z = z es { $value } degC, se esperaba de 3 a 30 degC
heat-refused-z-source = falta la fuente de z y de la temperatura de referencia: indíquela
heat-refused-reversed = la corrección acaba a las { $to }, antes de empezar a las { $from }
heat-refused-no-reason = falta el motivo: diga por qué se corrige el registro
heat-refused-too-much = la diferencia es { $value } degC, se esperaba de -50 a 50 degC y no 0: deje fuera el tramo
heat-table-header = el encabezado es «{ $value }», se esperaba «time,celsius» o «time,fahrenheit»
heat-table-field = { $field ->
    [time] línea { $line }: time es «{ $value }», se esperaba fecha y hora con su desfase, como 2026-05-01T10:40:00Z
   *[other] línea { $line }: { $field } es «{ $value }», se esperaba un número solo, en la unidad del encabezado
}
heat-table-line = línea { $line }: no tiene dos columnas, o no es texto
heat-table-reading = línea { $line }: { $why }
heat-table-empty = la tabla no tiene lecturas
heat-reading-backward = la hora { $at } va por detrás de { $before }: se esperaban horas que solo avanzan
heat-reading-twice = la hora { $at } está dos veces con temperaturas distintas
heat-reading-absurd = { $value } degC a las { $at } está fuera de -100 a 1400 degC, que ninguna sonda de cocina lee
