# Mezclar por peso: el inicio, una proporción al prepararla y en la báscula, y
# pesar sobre la marcha. Los pesos llevan su unidad.
mixing-no-name = Aún sin nombre
mixing-as-you-go = Pesar sobre la marcha
mixing-weighing-as-you-go = Pesada sobre la marcha
mixing-batches = Elaboraciones
mixing-vessels = Recipientes
mixing-due = Toca
mixing-name-it = Nombre
mixing-onto-the-scale = A la báscula
mixing-how-much = ¿cuánto?
mixing-in-all = { $total } en total
mixing-empty = Vacío
mixing-full = Lleno
mixing-by = Según { $source }.
mixing-leaf = { $first } a { $last } de { $all }
mixing-all-in-of = { $title }: todo dentro
mixing-weighed = { $count } pesados a las { $at }
mixing-weighed-of = { $count } de { $of } pesados a las { $at }

mixing-water = agua
mixing-salt = sal
mixing-sugar = azúcar
mixing-flour = harina
mixing-meat = carne

start-back-to = Volver a { $mix }
start-go-on = Seguir: { $mix }
start-put-aside = Apartar
start-stays = queda registrada
start-as-last-time = Como la última vez
start-new-ratio = Una proporción nueva, en
start-form = { $form ->
    [of-water] % del agua
    [of-total] % del total
    [bakers] % panadero
    [of-meat-and-water] Carne y agua
   *[parts] Partes
}
start-form-detail = { $form ->
    [of-water] del líquido
    [of-total] de todo
    [bakers] de la harina
    [of-meat-and-water] % de ambas
   *[parts] 4 a 1
}
start-cure = Curado ◆ nitrito
start-brine = Salmuera
start-soak = Salmuera o adobo con hora
start-formulas = Fórmulas, agua de masa
start-counts = Relevo, cuentas
start-yields = Lo que salió
start-lots = Lotes
start-cut = Cortar una pieza
start-more-due = { $count ->
    [one] Toca otra más: todas las elaboraciones
   *[other] Tocan otras { $count } más: todas las elaboraciones
}
start-nothing-due = No toca nada.

sketch-add = Añadir
sketch-add-first = Añada el primer ingrediente.
sketch-within = a menos de { $percent } %
sketch-on-target = En su peso
sketch-any-amount = Sin cantidad
sketch-room = Cabida, por recipiente
sketch-set-grams = fijar gramos
sketch-as-there-is = lo que haya
sketch-the-rest = el resto, { $percent } %
sketch-agent = { $mark } agente de curado
sketch-pour-first = Ponga del primero lo que haya: lo demás va detrás.
sketch-counts-as-flour = { $name } cuenta como harina
sketch-part-spoken = { $what ->
    [name] Nombre
    [number] Número
   *[amount] Cantidad
} de { $name }: { $value }
sketch-take-out = Quitar { $name }

walk-hold-still = Quieto: sigue { $name }
walk-put-on-with-all = Póngalo con lo que tiene
walk-put-vessel-on = Ponga el recipiente
walk-put-vessel-back = Vuelva a poner el recipiente
walk-stop = Alto: { $name }
walk-all-in = Todo dentro
walk-enough = { $name }: basta
walk-over = { $name }: de más
walk-add = Añada { $name }
walk-add-all = Añada { $name }, lo que haya
walk-not-heard = La báscula no da señales: lo pesado queda guardado y sigue cuando vuelva.
walk-started-anew = La báscula se reinició: no se sabe qué cayó entretanto. Siga, y diga cuánto era si importa.
walk-cannot-be-undone = Una vez mezclado no tiene vuelta atrás.
walk-take-some-out = Quite un poco o déjelo.
walk-makes = Así, con los demás a la par, da { $total } en total.
walk-makes-too-much = Así, con los demás a la par, da { $total } en total, más de los { $room } que caben.
walk-makes-with-room = Así, con los demás a la par, da { $total } en total; caben { $room }.
walk-vessel-aside = Se descuenta solo. Sin recipiente, o si ya está puesto: Tal como está.
walk-hands-off = Sin tocar, y sigue solo.
walk-goes-on-on-target = Sigue solo en cuanto se para en su peso.
walk-goes-on = Sigue solo.
walk-came-on = { $mass } más de lo registrado: pulse a la derecha qué es. Si nadie lo sabe: Tal como está; entonces no cuenta.
walk-went-off = { $mass } menos de lo registrado: ponga el recipiente como estaba. Si no puede ser: Tal como está.
walk-what-was-it = ¿Qué era en realidad? Púlselo a la derecha.
walk-of = de { $mass }
walk-total = { $there } de { $total }
walk-total-room = { $there } de { $total }, caben { $room }
walk-in = { $there } dentro
walk-in-room = { $there } dentro, caben { $room }
walk-no-vessel-yet = Sin recipiente
walk-poured = Puesto
walk-read-label = Lea el nitrito en el envase que tiene en la mano, antes de acercar { $name } a la báscula.
walk-put-away = Dejarla
walk-read-the-label = Leer la etiqueta
walk-mark-ready = Darla por lista
walk-as-it-stands = Tal como está
walk-that-was-another = Era otro
walk-took-some-out = Saqué un poco
walk-go-on = Seguir
walk-reached = { $name }: { $is } y se pedía { $asked }
walk-brine = Salmuera: sal { $of_water } % del agua, { $of_solution } % de la disolución

