# Salmueras y adobos con hora: una pieza dentro y fuera.
soak-heading = En salmuera o en adobo
soak-none = No hay nada en remojo
soak-choose = Toque lo que sale
soak-lies = { $mass }, dentro desde { $since }, hace { $span }
soak-put-one-in = Meter una pieza
soak-into = Entra una pieza
soak-shape = Cómo es
soak-flat = plana
soak-round = larga y redonda
soak-kind = Qué es
soak-kind-heading = ¿Qué es? Por el agua que tiene
soak-water-in-it = agua { $percent } ± { $within }
soak-water-said = Otra cosa
soak-water-said-detail = su agua en tanto por ciento
soak-meat-said = agua { $percent }
soak-sauces = Salsas, pastas
soak-no-sauce = ninguna
soak-drop-sauces = Sin salsa
soak-say-all = Diga qué es y en qué está, y aquí se dirá qué cabe esperar.
soak-reckoning = Calculando con sus propias elaboraciones.
soak-put-in = Meterla
soak-of = En remojo: { $cut }
soak-on-record = Fuera, en el registro como elaboración { $batch }
soak-take-out = Ya está fuera
soak-not-in-bath = Esa pieza ya no está en remojo: ya salió o nunca entró.
# La tabla de carnes.
soak-meat = { $meat ->
    [lean-muscle] Músculo magro
    [lean-beef] Vacuno magro
    [beef-brisket] Pecho de vacuno
    [ground-beef] Vacuno picado
    [chicken-whole] Pollo entero
    [chicken-breast-with-skin] Pechuga de pollo con piel
    [chicken-leg-with-skin] Muslo de pollo con piel
    [pork-loin] Lomo de cerdo
    [pork-belly] Panceta de cerdo
    [turkey-breast] Pechuga de pavo
    [duck-breast] Pechuga de pato
    [oily-fish] Pescado azul
   *[white-fish] Pescado blanco
}
soak-in-on = Entró el día
soak-out-on = Salió el día
