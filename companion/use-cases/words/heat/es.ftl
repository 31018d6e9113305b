# Las temperaturas entre las que hay que estar, en grados enteros.
heat-band = de { $low } a { $high } °C (de { $low_fahrenheit } a { $high_fahrenheit } °F)
heat-one-temperature = { $celsius } °C ({ $fahrenheit } °F)

# Registros que hay en toda cocina, y lo que les pasa.
heat-log = { $name ->
    [oven] horno
    [stock] marmita de fondo
    [store] cámara
    [core] corazón
   *[other] { $written }
}
heat-marker = { $word ->
    [fire-out] fuego apagado
    [loaded] cargado
    [taken-out] sacado
    [into-the-cold] a la cámara
    [solid] sólido
    [door-open] puerta abierta
    [door-shut] puerta cerrada
    [lit] encendido
   *[other] { $written }
}

# Cuándo entra en el intervalo y cuándo sale.
forecast-coming = { $side ->
    [hot] Demasiado caliente
    [cold] Demasiado frío
   *[other] Aún no
} hasta las { $enters }; después, en el intervalo hasta las { $leaves }, unos { $stay }.
forecast-coming-stays = { $side ->
    [hot] Demasiado caliente
    [cold] Demasiado frío
   *[other] Aún no
} hasta las { $enters }; después, lo probable es que se quede en el intervalo.
forecast-enters-leaves = Entra { $enters }; sale { $leaves }.
forecast-enters = Entra { $enters }.
forecast-leaves = Sale { $leaves }.
forecast-inside = En el intervalo, hasta las { $leaves }.
forecast-inside-stays = En el intervalo, y lo probable es que se quede.
forecast-not-coming = Tal como va, no llega al intervalo.
forecast-between = entre las { $early } y las { $late }
forecast-not-before = no antes de las { $early }, quizá nunca

# Por qué no hay previsión, y qué haría falta.
why-too-few = Aún hay pocas lecturas para decirlo.
why-silent = La sonda calla: no hay previsión.
why-still = Apenas se mueve: no hay previsión.
why-changed = Va distinto que antes: aún no se sabe. Deje la sonda quieta unos minutos.
why-doubtful = Aún no se sabe: lo visto encaja con demasiadas horas. Deje la sonda quieta e indique en qué está.
why-plateau = Aún no se sabe: por el camino se congela o se descongela, y eso no se puede prever desde aquí.
why-stalled = Aún no se sabe: se frena mientras la superficie esté húmeda. Mantenga quieta la sonda y pregunte otra vez cuando suba más deprisa.

# Cuántas previsiones se cumplieron.
record-none = Aún no se ha cumplido el plazo de ninguna previsión en esta cocina.
record-held = { $counted ->
    [1] La única previsión vencida { $held ->
        [1] se cumplió
       *[other] no se cumplió
    }.
   *[other] De las últimas { $counted } previsiones en esta cocina se { $held ->
        [1] cumplió 1
       *[other] cumplieron { $held }
    }.
}
record-limit-none = Nada de lo dicho sobre un límite en esta cocina se ha podido comprobar todavía.
record-limit-held = { $counted ->
    [1] Lo único dicho sobre un límite y comprobado hasta ahora { $held ->
        [1] se cumplió
       *[other] no se cumplió
    }.
   *[other] De las últimas { $counted } veces que se dijo en esta cocina si se cumplía un límite, se acertó en { $held }.
}

# Cuánto puede errar la sonda.
probe-chain = La sonda acierta con { $within } (k = 2): tipo { $kind }, clase { $class }, convertidor { $converter }, unión fría { $junction }; { $source }.
probe-said = La sonda acierta con { $within } (k = 2), según se indicó.
probe-unknown = No se sabe cuánto puede errar la sonda, y no se cuenta: indique probe-within-celsius, o tipo, clase, convertidor y unión fría bajo [probe], en limits.toml.

# Hacia dónde va un registro según un límite.
bound-at-most = a { $limit } como máximo
bound-at-least = a { $limit } como mínimo
remedy-chill = a la cámara
remedy-heat = suba el fuego
remedy-look-again = remueva y vuelva a mirar pronto
remedy-ice-if-it-matters = al hielo si importa, o mire otra vez en 5 minutos; después el hielo puede llegar tarde
remedy-ice = divida en cubetas y al hielo

going-not-started = { $here } ahora; el reloj de enfriado empieza por debajo de { $from }.
going-overdue = Debía estar a { $to } hace { $ago }; ahora está a { $here }.
going-in-time = A este ritmo llega a { $to } { $before } antes del límite.
going-perhaps-late = A este ritmo lo probable es que llegue a { $to } { $before } antes del límite, pero puede llegar { $late } tarde: { $remedy }.
going-perhaps-never = A este ritmo lo probable es que llegue a { $to } { $before } antes del límite, pero quizá no llegue nunca: { $remedy }.
going-late = A este ritmo llega a { $to } { $late } tarde (de { $early } a { $latest }): { $remedy }.
going-late-or-in-time = A este ritmo llega a { $to } { $late } tarde (de a tiempo a { $latest }): { $remedy }.
going-late-or-never = A este ritmo llega a { $to } { $late } tarde (o nunca): { $remedy }.
going-missed = A este ritmo no llega a { $to } a tiempo: { $remedy }.
going-not-enough = Puede que no enfríe lo bastante; quedan { $left } para llegar a { $to }: { $remedy }.
going-unknown = Quedan { $left } para llegar a { $to }: { $remedy }. { $why }
going-start-unseen = El registro no muestra cuándo empezó a enfriar: se cuenta desde la primera lectura y en verdad queda menos.

going-beyond = { $here }, límite { $bound }; fuera hasta { $time }: { $remedy }.
going-too-close = { $here }, límite { $bound }: demasiado justo para decirlo, la sonda acierta hasta { $within } (k = 2): { $remedy }.
going-passes = { $here }, límite { $bound }; a este ritmo lo pasa en { $time }.
going-passes-soon = { $here }, límite { $bound }; a este ritmo lo pasa en { $time }: { $remedy }.
going-keeps = { $here }, límite { $bound }.

going-time-left = Fuera { $out }, límite { $allowed }: quedan { $left }.
going-time-up = Fuera { $out }, límite { $allowed }: el tiempo se acabó hace { $ago }.

going-held = Mantenido { $bound } durante { $lasted }, límite { $asked }.
going-holding = Mantenido { $bound } durante { $lasted } de { $asked }: faltan { $left }.
going-hold-ahead = { $here } ahora; llega a { $at } en { $likely } (entre { $early } y { $late }), y entonces hay que mantenerlo { $asked }.
going-hold-perhaps-never = { $here } ahora; llega a { $at } en { $likely } (no antes de { $early }, quizá nunca), y entonces hay que mantenerlo { $asked }.
going-hold-not-coming = { $here } ahora; a este ritmo no llega a { $at }.
