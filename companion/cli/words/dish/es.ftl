# Platos, y las cubetas de las que se racionan.
dish-line = { $dish }: { $target } (-{ $below }, +{ $above }), { $mode ->
    [adding] añadiendo
   *[taking] sacando
}
dish-off-list = fuera de la carta
dish-since = desde { $time }: { $dish }
dish-called = se llamó { $name } hasta { $time }
dish-melt-unread = LIMIT: { $value } no es una duración; escriba una como 6 min, u off
dish-melt-refused = LIMIT: el límite fuera del frío es de { $seconds } s; se espera de 10 s a 2 h
dish-melt = { $dish }: fuera del frío como mucho { $limit }.
dish-no-melt = { $dish }: sin límite de tiempo fuera del frío.
dish-nothing-yet = Todavía no hay ningún plato registrado; `evenhand dish add` o una primera `evenhand portion` empieza uno.
tin-nothing-yet = Todavía no hay ninguna cubeta, pescado ni pieza; `evenhand tin open` abre una.
tin-line = { $kind ->
    [tin] cubeta
    [fish] pescado
    [cut] pieza
   *[batch] elaboración
} { $id }: { $dish }
tin-bought = se compraron { $mass }, cerrada
tin-left = quedan { $left } de { $net }, { $possible }
possible = { $count ->
    [one] { $count } ración
   *[other] { $count } raciones
}
possible-range = de { $fewest } a { $most } raciones
# Qué fue de una compra.
yield-line-number = LINE: { $value } no es el número de una línea; escriba el número que muestra `evenhand yield show`
yield-struck = la línea { $line } está anulada; sigue en el registro
yield-days = de { $first } a { $last }: { $count ->
    [one] { $count } compra abierta o racionada
   *[other] { $count } compras abiertas o racionadas
}
yield-bought = comprado
yield-portioned = racionado
yield-lost = perdido: { $loss }
yield-left-weighed = resto, pesado
yield-left-by-record = resto según registro
yield-unaccounted = sin explicar
yield-trimmed = recortado
yield-should-be-left = debería quedar
yield-not-weighed = De { $count ->
    [one] { $count } compra
   *[other] { $count } compras
} nadie pesó el resto: no se sabe qué se fue sin nombre. Péselo con `evenhand yield left`.
yield-from-none = Además se racionaron { $mass } de ninguna compra registrada.
yield-cost = coste al comprar { $bought }, al racionar { $portioned }
yield-possible = con lo que queda salen { $possible }
yield-more = Salió más de lo que se compró: falta una pesada o está mal.
yield-line = línea { $line }: { $what } { $mass }, { $time }
yield-line-struck = línea { $line }: { $what } { $mass }, { $time }, anulada
cut-how-large = diga cuánto debe pesar un trozo con --each o --dish, o cuántos con --pieces
cut-refused = { $why ->
    [ends] los extremos apartados pesan tanto como la pieza o más: pese ambos de nuevo
    [zero] { $what ->
        [slab] la pieza
       *[piece] un trozo
    } debe tener una masa mayor que cero
    [no-piece] lo que queda entre los extremos es menos que un trozo
   *[too-many] serían más de { $most } trozos: compruebe las dos masas
}
cut-plan = { $count ->
    [one] { $count } trozo
   *[other] { $count } trozos
} de { $each }, sobran { $rest } además de los extremos de { $ends }
cut-too-few = Hasta ahora { $count ->
    [one] solo { $count } trozo
   *[other] solo { $count } trozos
}: hacen falta { $needed } para corregir el próximo corte.
cut-no-correction = Los últimos trozos andan por lo que se quería: sin corrección.
cut-correction = { $was ->
    [over] Los últimos { $pieces } salieron de media { $by } por encima (de { $low } a { $high }): corte el próximo { $by } por debajo de donde lo habría cortado.
   *[under] Los últimos { $pieces } salieron de media { $by } por debajo (de { $low } a { $high }): corte el próximo { $by } por encima de donde lo habría cortado.
}
