link-unplugged = No hay ninguna báscula conectada. Enchufe su cable en este ordenador.
link-quiet = La báscula no da señales. Compruebe que tiene corriente y que su cable está bien puesto.
link-first-reading = La báscula está conectada; llega su primera lectura.
scale-busy = La báscula sigue ocupada con lo anterior. Pruebe otra vez en un momento.
scale-not-chosen = No se ha elegido ninguna báscula. Diga antes dónde está.

mass-no-reading = Sin lectura
mass-cannot-weigh = No puede pesar
mass-in-the-dish = En el recipiente
mass-taken-out = Sacado
mass-on-the-pan = En la báscula
mass-net = Neto
mass-steady = estable
mass-moving = se mueve
mass-spoken-unknown = Peso desconocido
mass-spoken = { $mass } gramos
mass-spoken-verdict = { $mass } gramos, { $verdict }

prompt-add = Añada
prompt-take-out = Quite un poco
prompt-lift-off = Retire el recipiente
prompt-hands-off = Sin tocar

probe-unplugged = suelta
probe-shorted = en corto
probe-no-answer = no responde
probe-out-of-range = fuera de margen

run-begun-elsewhere = Una tanda empezada en otro sitio
run-count = Raciones
run-mean = Media
run-spread = Desviación
run-today = Hoy
run-today-spread = desviación { $mass }
run-in-doubt = En duda
run-in-doubt-of = { $doubted } de { $count }
run-with-all = con todas { $mass }
run-today-doubted = { $doubted } en duda; sin ellas, desviación { $mass }
tin-left = Queda en la cubeta
tin-and-food = Cubeta y comida
tin-portions-between = de { $fewest } a { $most } raciones
idle-start = Empezar a racionar ya
idle-last-run = Última tanda, { $dish }: { $figures }.
idle-today = Hoy: { $figures }.
idle-today-doubted = Hoy: { $doubted } de { $figures } en duda.
idle-none = Hoy aún no hay raciones.
figures-mean = { $portions }, media { $mean }
figures-mean-spread = { $portions }, media { $mean }, desviación { $spread }
figures-in-doubt = { $doubted } de { $portions } en duda; sin ellas media { $mean }, desviación { $spread }; con ellas { $all }, { $allspread }

button-undo-last = Deshacer
button-strike-out = Anular
button-change-goal = Objetivo
button-stop-run = Terminar
button-choose-dish = Elegir plato
button-find-scale = Buscar la báscula
button-tare-off = Sin tara
button-tare = Tara
button-zero = Cero

last-portion = Última, n.º { $number }: { $verdict }
approach-nothing = Hacia { $goal }, aún nada
approach = Hacia { $goal }: { $verdict }, { $distance }
strip-first = Aquí irá la primera ración
strip-summary = Raciones por orden: { $on } en peso, { $short } con falta, { $heavy } con sobra, { $struck } anuladas

melt-seconds = { $seconds } s
melt-minutes = { $minutes } min
melt-left = quedan { $time }
melt-over = pasado { $time }
melt-out = Fuera del frío
melt-back = De vuelta al frío
melt-spoken = Fuera del frío { $out }, { $stands }. ¿Ya está dentro?
melt-rate = { $rate } ± { $within }/min
melt-losing = En el plato: { $lost } perdidos hasta ahora, { $rate } ± { $within } por minuto.
