# El reloj de la mise en place: qué hacer ya, qué sigue, qué llegará tarde.
prep-heading = Mise en place
prep-title = { $day }: abre a las { $time }, en { $length }
prep-title-open = { $day }: abrió a las { $time }, hace { $length }
prep-nothing-left = No queda nada por hacer.
prep-everybody = Todos
prep-take-back = Deshacer
prep-hour-late = ¿{ $what } una hora tarde?
prep-an-hour-late = ¿Una hora tarde?
prep-so-late = ¿{ $what } { $by } tarde?
prep-later-by = { $sign }{ $minutes } min
prep-at-another-time = A otra hora
prep-tell-heading = Lo que se hizo antes
prep-tell-touch = Toque el paso.
prep-tell-what = { $what ->
    [begun] Empezado
    [done] Hecho
   *[undone] Al final no hecho
}
prep-tell-by = por { $who }
prep-tell-nobody = sin decir por quién
prep-tell-when = { $time }, hace { $ago }
prep-tell-now = { $time }, ahora
prep-tell-put-down = Anotarlo
prep-tell-outside = { $step }: { $time } no puede ser del servicio del { $day }.
prep-print = Listas para imprimir
prep-printed = Escrito en { $path }
prep-it-is-so = Así es
prep-keep = guardarlo
prep-done = Hecho
prep-done-spoken = { $step } hecho

prep-since = desde { $time }
prep-by = antes de { $time }
prep-no-place = sin sitio
prep-late = { $takes }, { $late } tarde
prep-spare = { $takes }, margen { $spare }
prep-spare-at-least = { $takes }, margen { $spare } o más
prep-rests-longer = reposa { $over } más de lo debido
prep-needs = necesita { $needs }

prep-chain = Manda en el día: { $steps }
prep-then = { $first }, luego { $next }
prep-mends = Para arreglarlo: { $mends }.
prep-or = { $one }, o { $other }
prep-no-mend = Ningún cambio solo arregla el día.
prep-no-known-mend = No se conoce ningún cambio que arregle el día. { $open }
prep-ticked-unknown = Marcado, pero ya en ninguna carta: { $steps }.

prep-list = Lista
prep-menus = Cartas
prep-timeline = Horario
prep-week = Semana
prep-week-title = Qué se hace esta semana
prep-week-waiting = Se está calculando la semana.
prep-week-guests = comensales
prep-week-guests-spoken = { $day }: comensales { $step }
prep-lane-nobody = nadie libre
prep-lane-rests = solo
prep-bar = { $step }: { $standing }, de { $from } a { $until }
prep-timeline-opens = abre a las { $time }
prep-timeline-later = { $count ->
    [one] Hay un paso más después de esta hora.
   *[other] Hay { $count } pasos más después de esta hora.
}
prep-timeline-without-time = No se encontró hora para { $steps }.
prep-oven-band = { $step } a { $band }
prep-oven-unknown = { $step } a { $band }: no se sabe cuándo

# ¿Y si?: qué se puede probar, y cómo sería el día.
prep-what-if = ¿Y si?
prep-order = Pedido
prep-touch-what-if = Toque lo que puede ser distinto.
prep-as-it-is = Como es
prep-supposed = ¿Y SI?: { $what }
prep-all-in-time = Todo está listo a tiempo.
prep-dish-ready = { $dish }: listo { $ready }
prep-it-is-so-keep = Es así: guardarlo
prep-comes = llega de { $from } a { $to }, hace falta a las { $needed }
