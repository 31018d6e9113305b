# Lo que se escribe en las pantallas del libro de la cocina.
book-typed = { $name }: «{ $text }» no sirve: { $expected }
book-typed-nothing = { $name } falta: { $expected }
book-not-said = sin decir
book-on-scale = En la báscula: { $mass }
book-no-worker = El registro ya no responde. Cierre el programa y ábralo de nuevo.
book-field = { $field ->
    [cut] Pieza
    [cut-mass] Peso
    [thickness] Parte más gruesa
    [meat-water] Agua que tiene
    [bath-water] Agua del baño
    [bath-salt] Sal del baño
    [sauce-name] Salsa o pasta
    [sauce-mass] Cuánta
    [sauce-salt] Sal de su etiqueta
    [sauce-water] Agua de su etiqueta
    [held-at] A qué temperatura
    [core] Corazón a alcanzar
    [lasting] Previsto tras
    [out-mass] Peso, escurrida
    [bath-after] Baño ahora, sal
    [bath-mass] Baño ahora, peso
    [in-piece] O sal por medidor
   *[within] Margen
}
book-entry = { $field ->
    [cut] ¿Qué entra? Las elaboraciones de un nombre se cuentan juntas
    [cut-mass] ¿Cuánto pesa todo?
    [thickness] ¿Qué grosor tiene una pieza en lo más grueso?
    [meat-water] ¿Cuánta agua tiene?
    [bath-water] ¿Cuánta agua tiene el baño?
    [bath-salt] ¿Cuánta sal tiene el baño?
    [sauce-name] ¿Qué salsa o pasta?
    [sauce-mass] ¿Cuánta entra?
    [sauce-salt] ¿Cuánta sal tiene, según la etiqueta?
    [sauce-water] ¿Cuánta agua tiene, según la etiqueta?
    [held-at] ¿A qué temperatura están pieza y baño?
    [core] ¿Cuánta sal ha de tener el corazón?
    [lasting] ¿Tras cuántas horas se dirá?
    [out-mass] ¿Cuánto pesa todo, escurrido?
    [bath-after] ¿Qué fuerza tiene ahora el baño, removido?
    [bath-mass] ¿Cuánto pesa ahora el baño?
    [in-piece] ¿Cuánta sal hay en la pieza, por medidor?
   *[within] ¿Con qué margen en puntos porcentuales se leyó?
}
book-entry-hint = { $field ->
    [cut-mass] Toque lo que hay en la báscula, o escriba.
    [thickness] Si es larga y redonda: su diámetro.
    [sauce-salt] Si la etiqueta da sodio: 2,5 veces eso.
    [sauce-water] Nada, si nadie lo sabe.
    [core] En tanto por ciento de su peso crudo. Nada para dejarlo abierto.
    [lasting] Nada para dejarlo abierto.
    [out-mass] Las mismas piezas, sin recipiente.
    [bath-after] Tanto por ciento de toda la salmuera, por peso de un recipiente conocido o por medidor.
    [in-piece] Toda picada. Tanto por ciento de lo que salió.
   *[other] {""}
}
book-expected = { $field ->
    [words] escriba un nombre corto de una línea
    [mass] escriba un peso mayor que cero, en gramos o con su unidad, como 250 o 1,2kg
    [mass-or-none] escriba un peso de cero o más, en gramos o con su unidad, como 250 o 1,2kg
    [thickness] escriba milímetros mayores que cero, como 30
    [meat-water] escriba un tanto por ciento de 20 a 90, como 75
    [sauce-salt] escriba un tanto por ciento mayor que 0 y hasta 50, como 16
    [sauce-water] escriba un tanto por ciento que con la sal sume como mucho 100, o nada
    [temperature] escriba una temperatura, como 4 o 39degF
    [core] escriba un tanto por ciento del peso crudo, como 1,6
    [lasting] escriba un tiempo mayor que cero, como 5 para horas o 90min
    [strength] escriba un tanto por ciento del total de 0 a 26,395, que es la saturación a 60 °F
    [within] escriba puntos porcentuales mayores que 0, como 0,2
   *[percent] escriba un tanto por ciento, como 1,8
}
