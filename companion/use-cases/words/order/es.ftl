# El pedido.
order-title = Qué pedir, { $at }
order-supplier = { $supplier }: pedir antes de { $by }, llega { $day }
order-supplier-no-time = { $supplier }: llega { $day }; no está escrito hasta cuándo pedir
order-supplier-no-days = { $supplier }: no hay días de reparto escritos
order-lasts = Debe alcanzar para { $count ->
    [one] un servicio, { $first }
   *[other] { $count } servicios, de { $first } a { $last }
}.
order-lasts-after = Lo que hay es para { $before ->
    [one] el de antes de que llegue
   *[other] los { $before } de antes de que llegue
}; los envases son para { $count ->
    [one] el de después, { $first }
   *[other] los { $count } de después, de { $first } a { $last }
}.
order-lasts-none-after = { $before ->
    [one] Es antes de que llegue la entrega, y para él es lo que hay; ningún envase es para él.
   *[other] Los { $before } son antes de que llegue la entrega, y para ellos es lo que hay; ningún envase es para ellos.
}
order-lasts-none = Ningún servicio hasta la entrega siguiente.
order-total = En total { $cost }.

order-packs = { $packs } x { $pack } { $goods }
order-packs-none = nada: { $goods }
order-packs-range = de { $from } a { $to } x { $pack } { $goods }: no se sabe mejor
order-packs-from = { $from } x { $pack } { $goods } o más: no se sabe cuánto más
order-packs-unknown = { $goods }, envases de { $pack }: NO SE SABE
order-cost = { $line }, { $cost }
order-over = Sobrarán probablemente { $over }.

order-need = Hace falta desde ahora: { $likely } probablemente; { $enough } alcanzan cinco de cada seis noches.
order-need-exactly = Hace falta desde ahora: { $amount }.
order-need-likely = Hace falta desde ahora: { $likely } probablemente; no se sabe qué alcanza cinco de cada seis noches.
order-need-at-least = Hace falta desde ahora: no menos de { $least }, el peso que se sirve.
order-need-nothing = No hace falta.
order-after = Después de que llegue, para lo que son los envases: { $likely } probablemente; { $enough } alcanzan cinco de cada seis noches.
order-after-exactly = Después de que llegue, para lo que son los envases: { $amount }.
order-after-likely = Después de que llegue, para lo que son los envases: { $likely } probablemente.
order-after-nothing = Nada de ello después de que llegue, para lo que son los envases.
order-hand = Hay, tal como se compra: { $amount }, contado { $at }.
order-hand-old = Hay, tal como se compra: de { $least } a { $most }, contado { $at }.
order-hand-open = Hay, tal como se compra: { $amount } abierto; nadie contó lo cerrado.
order-hand-none = Hay, tal como se compra: nadie lo contó.
order-on-the-way = { $packs ->
    [one] Un envase está pedido y aún por llegar.
   *[other] { $packs } envases están pedidos y aún por llegar.
}
order-placed = { $packs } x { $pack } de { $goods } para el { $day }, anotado { $at }
order-taken-back = Retirado { $at }: { $reason }
order-runs-out = RIESGO: lo que hay probablemente no alcanza hasta que llegue.

order-for-dish = { $dish }: { $likely } raciones probables, { $enough } suficientes, según { $nights } noches pasadas
order-for-dish-one = { $dish }: { $likely } raciones probables, según una noche pasada
order-for-ready = { $count } listas
order-for-ready-food = { $mass } listos para racionar, restados de lo que se sirve y no de lo que se compra
order-for-portion = { $mass } por ración como se sirve de verdad, en { $count }
order-for-target = { $mass } por ración según su objetivo
order-for-takes = { $amount } por ración, tal como se compra
order-for-yield = un rendimiento de { $likely } en { $count } compras, cinco de cada seis por encima de { $low }, restado lo probado y lo que se fue sin nombre
order-for-yield-likely = un rendimiento de { $likely } en { $count ->
    [one] una compra
   *[other] { $count } compras
}, restado lo probado y lo que se fue sin nombre
order-for-batch = { $name }: { $count ->
    [one] una elaboración
   *[other] { $count } elaboraciones
} por hacer, { $amount } cada una
order-for-batch-unknown = { $name }: no se sabe cuántas elaboraciones, { $amount } cada una
order-for-cover = { $likely } comensales probables, { $amount } cada uno
order-for-cover-unknown = { $amount } por comensal: no se sabe cuántos vienen
order-for-unknown = { $name }: no se sabe cuánto

order-know = Para saberlo: { $what }.
order-know-dish = registrar el plato { $dish }
order-know-covers = decir cuántos comensales vienen el { $day }
order-know-past = pesar raciones de { $dish } en noches con sus comensales anotados
order-know-one-night = una noche más de { $dish } con sus comensales
order-know-few-nights = { $more ->
    [one] una noche más
   *[other] { $more } noches más
} de { $dish } con sus comensales: con { $nights } noches nadie sabe de otra clase de noche, como una fiesta
order-know-yield = anotar lo que se recorta, cuece y prueba de una compra de { $dish }
order-know-one-yield = lo mismo de una segunda compra de { $dish }
order-know-off-menu = { $name } no está en ninguna carta de estos días
order-know-count = contar lo que hay
order-know-count-again = contar otra vez lo que hay, { $count ->
    [one] hubo un servicio
   *[other] hubo { $count } servicios
} desde entonces
order-know-typed = { $what }: { $command }
order-no-goods = Aún no hay en el registro ninguna lista de lo que la cocina compra.
order-no-such-supplier = Nada viene de «{ $wanted }» según la lista de género; viene de: { $known }.
order-basis = Suficiente es para noches y compras como las registradas. Lo que varios platos piden del mismo género se supone que sube y baja a la vez.

order-and = { $one }; { $more }
order-pieces = { $count ->
    [one] { $number } pieza
   *[other] { $number } piezas
}
order-page = Qué pedir, página { $page } de { $pages }
