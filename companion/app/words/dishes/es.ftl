dishes-title = ¿Qué va a racionar?
dishes-new = Plato nuevo
dishes-none = Aún no hay ningún plato. Pulse Plato nuevo y póngale nombre al primero.
dish-line = { $goal }, { $mode }

naming-field = Nombre del plato

setup-adding = En recipientes
setup-adding-how = Poner un recipiente, llenarlo, retirarlo
setup-taking = De una cubeta
setup-taking-how = Poner la cubeta e ir sacando
setup-start = Empezar
setup-goal-title = { $dish }: desde la próxima ración
setup-use-goal = Usar este objetivo
setup-target = Objetivo
setup-tolerance = Tolerancia
setup-step = { $what } { $by }
setup-tin-none = Cubeta sin anotar
setup-tin-none-open = No hay cubeta abierta
setup-tin-open = Cubeta abierta: quedan { $left }
setup-tin-new = Cubeta nueva
setup-tin-food = Comida en la cubeta nueva
setup-cannot-be = No puede ser: { $why }.
setup-on-target = En peso de { $from } a { $to }.
setup-waiting = Esperando a la báscula: primero hay que conectarla.
