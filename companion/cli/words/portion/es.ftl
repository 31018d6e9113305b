# Raciones según llegan, y lo que se dice junto a ellas.
portion-verdict = { $verdict ->
    [short] falta
    [on] en peso
   *[heavy] sobra
}
portion-known-to = se conoce con { $within }
portion-either = así que podría ser lo uno o lo otro
portion-corrects = corrige la ración { $number }
portion-doubt = { $doubt ->
    [maybe-two] quizá dos raciones
    [taken-off-pan] se quitó de la bandeja
    [hasty] con prisa
    [touched] se tocó
    [maybe-changed] quizá cambió
   *[unknown] duda desconocida
}
portion-struck = anulada: { $reason }
portion-count = --count: { $value } no es un número de raciones; escriba un número entero mayor que cero, como 20
portion-speed = { $field }: { $value } no es una velocidad; escriba sus segundos por segundo, de 0.01 a 10000, como 10
portion-target = --target: { $why }
portion-no-scale = falta --port o --simulated: ¿dónde está la báscula? `evenhand ports` muestra los puertos
portion-other-mode = { $asked }: el escenario { $title } es para { $is }; elija otro escenario, o { $is }
portion-other-size = El cocinero de { $title } hace raciones de { $makes }, no de { $asked }.
portion-no-link = no se puede abrir el enlace: { $why }
portion-picture-failed = --picture: { $why }
portion-no-interrupts = no se puede atender a Ctrl-C: { $why }
portion-cannot-begin = la tanda no puede empezar: { $why }
portion-link-broke = se rompió el enlace con la báscula; empiece de nuevo: la báscula guarda lo que no se registró
portion-resumed = Sigue la tanda de las { $time }; { $count } de sus raciones están registradas.
portion-recorded-again = Las raciones vuelven a registrarse.
portion-no-run = no se empezó ninguna tanda
portion-out = Fuera del frío durante { $out }, límite { $limit }.
portion-melting = fuera { $out }, quedan { $left }
portion-melting-over = fuera { $out }, { $over } de más
portion-out-over = Fuera del frío durante { $out }, límite { $limit }, pasado en { $over }: de vuelta al frío.
portion-lost = { $count ->
    [one] Se perdió { $count } ración
   *[other] Se perdieron { $count } raciones
}: se hicieron más de las que la báscula podía guardar.
portion-unsent = { $count ->
    [one] { $count } ración todavía no está registrada
   *[other] { $count } raciones todavía no están registradas
}: la báscula las guarda y las envía cuando vuelva a estar enlazada.
