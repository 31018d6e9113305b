# Qué pedir, con el dedo; y la lista de lo que compra la cocina.
orders-heading = Qué pedir
orders-waiting = Se está calculando.
orders-touch-supplier = Toque a quién pide.
orders-basis = Los envases alcanzan cinco de cada seis noches, para noches y compras como las registradas.
orders-lines = { $wanted ->
    [0] Nada que pedir
    [one] Uno por pedir
   *[other] { $wanted } por pedir
}, { $unknown } NO SE SABE
orders-by = pedir antes de { $by }, llega { $day }
orders-no-time = llega { $day }, no se dice hasta cuándo pedir
orders-no-days = no se dicen días de reparto
orders-total = En total { $cost }.
orders-all-ordered = Todo está pedido
orders-ask-ordered = ¿Pedido a { $supplier } para { $day }?
orders-unknown-left = Lo que no se sabe queda fuera: anótelo en su propia línea.
orders-not-yet = Aún no
orders-is-ordered = Está pedido
orders-on-the-way = { $packs ->
    [0] ninguno en camino
    [one] un envase en camino
   *[other] { $packs } envases en camino
}
orders-placed = Ya pedido
orders-placed-heading = { $name }: ya pedido
orders-none-placed = No se anotó ningún pedido.
orders-touch-placed = Toque un pedido para retirarlo o para que vuelva a contar.
orders-placed-for = Para el { $day }
orders-placed-at = Anotado { $at }
orders-packs-of = { $packs } x { $pack } de { $goods }
orders-ask-take-back = ¿Retirar este pedido?
orders-ask-put-back = ¿Este pedido cuenta al final?
orders-call-them = Queda registrado y deja de contar. Al proveedor no se le avisa: llámelo.
orders-leave-it = Dejarlo así
orders-by-mistake = Anotado por error
orders-does-not-come = No llega
orders-put-back = Cuenta
orders-edit = Cambiar este género
orders-know = Para saberlo: { $what }.
orders-know-first = { $more ->
    [0] Para saberlo: { $first }.
    [one] Para saberlo: { $first }; y una cosa más.
   *[other] Para saberlo: { $first }; y { $more } cosas más.
}
orders-line-after = { $after } alcanza después de que llegue, { $enough } desde ahora; hay { $hand }
orders-line = { $enough } alcanza desde ahora; hay { $hand }
orders-runs-out = RIESGO: se acaba antes de que llegue.
orders-not-counted = sin contar
orders-from-to = de { $least } a { $most }
orders-pieces = piezas
orders-packs = envases
orders-understood = Eso es { $amount }.
orders-of-what = ¿{ $number } de qué? Tóquelo: en envases son { $amount }.

orders-goods = Qué compramos
orders-none = Aún no hay género en la lista.
orders-files-where = Listas de género en TOML o como tabla CSV, de la carpeta { $folder } en la carpeta de datos. También se puede soltar un fichero en esta ventana.
orders-add-supplier = + proveedor
orders-add-goods = + género
orders-add-dish = + plato
orders-add-batch = + elaboración
orders-add-cover = + comensales
orders-what-for = Para qué es:
orders-a-guest = { $takes } por comensal
orders-takes = lleva { $takes }
orders-by-yield = por su rendimiento
orders-by-yield-about = Donde no se dice nada, lleva lo que pesan las raciones que se sirven, por el rendimiento de las compras registradas.
orders-remove-goods = { $count ->
    [one] Su género se va con él.
   *[other] Sus { $count } géneros se van con él.
}
orders-kept = La lista está guardada.
orders-not-kept = La lista no está guardada
orders-unkept = Se está escribiendo una lista de género: guárdela o déjela primero.

orders-field = { $field ->
    [in-hand] Hay, tal como se compra
    [ordered] Envases pedidos
    [comes] Qué día llega
    [new-supplier] Un proveedor nuevo
    [new-goods] Qué se compra
    [name] Nombre
    [delivers] Reparte los
    [at] Llega a las
    [order-by] Pedir hasta
    [days-before] Días antes de que llegue
    [supplier] Viene de
    [pack] Un envase lleva
    [price] Un envase cuesta
    [piece] Una pieza pesa
    [for] Para qué es
    [dish] Plato
    [batch] Elaboración
    [takes] Cada una lleva
   *[per-cover] Un comensal lleva
}
orders-expected = { $field ->
    [in-hand] escriba lo cerrado con su unidad, o en envases; 0 si no hay
    [packs] escriba un número entero de envases
    [days-before] escriba un número entero de 0 a 14, o nada: el día antes
    [piece] de género en piezas: escriba lo que pesa una, o nada
    [takes] escriba cuánto lleva una ración o una elaboración, tal como se compra, con su unidad; de un plato, o nada
    [for] diga para qué es
    [time] escriba una hora del día, como 1630, o nada
    [date] escriba una fecha desde hoy, como 2026-05-08
    [price] escriba lo que cuesta un envase con su moneda, o nada
    [amount] escriba un número y luego su unidad
   *[name] escriba un nombre de una línea
}
orders-takes-of-each = escriba cuánto lleva una ración: por su rendimiento va un plato con un solo género
