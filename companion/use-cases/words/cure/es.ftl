# Curado: formas, límites y lo hallado frente a ellos. Las fuentes se citan en
# su propia lengua.
cure-mark = ◆ NITRITO
cure-agent = { $mark } { $name }, { $fraction }
cure-fraction = { $percent } % de nitrito
cure-method = { $method ->
    [comminuted] carne picada
    [pumped] inyección
    [immersion-pickup] inmersión por absorción
    [immersion-equilibrium] inmersión hasta el equilibrio
    [dry] curado en seco
    [bacon-pumped] panceta inyectada
    [bacon-immersion-pickup] panceta en inmersión por absorción
    [bacon-immersion-equilibrium] panceta en inmersión hasta el equilibrio
   *[bacon-dry] panceta curada en seco
}
cure-reckoning = { $sum ->
    [pick-up] nitrito x parte de su peso que absorbe la carne x 1000000 / peso de la salmuera
    [together] nitrito x 1000000 / (peso en crudo de la carne + peso de la salmuera)
   *[meat] nitrito x 1000000 / peso en crudo de la carne
}
cure-also-bacon-pumped = La panceta inyectada lleva además 550 ppm de ascorbato o eritorbato de sodio (9 CFR 424.22(b)(1), leído en cita); péselo como ingrediente aparte.
cure-caution = El nitrito es venenoso en exceso. Un límite es una cifra publicada, no un juicio sobre el alimento: mandan la normativa local y el personal habilitado. Curada o no, la carne cruda se guarda en frío.

cure-at-most = como máximo { $most } ppm
cure-level = { $level } ppm obligatorias (de { $low } a { $high } ppm se da por bueno)
cure-counted = { $counted ->
    [ion] { $asked } de ion nitrito ({ $sodium } ppm de nitrito de sodio)
   *[sodium] { $asked } de nitrito de sodio
}
cure-stated-quarter-ounce = { $limit } (1/4 oz por 100 lb de carne, que el manual redondea a 156 ppm)
cure-finished = { $limit }; en el producto acabado como máximo { $most } ppm, por análisis
cure-limit-by = { $limit }, según { $source }

cure-found = { $counted ->
    [ion] { $ppm } ppm de nitrito de sodio añadido ({ $ion } de ion nitrito)
   *[sodium] { $ppm } ppm de nitrito añadido
}
cure-against = { $limit } para { $method } según { $source }
cure-over = por encima del límite: { $found }, { $against }; no está lista
cure-under = por debajo de lo obligatorio: { $found }, { $against }; no está lista
cure-close = demasiado cerca del límite: { $found }, con un margen de { $doubt } ppm, { $against }; no está lista
cure-under-usual = por debajo del mínimo habitual: { $found }; lo habitual en carne curada refrigerada son { $usual } ppm según { $source }; { $against }
cure-within = { $found }, { $against }
cure-other-way = { $said }; calculado como { $method } serían { $ppm } ppm
cure-other-way-over = { $said }; calculado como { $method } serían { $ppm } ppm, por encima del límite
cure-no-limit = no hay límite en vigor para { $method }

cure-dose = { $dose } g de { $agent } por 1 kg de { $what ->
    [together] carne y agua juntas
    [water] agua
   *[meat] carne
}
cure-dose-least = { $dose }; esta báscula pesa bien a partir de { $least } g
cure-dose-nothing = { $target } ppm no es nada de nitrito: debe ser más de cero
cure-dose-over = { $target } ppm está por encima del límite para { $method }: { $limit } según { $source }
cure-dose-under = { $target } ppm es menos de lo que debe llevar { $method }: { $limit } según { $source }
cure-dose-beyond-agent = { $target } ppm es más de lo que este agente puede aportar así: tome uno con más nitrito, o que la carne absorba más salmuera
cure-dose-beyond-mass = { $target } ppm pide menos de un microgramo de agente, o más de lo que cabe: revise las cantidades
cure-too-small = esta báscula acierta hasta { $within } g, que es el { $percent } % de una dosis de { $dose } g; sirve a partir de { $least } g. Disuelva { $agent } g del agente en { $water } g de agua y tome { $take } g de eso; rotule lo que sobre o tírelo; o haga { $times } veces la cantidad
cure-untold = la báscula no dice su escalón de verificación: se toma { $interval }, diez pasos de su pantalla, el más grueso posible

cure-nitrate = este agente contiene nitrato. El nitrato pasa a nitrito poco a poco durante semanas, tiene límites propios y en la panceta no se permite (9 CFR 424.22(b), de memoria); lo que aporta no se sabe pesando, así que aquí no se calcula nada con él. Use un agente solo con nitrito, o una receta probada con alguien habilitado al lado
cure-mixture = este agente contiene nitrito y nitrato juntos, hecho para carne que se seca durante semanas. Los dos tienen límites propios que valen a la vez; aquí no se calcula nada con mezclas. Nunca debe sustituir a un agente solo con nitrito
cure-potassium = este agente es nitrito de potasio. Sus límites en la panceta son otras cifras que las del nitrito de sodio, y aquí solo se calcula el nitrito de sodio
cure-vegetable = este agente es un polvo vegetal. Cuánto nitrito aporta cambia de un lote a otro y no está en la etiqueta, así que aquí no se puede calcular nada con él
cure-unusual = { $fraction } queda fuera de { $low } a { $high }, lo que tienen los agentes que se venden para cocinas. Lea otra vez el envase
cure-read-differently = el envase se leyó como { $first } y luego como { $again }; léalo otra vez
cure-name-empty = el nombre está vacío: escriba lo que pone en el envase
cure-name-salt = un agente de curado no puede llamarse sal: escriba lo que pone en su envase
cure-name-curing = así se llaman los agentes de curado: póngalo como agente de curado, con el nitrito de su etiqueta
