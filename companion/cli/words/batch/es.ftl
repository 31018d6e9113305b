# Las elaboraciones registradas, y cómo está cada una.
batch-number = elaboración { $number }
batch-stands = elaboración { $number }: { $parts }
batch-no-title = aún sin título
batch-is-ready = lista
batch-is-out = sacada
batch-due = { $task ->
    [turn] girar
   *[take-out] sacar
}{ $when ->
    [overdue] : con { $span } de retraso
    [now] {" "}ya
   *[in] {" "}en { $span }
}
batch-none = Aún no hay ninguna elaboración así en el registro; `evenhand batch begin` empieza una.
batch-nothing-due = No hay nada pendiente con ninguna elaboración; `evenhand batch plan` dice cuándo lo hay.
batch-due-with = elaboración { $number }, { $title }: { $due }
batch-item-line = n.º { $item }: { $mass } { $name }
batch-no-name = aún sin nombre
batch-cold-store-found = cámara: { $outcome }: { $found }
batch-line-on-record = línea { $line }: { $at } { $what }
batch-line-struck = línea { $line } (anulada): { $at } { $what }
batch-share = { $name } { $percent }
batch-not-tasted = sin catar
batch-compared = elaboración { $number }: { $shares }; { $mark }
batch-again-curing = compare el agente de curado con su límite antes de añadirlo: `evenhand cure ppm`
batch-picture-written = El dibujo está en { $path }.

# Lo que se escribió.
batch-no-number = BATCH: { $text } no es el número de una elaboración; escriba el número que muestra `evenhand batch list`
batch-no-such-title = TITLE: { $title }: no hay ninguna elaboración con ese título; véalas con `evenhand batch list`
batch-what-needed = Hace falta --name o --agent: ¿qué es?
batch-no-such-item = --item: { $item }: no se pesó nada con ese número; quite --item si es algo nuevo
batch-beyond-calendar = --for: { $text } se sale del calendario; escriba unos días
batch-due-before = --due: { $text } es { $due }, y no después de entrar, { $into }; escriba una hora posterior
batch-no-agent = --method: no hay ningún agente de curado en esta elaboración; quítelo
batch-say-reason = { $why } (--reason)
batch-name-refused = --name: { $why }
batch-no-formula = { $why }
batch-no-equals = { $flag }: { $text } no tiene =; escriba un nombre, = y un número, como water=5
batch-not-in-it = --amount: { $name } no está en ella; escriba uno de sus ingredientes
batch-no-picture-kind = --picture: { $path } no es ni lo uno ni lo otro; acabe el nombre en .svg o .png
