# Preparar un curado.
cure-how = ¿Cómo se cura la carne?
cure-way = { $method ->
    [dry] En seco
    [immersion-equilibrium] Inmersión
    [immersion-pickup] Inmersión
    [pumped] Inyección
    [comminuted] Picada
    [bacon-dry] Panceta en seco
    [bacon-pumped] Panceta inyectada
   *[bacon-immersion] Panceta en inmersión
}
cure-way-detail = { $method ->
    [dry] frotado
    [bacon-dry] frotada
    [immersion-equilibrium] hasta el equilibrio
    [bacon-immersion-equilibrium] hasta el equilibrio
    [comminuted] mezclado
   *[pick-up] por absorción
}
cure-heading = ◆ Curado: { $method }
cure-what-label = ¿Qué dice la etiqueta que lleva el agente?
cure-contents = { $contents ->
    [sodium-nitrite] Nitrito de sodio
    [nitrite-and-nitrate] + nitrato
    [nitrate] Nitrato
    [potassium-nitrite] Potasio
   *[vegetable] Vegetal
}
cure-not-said = sin decir
cure-on-packet = en el envase
cure-by-label = según etiqueta
cure-by-label-spoken = Nitrito según su etiqueta
cure-ingoing = nitrito añadido
cure-taken-up = absorbido
cure-skin-on = Con piel
cure-skin-off = Sin piel
cure-limit = Límite: { $limit }.
cure-another-way = Otra forma
cure-salt-and-rest = Sal y lo demás
