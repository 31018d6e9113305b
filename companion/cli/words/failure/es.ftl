# Por qué no se pudo cumplir una orden.
output-closed = la salida se cerró
output-failed = no se puede escribir en la salida: { $why }
period-reversed = --from no está antes de --to; cámbielos de lugar
place-belongs-after = --port y --simulated van después de la orden: evenhand portion --port RUTA
no-passing-folder = no se puede crear una carpeta para archivos de paso: { $why }
answered-as-empty = No hay registro en { $folder }: se responde como si no hubiera nada registrado.
scale-simulated = La báscula es simulada: lo que hace se guarda en { $folder }, y se lee con --data.
no-serial-port = este ordenador no tiene ahora ningún puerto serie; enchufe la báscula
no-screens = esta versión no tiene pantallas; use una orden, que `evenhand help` muestra
no-picture = esta versión no tiene pantallas y no dibuja imágenes
# Lo que se escribió.
needed = falta { $field }; escríbalo con su unidad, como { $field } { $example }
goal-senseless = --target y --tolerance: { $why }
mode-needed = falta --adding o --taking: ¿se añade género a un recipiente vacío o se saca de una cubeta llena?
unit-unknown = --unit: { $value } no es una unidad de masa; escriba g, kg, oz o lb
scenario-unreadable = no se puede leer el escenario { $path }: { $why }
scenario-refused = { $field }: { $why }
scenario-unknown = { $field }: { $why }; escriba la ruta de un archivo o uno de { $names }
# Archivos que se escriben.
file-failed = { $field }: no se puede escribir { $path }: { $why }; no se cambió nada
file-there = { $field }: { $path } ya existe; elija otro nombre, o --force para escribir encima
file-refused = { $field }: { $path } { $what ->
    [store] es parte del registro
    [database] es una base de datos, o pertenece a una
    [folder] es una carpeta
   *[no-file] no es un archivo corriente
}; elija otro nombre; no se cambió nada
page-failed = no se puede hacer la página: { $why }
# Por qué el registro no hace lo pedido.
store-no-place = este sistema no indica ninguna carpeta para los datos; diga cuál con --data DIR
store-folder = no se puede usar la carpeta de datos { $path }: { $why }; elija otra con --data DIR
store-none = no hay registro en { $folder }; mire si la carpeta que sigue a --data es la que quería: allí no se creó nada
store-moved = { $path }, o su diario, se movió, se reemplazó o se borró mientras este programa lo tenía abierto; cierre el programa y ábralo de nuevo; la báscula guarda las raciones nuevas hasta entonces
store-after-restore = se iba a reponer { $path } y { $why }; { $there ->
    [yes] lo que había está en { $aside }
   *[no] antes no había nada
}
store-newer = { $path } lo escribió una versión más nueva de este programa (formato { $found }, esta conoce hasta { $known }); no se cambió nada; instale la versión más nueva, o elija otra carpeta con --data DIR
store-not-ours = { $path } es la base de datos de otro programa; no se cambió nada; elija otra carpeta con --data DIR
store-damaged = { $path } está dañado o no es una base de datos ({ $why }); no se cambió nada; ponga una copia en su lugar, o elija otra carpeta con --data DIR
store-backup = { $path } no sirve como copia: { $why }; no se cambió nada
store-read-only = no se puede escribir en { $path }; deje que este usuario escriba ahí, o elija otra carpeta con --data DIR; lo registrado sigue intacto
store-full = el disco está lleno y no cabe nada más en { $path }; haga sitio; lo registrado sigue intacto, y la báscula guarda las raciones nuevas hasta entonces
store-busy = otro programa está escribiendo en { $path }; ciérrelo, o espere y pruebe de nuevo
store-made-up-night = lo que se guarda aquí es una noche inventada; nunca se reúne con el registro de una cocina
store-gathering = otro programa está reuniendo este registro ahora; pruebe de nuevo cuando acabe
store-journal = { $path } no se puede usar: { $why }; lo registrado sigue intacto
store-disk = no se pudo leer o escribir { $path } ({ $why }); revise el disco; lo registrado sigue intacto
store-senseless = { $path } tiene { $what ->
    [time] una hora
    [mode] un modo
    [goal] un objetivo
    [currency] una moneda
   *[other] un dato ({ $what })
} sin sentido; ponga una copia en su lugar
store-sql = no se pudo usar { $path } como se pidió: { $why } (código { $code }); lo registrado sigue intacto; `evenhand check` lo lee todo, y el código dice a quienes hicieron este programa qué buscar
why-parts = sus partes no encajan
why-begins = no empieza como una
why-part-of-store = es parte del propio registro; elija otro
why-store-itself = es el propio registro, no una copia
why-no-such-file = no existe ese archivo
why-there-already = ya hay un archivo con ese nombre; elija otro
why-rule = lo que se iba a escribir rompe una regla del registro
why-kind = un valor es de otra clase que los del registro
why-too-large = un valor es demasiado grande para guardarlo
why-memory = a este ordenador no le queda memoria para ello
why-interrupted = se interrumpió antes de terminar
why-disk = el disco en el que está no puede guardar un registro; elija una carpeta de este ordenador
why-lacks = le falta una parte que este programa busca
why-figure = una cifra es de otra clase que las que escribe este programa
# Lo que no está registrado.
unknown-dish = no existe el plato { $name }; { $any ->
    [none] todavía no hay ninguno registrado; añada uno con `evenhand dish add`
   *[some] los conocidos son { $known }
}
unknown-vessel = no existe el recipiente { $name }; { $any ->
    [none] todavía no hay ninguno registrado; llene uno con `evenhand brine vessel fill`
   *[some] los conocidos son { $known }
}
unknown-heat-log = no existe el registro de temperatura { $name }; { $any ->
    [none] todavía no hay ninguno; `evenhand heat watch` empieza uno
   *[some] los conocidos son { $known }
}
unknown-tin = no existe la cubeta { $tin }; véalas con `evenhand tin list`
tin-of-other-dish = la cubeta { $tin } es de { $holds }, no de { $asked }; abra o elija una cubeta de { $asked }
name-taken = ya hay un plato { $name }; elija otro nombre
orders-reversed = la última comanda de { $day } quedaría antes de la primera; dé las dos horas de nuevo, primero la de la primera comanda
unknown-yield-line = no existe la línea { $line } de un rendimiento que se pueda anular; véalas con `evenhand yield show`
unknown-picture = no existe la imagen { $picture } que se pueda quitar; véalas con `evenhand formula pictures`
unknown-batch = no existe la elaboración { $batch }; véalas con `evenhand batch list`
heat-overlaps = hay otra lectura de este registro a las { $at }, dentro del tramo que se añade; guárdelos con nombres distintos
unknown-heat-correction = no hay ninguna corrección { $number } vigente; `evenhand heat log --name NAME --json` las muestra
unknown-portion = no está registrada la ración { $portion }; `evenhand export` las muestra con su identificador
struck-already = la ración { $portion } ya está anulada
not-struck = la ración { $portion } no está anulada
unknown-order = no está registrado el pedido { $number }; `evenhand prep orders` los muestra
order-is-so = el pedido { $number } ya está { $is ->
    [taken-back] retirado
   *[put-down] anotado
}
nothing-to-undo = no hay ninguna ración que deshacer
log-backward = la hora { $at } va por detrás de { $before }: se esperan horas que solo avancen
log-twice = la hora { $at } está dos veces con temperaturas distintas
log-absurd = { $celsius } °C a las { $at } está fuera de -100 a 1400 °C, que ninguna sonda de cocina mide
typed = { $why }
