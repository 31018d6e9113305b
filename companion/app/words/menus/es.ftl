# Las cartas con la mano: la lista, todo lo que se dice de una, y las etiquetas de lo hecho.
menus-heading = Cartas
menus-none = Todavía no hay ninguna carta en el registro.
menus-touch = Toque una para seguir con ella.
menus-new = Carta nueva
menus-files = De un archivo
menus-always = Para todos los días
menus-from = Desde el { $from }
menus-until = Hasta el { $until }
menus-from-until = { $from } a { $until }
menus-only = Solo el { $day }
menus-in-force = VALE HOY
menus-every-day = todos los días
menus-opens = abre a las { $time }
menus-preparations = { $count ->
    [one] una preparación
   *[other] { $count } preparaciones
}
menus-broken = no se puede leer: { $why }

menus-start = ¿Con qué empieza la carta nueva?
menus-start-empty = Con nada
menus-start-empty-about = se escribe todo
menus-start-today = Con la de hoy
menus-start-last-week = Con la de hace una semana
menus-start-day = Con la de otro día
menus-start-day-about = se escribe la fecha

menus-file-about = toque para leerlo
menus-files-where = Cartas en TOML o como tabla CSV, de la carpeta { $folder } de los datos. También se puede soltar un archivo en esta ventana.
menus-look-again = Mirar otra vez
menus-read = Leída de { $path }. Todavía no está guardada.
menus-written = Escrito en { $path }

menus-one = Una carta
menus-one-new = Una carta nueva
menus-the-menu = La carta
menus-resources = Manos, hornos, sitios
menus-resources-about = Los pasos los comparten.
menus-nothing = nada
menus-yes = sí
menus-no = no
menus-export = A archivos
menus-keep = Guardarla
menus-add-preparation = + preparación
menus-add-step = + paso
menus-add-resource = + manos u horno
menus-add-hand = + un nombre
menus-add-skill = + habilidad
menus-add-allergen = + alérgeno
menus-take-out = Quitar
menus-leave-in = Dejarlo
menus-up = Antes
menus-down = Después
menus-show-wrong = Mostrarlo

menus-steps = { $count ->
    [one] un paso
   *[other] { $count } pasos
}
menus-due = para las { $time }
menus-batch = Se elabora por lotes
menus-batch-of = lotes de { $portions }
menus-batch-heading = { $thing }: su lote
menus-no-batch = Sin lotes
menus-allergens-heading = { $thing }: alérgenos
menus-allergens-not-entered = sin anotar
menus-allergens-none = no tiene ninguno
menus-own-source = de esta cocina
menus-rests = reposa { $length }
menus-no-length = FALTA CUÁNTO DURA
menus-after = después de { $steps }
menus-after-before = El paso anterior
menus-after-none = Nada
menus-any-hands = cualquiera
menus-skill = habilidad
menus-needs-places = { $places ->
    [0] no hace falta
    [one] hace falta uno
   *[other] hacen falta { $places }
}
menus-places = { $places } a la vez
menus-hours = de { $from } a { $to }
menus-touch-days = Toque los días.
menus-touch-needs = Un toque es uno más; luego, ninguno.
menus-touch-skill = ¿Quién sabe hacerlo?
menus-touch-skills = Toque lo que sabe hacer.
menus-touch-after = ¿Qué debe estar hecho antes?

menus-remove = ¿Quitar { $thing }?
menus-remove-steps = { $count ->
    [one] Su paso se va también. Lo que lo esperaba ya no lo espera.
   *[other] Sus { $count } pasos se van también. Lo que los esperaba ya no los espera.
}
menus-remove-needed = { $count ->
    [one] Un paso lo necesita. Mientras ese paso no necesite otra cosa, la carta no se puede guardar.
   *[other] { $count } pasos lo necesitan. Mientras no necesiten otra cosa, la carta no se puede guardar.
}
menus-not-kept = La carta no está guardada
menus-not-kept-about = Lo cambiado se pierde si no se guarda.
menus-go-on = Seguir escribiendo
menus-drop = Descartar los cambios
menus-unkept = Se está escribiendo otra carta: guárdela o déjela primero.
menus-not-yet = Todavía no se puede guardar. { $why }.

menus-kept-from = Guardada; vale desde el { $day }.
menus-kept-nowhere = Guardada; pero no vale ningún día del próximo año: termina antes, o cubren sus días otras que se guardaron después.
menus-changes-added = Nuevo: { $names }.
menus-changes-removed = Ya no: { $names }.
menus-changes-changed = Cambiado: { $names }.
menus-changes-times = Sus horas o días son otros.
menus-changes-resources = Las manos, hornos o sitios son otros.

