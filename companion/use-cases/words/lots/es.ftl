# Un alimento por todos sus pasos, cada uno frente a su límite, en una hoja.
lots-as-on-record = Según el registro a { $at }: { $outcome }.
lots-no-limit-held = ningún paso tiene límite
lots-batch = elaboración { $number }: { $title }
lots-no-title = sin título
lots-not-named = sin nombre
lots-not-ready = no está lista: { $why }
lots-between = De camino al paso siguiente, sin vigilar: { $gap }.
lots-gap = de { $from } a { $to } ({ $lasting })
lots-going-on = en curso
lots-step = { $mark } – { $step }, de { $from } a { $to }
lots-mark = { $outcome ->
    [kept] dentro
    [broken] SUPERADO
    [running] por ahora
    [cannot-tell] no se sabe
    [too-close] MUY JUSTO
    [noted] nota
   *[no-limit] sin límite
}
lots-limit = Límite { $name }: { $demand }.
lots-held-to-none = Sin límite: no se juzga nada.
lots-read-by = Leído por: { $log }.
lots-read-by-nothing = No lo lee nada.
lots-found = { $mark }: { $found }
lots-not-read = Sin leer: { $gap }.
lots-corrections = Correcciones en vigor: { $count }; lo que se midió sigue en el registro.
lots-limit-from = Límite según { $source }.
lots-page = { $title }, página { $nth } de { $of }

# Por qué no se juzga un lote.
lots-unreadable = no se puede leer el archivo del lote: { $why }
lots-field = paso «{ $step }»: { $why }
lots-empty = { $what ->
    [title] el campo title está vacío, se esperaba un nombre
   *[name] el campo name está vacío, se esperaba un nombre
}
lots-no-steps = el lote no tiene pasos, se esperaba al menos un [[step]]
lots-backward = el paso «{ $step }» acaba antes de empezar
lots-open = el paso «{ $step }» no tiene fin; solo el último paso puede seguir en curso
lots-overlaps = el paso «{ $step }» empieza antes de que acabe «{ $before }»
lots-no-log = el paso «{ $step }» tiene un límite que responde un termómetro, y no nombra ningún registro
lots-unknown-limit = paso «{ $step }»: no hay ningún límite «{ $limit }» en vigor; los conocidos son { $known }
lots-file-unreadable = { $path } no se puede leer: { $why }
lots-none-there = No hay ningún lote en la carpeta { $folder } de los datos de esta cocina.
