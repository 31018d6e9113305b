# Salmueras: una fuerza dicha de todas las maneras, qué pesar, corregir una,
# conocer una por su peso.
brine-of-water = { $percent } % del agua
brine-of-solution = { $percent } % de la solución
brine-salometer = { $degrees } grados de salinómetro
brine-density-at = { $density } kg/m³ a { $at } °C
brine-freezing = { $what ->
    [ice] se forma hielo por debajo de { $at } °C
   *[salt] la sal precipita por debajo de { $at } °C
}
brine-water = agua   { $mass }
brine-ice = hielo  { $mass }
brine-salt = sal    { $mass }
brine-sugar = azúcar { $mass }
brine-makes-in-all = da { $mass } de salmuera, { $volume } a { $at } °C: { $of_water } % del agua, { $of_solution } % de la solución
brine-volume-by = volumen según: { $source }
brine-ice-unknown = no se sabe si se funde todo el hielo: indique a qué temperatura está el agua, --water-at
brine-ends-at = { $at } °C, con un margen de { $within }
brine-ice-stays = el hielo no se puede fundir todo: quedan unos { $left }, a { $at }; el líquido tiene entonces { $liquid }
brine-ice-melts = el hielo se funde, y la salmuera queda a { $at }
brine-ice-counted = { $said } (hielo contado a { $ice_at }, la sal tan caliente como el agua; sin contar la olla ni el aire)
brine-sugar-cooling = no se cuenta lo que enfría el azúcar ni su punto de congelación
brine-heats-by = calores según: { $source }; { $brine }

brine-now = ahora { $mass } a { $strength }
brine-there-already = ya está
brine-stir-in = mezcle { $mass } de sal
brine-pour-in = vierta { $mass } de agua
brine-replace = { $with ->
    [salt] saque { $mass } de salmuera y mezcle después { $mass } de sal
   *[water] saque { $mass } de salmuera y vierta después { $mass } de agua
}
brine-makes = da { $mass } a { $strength }

brine-within = { $said }, con un margen de { $within }
brine-density-within = { $density } kg/m³, con un margen de { $within }, a { $at } °C
brine-most-doubt = la mayor duda viene de: { $of ->
    [net-mass] el peso neto
    [vessel] el recipiente
    [level] el nivel de llenado
    [temperature] la temperatura
    [sugar] el azúcar
    [sugar-model] el modelo del azúcar
    [tables] las tablas de densidad
    [expansion] la dilatación del recipiente
   *[nothing] nada
}
brine-give-or-take = (margen: incertidumbre expandida, k = 2, JCGM 100; ambos pesados en aire)
brine-sugared = con { $percent } % de azúcar en el total, { $source }
brine-growth = la dilatación del recipiente se cuenta como { $middle } ± { $half } ppm por °C en volumen, { $source }

brine-share-salt = sal { $mass }
brine-share = la salmuera tiene { $strength } al principio; { $percent } % de todo es sal una vez repartida
brine-in-meat = en la carne { $percent } % (de { $from } a { $to } según su agua), en el agua de ambas { $water } %
brine-meat-water = { $name }: { $percent } % de agua, { $source }
brine-meat-unknown = no se sabe a cuánto llega la carne misma: indique cuál es, --kind, por el agua que tiene
brine-time = regla práctica: de { $from } a { $to } días ({ $source }); igualada hasta el centro solo después de { $even_from } a { $even_to } días
brine-time-rule = de 6 a 7 mm de profundidad al día desde cada cara, y hasta dos días más por si acaso (práctica común, sin fuente)

# Recipientes.
vessel-none = Aún no hay ningún recipiente en el registro; `evenhand brine vessel fill` mide uno.
vessel-out-of-use = { $name } queda fuera de uso
vessel-shown = { $name }: { $volume } ml a 20 °C, con un margen de { $within } ml (k = 2), por { $water } de agua a { $at } °C
vessel-shown-empty = { $name }: { $volume } ml a 20 °C, con un margen de { $within } ml (k = 2), por { $water } de agua a { $at } °C, vacío { $empty }
