# Lo que se registra del calor, y para qué se vigila. Los nombres de registros y
# límites se dicen como se escriben.
heat-watched-for = Se vigila { $name }: { $words }.
heat-aim-needed = Hace falta --from y --to, o --limit: ¿para qué se vigila?
heat-band-needed = Hacen falta --from y --to: ¿qué intervalo? `evenhand heat aim` guarda uno con un registro
heat-limit-needed = Hace falta --limit: ¿qué límite? `evenhand heat limits` los enumera
heat-limit-unknown = { $flag }: no hay ningún límite { $name }; los conocidos son { $known }
heat-organism-unknown = --organism: aquí no se conoce { $name }; escriba uno de { $known }
heat-at-flag = { $flag }: { $why }
heat-no-file = { $flag }: no se puede leer { $path }: { $why }
heat-no-table = { $flag }: { $path }: { $why }
heat-correction-refused = { $why }
heat-no-length-back = --back: { $text } no es una duración; escriba una como 24 h o 90 min
heat-no-length-for = --for: { $text } no es una duración; escriba una como 20 min o 3 h
heat-no-step = --longest-step: { $text } no es una duración que valga; escriba una de hasta 24 h, como 15 min

# Un registro frente a un límite. Las etiquetas van delante de una frase y
# tienen sitio para doce letras.
heat-label-limit = límite
heat-label-readings = lecturas
heat-label-probe = sonda
heat-label-lethality = letalidad
heat-label-record = aciertos
heat-label-reduction = reducción
heat-label-corrected = corregido
heat-label-limit-from = fuente
heat-label-outcome = { $outcome ->
    [broken] SUPERADO
    [kept] dentro
    [running] por ahora
    [cannot-tell] no se sabe
    [too-close] MUY JUSTO
   *[noted] nota
}
heat-label-alarm = { $alarm ->
    [quiet] previsión
    [look] MIRE
    [close] MUY JUSTO
    [act] ACTÚE YA
   *[over] SUPERADO
}
heat-about = { $name }: { $about }
heat-readings = de { $from } a { $to }
heat-lethality = { $minutes } minutos a { $at } degC, z { $z } degC ({ $source }); { $gaps } min de huecos sin contar.
heat-reduction = { $log } log10 de { $organism }: D { $d } min a { $at } degC, z { $z } degC ({ $source }); { $gaps } min de huecos sin contar.
heat-organism = { $name ->
    [salmonella-beef] Salmonella en carne de vaca cocida y asada
    [listeria-meat] Listeria monocytogenes en carne, según los 70 degC durante 2 min de las guías europeas
    [listeria-fatty-beef] Listeria monocytogenes Scott A en carne de vaca picada grasa
   *[other] { $written }
}
heat-corrections = { $count } en vigor; el registro en sí queda como se midió
heat-judged = { $limit }: { $outcome }
heat-limits-region = región { $region }; los límites propios de la cocina y su región están en { $file }, en la carpeta de datos

# Una previsión.
heat-for-band = Para { $band }:
heat-times-in-ten = { $times } veces de cada diez la verdad debería caer en ese intervalo.
heat-mornings = { $count ->
    [one] Se miró { $count } mañana anterior.
   *[other] Se miraron { $count } mañanas anteriores.
}

# Cuánto puede errar una sonda.
heat-probe-needed = Hace falta --type: el archivo de límites no dice qué sonda es
heat-probe-good = acierta con { $within } a { $at } degC (incertidumbre expandida, k = 2, JCGM 100)
heat-probe-chain = tipo { $kind }, clase { $class }, convertidor { $converter } degC, unión fría { $junction } degC; { $source }
heat-probe-in-file = en { $file }, para todo lo que se juzga:
heat-probe-by-file = como dice el archivo de límites

# Un registro guardado.
heat-written-out = { $count } lecturas de { $name } están en { $path }.
heat-no-reading = aún sin lecturas
heat-last-reading = { $celsius } degC el { $at }
heat-listed = { $name }: { $last }
heat-listed-for = { $name }: { $last }, para { $aim }
heat-no-log = Aún no hay ningún registro de temperatura; `evenhand heat watch` empieza uno.
heat-gap = hueco de { $seconds } s sin lecturas
heat-left-out = queda fuera
heat-added = se suman { $by } degC
heat-correction = corrección { $number }: de { $from } a { $to } { $what }: { $reason }
heat-correction-lifted = corrección { $number }: de { $from } a { $to } { $what }: { $reason }, retirada después
heat-line-left-out = queda fuera: { $why }
heat-taken-in = { $added } lecturas están ahora en el registro { $name }; { $there } ya estaban; { $gaps } huecos.
heat-marked = { $name }: { $word }, el { $at }
heat-marker-wrong = { $flag }: { $text } está vacío o pasa de 60 caracteres; escriba una palabra o dos, como "fire out"
heat-no-correction-number = --lift: { $text } no es el número de una corrección; escriba un número entero
heat-lifted = La corrección { $number } queda retirada; sigue en el registro.
heat-correction-needed = Hace falta --leave-out o --add: ¿qué hay de malo en el tramo?
heat-corrected = La corrección { $number } se añade a { $name }; lo que se midió sigue en el registro.

# Vigilar.
heat-name-twice = --name: { $name } está dos veces; cada sonda tiene su propio registro
heat-place-needed = Hace falta --port o --simulated: ¿dónde está la sonda? `evenhand ports` enumera los puertos
heat-no-link = no se puede abrir el enlace: { $why }
heat-link-broke = se cortó el enlace con la báscula; empiece otra vez: lo registrado se conserva
heat-probes = { $probes ->
    [one] --name: se nombran { $names } registros, pero el instrumento da { $probes } sonda
   *[other] --name: se nombran { $names } registros, pero el instrumento da { $probes } sondas
}
heat-not-recorded = No registrado: { $name }: { $why }.
heat-recorded-again = Las lecturas se registran otra vez.
heat-kept = { $name }  { $celsius } degC
heat-kept-after-gap = { $name }  { $celsius } degC  (tras un hueco)
heat-limit-from = límite según { $source }. { $caution }
