# Lo que se escribe en las pantallas del libro de la cocina.
book-typed = { $name }: «{ $text }» no sirve: { $expected }
book-typed-nothing = { $name } falta: { $expected }
book-not-said = sin decir
book-on-scale = En la báscula: { $mass }
book-no-worker = El registro ya no responde. Cierre el programa y ábralo de nuevo.
book-field = { $field ->
    [slab-mass] Pesa la pieza
    [slab-ends] Puntas aparte
    [piece-mass] Pesa cada corte
    [piece-count] O tantos cortes
    [plate-name] Nombre
    [plate-price] Paga el cliente
    [part-name] Nombre
    [part-weight] Se sirve
    [part-cost] Cuesta en compra
    [part-yield] Se puede servir
    [part-waste] De eso se tira
    [formula-name] Nombre
    [work] Cómo se hace
    [at-opening] Listo al abrir
    [in-at] Entró a las
    [out-at] Salió a las
    [ends-at] Masa a
    [ingredient] Ingrediente
    [percent] Tanto por ciento
    [water-in] Agua que tiene
    [stage] Etapa
    [takes] Entra en la etapa
    [starter] Masa madre
    [hydration] Agua de la masa madre
    [base] Por la base
    [total] Por el total
    [pieces] Piezas
    [each] Cada una
    [lost] Se pierde al dividir
    [of-mass] Cuánto hay
    [step] Paso de la báscula
    [flour-at] Harina a
    [before-at] Lo hecho antes, a
    [dough-at] Masa deseada a
    [coldest] Agua más fría
    [room] Sala, por regla
    [friction] Fricción, por regla
    [water-at] El agua estaba a
    [ice] De ella hielo
    [came-out-at] La masa salió a
    [freeze-as] Guardada como
    [mark] Nota mínima buena
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
    [slab-mass] ¿Cuánto pesa la pieza entera?
    [slab-ends] ¿Cuánto pesan las puntas que se apartan?
    [piece-mass] ¿Cuánto ha de pesar cada corte?
    [piece-count] ¿Cuántos cortes ha de dar?
    [plate-name] ¿Cómo se llama el plato?
    [plate-price] ¿Cuánto paga el cliente?
    [part-name] ¿Qué se pone en el plato?
    [part-weight] ¿Cuánto se sirve?
    [part-cost] ¿Cuánto cuesta en compra?
    [part-yield] ¿Cuánto de lo comprado se puede servir?
    [part-waste] ¿Cuánto de eso se tira aun así?
    [formula-name] ¿Cómo se llama?
    [work] ¿Cómo se hace? Una frase
    [at-opening] ¿Cuántas porciones hay listas?
    [in-at] ¿A qué hora entró?
    [out-at] ¿A qué hora salió?
    [ends-at] ¿A qué temperatura ha de quedar la masa?
    [ingredient] ¿Qué ingrediente?
    [percent] ¿Cuánto, de la base?
    [water-in] ¿Cuánta agua tiene?
    [stage] ¿Qué se hace antes?
    [takes] ¿Cuánto entra en la etapa, de toda la base?
    [starter] ¿Cuánta masa madre, de toda la base?
    [hydration] ¿Cuánta agua tiene la masa madre, de su harina?
    [base] ¿Cuánta base en total, etapas incluidas?
    [total] ¿Cuánto de todo junto?
    [pieces] ¿Cuántas piezas?
    [each] ¿Cuánto pesa cada una al dividir?
    [lost] ¿Cuánto se pierde antes de dividir?
    [of-mass] ¿Cuánto hay?
    [step] ¿Cuál es el menor paso de la báscula?
    [flour-at] ¿A qué temperatura está la harina?
    [before-at] ¿A qué temperatura está lo hecho antes?
    [dough-at] ¿A qué temperatura se quiere la masa?
    [coldest] ¿A qué temperatura está el agua más fría?
    [room] ¿A qué temperatura está la sala?
    [friction] ¿Con qué fricción se calcula?
    [water-at] ¿A qué temperatura estaba el agua?
    [ice] ¿Cuánta del agua era hielo?
    [came-out-at] ¿A qué temperatura salió la masa?
    [freeze-as] ¿Con qué nombre se guarda?
    [mark] ¿Desde qué nota es buena? De 1 a 9
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
# What is asked for of one thing of several, such as a dish.
book-entry-about = { $about }: { $caption }
book-entry-hint = { $field ->
    [slab-mass] Toque lo que hay en la báscula, o escriba.
    [slab-ends] Nada, si no se aparta ninguna.
    [plate-price] Nada, para no tener precio.
    [part-yield] Nada, si todo.
    [part-waste] Nada, si no se tira.
    [in-at] Nada, si es ahora. El día se elige al lado.
    [out-at] Nada, si es ahora. El día se elige al lado.
    [friction] Solo hasta que se mida una masa.
    [takes] Nada, si no entra.
    [starter] Nada, si no lleva.
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
    [cut-pieces] escriba un número de 1 a 500
    [money] escriba un importe y su moneda, como 26 EUR
    [cost] escriba un importe, su moneda y la masa que compra, como 2,40 EUR/kg
    [yield] escriba un tanto por ciento mayor que 0 y hasta 100, como 75
    [waste] escriba un tanto por ciento de 0 a menos de 100, como 10
    [share] escriba un tanto por ciento de la base, mayor que 0, como 70
    [water-in] escriba un tanto por ciento de 0 a 100
    [hydration] escriba un tanto por ciento de su harina, de 30 a 300
    [pieces] escriba un número de 1 a 10000
    [lost] escriba un tanto por ciento de 0 a menos de 50
    [mark] escriba una nota de 1 a 9
    [degrees] escriba grados, como 12
    [words] escriba un nombre corto de una línea
    [sentence] escriba una frase de 200 letras como máximo
    [portions] escriba una cantidad de 0 a 10000
    [time] escriba una hora del día, como 9:30
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
# A time of day and its day.
book-now = ahora
book-today = hoy
book-yesterday = ayer
book-moment = { $problem ->
    [to-come] { $value } aún no ha llegado. Elija antes el día o escriba una hora ya pasada.
    [skipped] { $value } no existe: los relojes se adelantan y la saltan.
    [twice] { $value } ocurre dos veces, porque los relojes se atrasan. Escriba detrás su diferencia horaria, como 2:10+02:00.
   *[other] { $value } no es una hora del día. Escriba horas y minutos, como 9:30.
}