menus-entry = { $thing }: { $field }
menus-typed = { $field }: «{ $text }» no sirve; { $expected }
menus-typed-nothing = { $field } falta: { $expected }
menus-taken = { $field }: «{ $text }» ya está; escriba un nombre que no tenga otro
menus-not-written = No se escribió nada: { $why }
menus-refused = { $thing }: { $field } es «{ $value }»; { $expected }
menus-refused-about = { $thing }: { $expected }
menus-refused-nothing = { $thing }: { $field } falta; { $expected }
menus-no-such-resource = necesita { $resource }, que no está entre las manos, hornos y sitios
menus-too-many-places = necesita { $places } de { $resource }, que tiene { $has }
menus-expected-in-all = { $field ->
    [ring] espera, a través de otros, a sí mismo
    [closes] el servicio debe cerrar después de abrir
    [twice] ningún otro puede tener ese nombre
    [source] diga de dónde viene la conservación
    [never-open] debe trabajar al menos un día
    [dates] la primera fecha debe ser la última o anterior
    [both] diga desde y hasta cuándo trabaja, o ninguna de las dos
    [due] debe estar entre la apertura y el cierre del servicio
    [takes] diga cuánto dura el trabajo o cuánto reposa
    [band] la temperatura inferior debe ser la superior o menos
    [after] ningún paso tiene ya ese nombre
    [skill] alguien de lo que necesita el paso debe tener esa habilidad
    [who] no puede haber más nombres que sitios
    [either] lo termina una elaboración o unas raciones, no ambas
    [portions-of] diga de qué plato
   *[keeps] diga cuánto se conserva
}
menus-field = { $field ->
    [left] Quedó tras el servicio
    [only-day] Solo para un día
    [copy-day] La carta de qué día
    [preparation] Preparación nueva
    [step] Paso nuevo
    [resource] Manos, un horno, un sitio
    [hand] Nombre o marca
    [skill] Habilidad
    [allergen] Alérgeno
    [tubs] Recipientes
    [takes-most] Dura como mucho
    [rests-most] Reposa como mucho
    [works-from] Trabaja desde
    [works-to] Trabaja hasta
    [name] Nombre
    [opens] Abre el servicio
    [closes] Cierra el servicio
    [spare] Listo con antelación de
    [from] Primera fecha
    [until] Última fecha
    [days] Días con servicio
    [places] A la vez
    [closed] Días libres
    [serves] Sirve en el servicio
    [skills] Habilidades
    [due] Para las, si no al abrir
    [preferred] Mejor antes de
    [fallback] Se sirve en su lugar
    [buy-in] Se puede comprar
    [portions] Raciones por lote
    [keeps] Se conserva
    [source] Fuente de eso
    [dish] Plato, si se llama otra cosa
    [per-service] Raciones por servicio
    [per-cover] O raciones por cubierto
    [date-marked] Lleva fecha
    [allergens] Alérgenos
    [takes] Dura, como trabajo
    [rests] Reposa
    [needs] Necesita
    [skill-asked] De qué manos
    [in-service] Puede hacerse en servicio
    [not-before] Llega a las, no antes
    [after] Espera a
    [portions-of] Lo hacen raciones de
    [portions-done] Tantas raciones
    [batch-title] Lo hace la elaboración
    [log] Espera al registro de calor
    [log-from] Registro, mínimo
   *[log-to] Registro, máximo
}
menus-expected = { $field ->
    [left] escriba cuántas raciones dejó el servicio, 0 si ninguna
    [time] escriba una hora, como 1830
    [time-or-none] escriba una hora, como 1830, o nada
    [date] escriba una fecha, como 2026-05-08
    [date-or-none] escriba una fecha, como 2026-05-08, o nada
    [length] escriba una duración de hasta 30 días: un número y su unidad
    [most] escriba lo máximo, no menos que lo mínimo; nada si siempre dura igual
    [spare] escriba como mucho 12 horas, o nada
    [days] escriba cuánto, hasta 366 días, o nada
    [places] escriba un número entero de 1 a 1000
    [portions] escriba un número entero de 1 a 10000
    [portions-or-none] escriba un número entero de 1 a 10000, o nada
    [per-cover] escriba un número mayor que 0 y hasta 100, como 0,6, o nada
    [degrees] escriba una temperatura, como 180
    [source] escriba de dónde viene, o que es de esta cocina
    [log] escriba el nombre de un registro de calor, o nada
    [tubs] escriba un número entero de 1 a 200
    [name-or-none] escriba un nombre de una línea, o nada
   *[name] escriba un nombre de una línea
}

menus-labels = Etiquetas
menus-labels-of = Etiquetas para el { $day }
menus-no-labels = Ese día no se elabora nada por lotes.
menus-touch-a-label = Toque lo que hay en el recipiente.
menus-day-before = Día antes
menus-day-after = Día después
menus-label-prompt = Una etiqueta por recipiente
menus-pdf = PDF para imprimir
menus-png = PNG de una
menus-gone = Ya no está
menus-put-down = anotarlo
menus-ask-gone = ¿Ya no está lo que quedaba de { $thing }?
menus-ask-gone-about = Tirado o usado en otra cosa: nada de esta elaboración queda en reserva.