capture-not-heard = La báscula no da señales
capture-started-anew = La báscula se reinició: siga
capture-anything = Ponga lo que quiera
capture-aside = Lo que se queda quieto se anota. Pulse una línea para decir qué era.
capture-came-on = { $mass } más de lo registrado. Si entró: Eso entró. Si no, Tal como está; entonces no cuenta.
capture-just-now = Ahora mismo
capture-done = Hecho
capture-that-went-in = Eso entró
capture-more-of-the-same = Más de lo mismo
capture-what-was-it = ¿Qué era?

mixing-note-gone-on = se siguió con { $mass } en la báscula que no están registrados y no cuentan
mixing-note-started-anew = la báscula se reinició a mitad de un vertido
mixing-note-put-away = se dejó antes de darla por lista
mixing-note-not-ready = se dejó, no está lista: { $why }
mixing-agrees = { $agent }: pesado { $weighed }, calculado { $computed } para lo que hay: coinciden
mixing-disagrees = { $agent }: pesado { $weighed }, calculado { $computed } para lo que hay: no coinciden, no está lista
mixing-not-ready = no está lista: { $why }

mixing-portioning = se están haciendo raciones: termine antes esa tanda
mixing-another-mix = hay otra mezcla en marcha: termínela o déjela antes
mixing-not-steady = la báscula se mueve o no da señales: deje que se pare
mixing-nothing-more = en la báscula no hay más de lo registrado: deje que se pare
mixing-nothing-on = no hay nada en la báscula
mixing-nothing-weighed = aún no se ha pesado nada
mixing-only-one-thing = para que uno sea más del otro hay que haber pesado dos cosas
mixing-too-many = aquí una proporción tiene como máximo { $most } ingredientes
mixing-there-already = { $name } ya está
mixing-how-much-of = { $name }: diga cuánto
mixing-no-amount = { $name }: «{ $text }» no es una cantidad; escriba un número mayor que cero, como 2,5
mixing-no-such-amount = esta cantidad no puede ser: debe ser más de cero y caber en una cocina
mixing-no-ingredient = añada un ingrediente
mixing-agent-in-it = lleva un agente de curado: prepárela de nuevo en la pantalla de curado, con el envase en la mano
mixing-no-packet = diga qué pone en el envase del agente de curado
mixing-no-fraction = lea el nitrito en la etiqueta del agente de curado
mixing-no-ppm = diga cuánto nitrito añadido debe haber
mixing-no-pick-up = diga cuánto de su peso en crudo absorbe la carne
mixing-low-fraction = { $text } % es menos de lo que tienen los agentes que se venden para curar: 0,0625 de uno es 6,25 %. Escríbalo con su signo % si así lo dice la etiqueta
mixing-no-strength = diga la fuerza que debe tener
mixing-beyond-calendar = eso queda fuera del calendario
mixing-no-title = escriba qué es, o déjelo
mixing-not-named-through = ninguna elaboración de { $title } tiene nombre para todo lo que lleva
mixing-book-changed = el libro ha cambiado entretanto: mírelo otra vez
mixing-not-under-way = está terminada, o se apartó
mixing-no-batch = elija antes una elaboración
mixing-untitled = aún no tiene nombre: diga qué es y se compara con las demás
mixing-probe-in-brine = meta la sonda en la salmuera, o escriba a qué temperatura está
mixing-probe-in-water = meta la sonda en el agua: su temperatura decide cuánto ocupa
mixing-empty-first = péselo antes vacío
mixing-limits-not-read = aún no se han leído los límites
