# La báscula misma: calibración, prueba de la mañana, ajustes, estado.
scale-before = La báscula debería llevar media hora encendida, nivelada y con su bandeja. Ponga y quite tres veces la pesa más pesada antes de empezar.
scale-take-off = Quite todo de la bandeja.
scale-put-on = Ponga { $mass } en el centro de la bandeja, y nada más.
scale-hand = { $step } (Lo hace la mano simulada.)
scale-enter = { $step } Luego pulse Intro.{" "}
scale-counts = { $counts } cuentas
scale-made = calibrada con { $points } puntos: { $counts } cuentas por gramo; a { $heaviest } dentro de { $uncertainty } (k = 2); se aparta de una recta { $nonlinearity } como mucho; los puntos quedan dentro de { $residual }
scale-calibrated = calibrada con { $points } puntos, dentro de { $uncertainty } a { $heaviest } (k = 2)
scale-history-empty = Todavía no hay ninguna calibración ni prueba con una pesa; vea `evenhand scale calibrate` y `evenhand scale try`.
scale-further-out = la báscula se desvía más de lo que puede: calíbrela antes del servicio
scale-nothing-to-set = nada que ajustar: escriba --latitude y --height, o --probe
scale-set = ajustado
scale-nobody = no hay nadie ante el teclado para decir que está hecho
scale-keyboard = no se puede leer el teclado: { $why }
scale-too-much = se pidió demasiado a la báscula a la vez: pruebe de nuevo
scale-not-done = { $why }
scale-silent = { $what ->
    [still] la mesa simulada está parada
    [answer] la báscula no responde
    [found] la báscula no dice lo que encontró
    [read] la báscula no dice lo que leyó
    [made] la báscula no dice lo que hizo
   *[health] la báscula no dice cómo está
}: desenchúfela, enchúfela otra vez y empiece de nuevo
scale-not-all-sent = la báscula no dice que lo haya enviado todo: pídalo de nuevo
doctor-rate = ritmo: { $rate } conversiones por segundo, { $count } desde que arrancó
doctor-rate-not-known = ritmo: no se sabe: llegaron muy pocas conversiones seguidas; espere diez segundos y pregunte de nuevo
doctor-noise = ruido: { $noise } g por conversión (desviación típica)
doctor-noise-counts = ruido: { $noise } cuentas por conversión (desviación típica); en gramos se sabrá cuando la báscula esté calibrada
doctor-noise-not-known = ruido: no se sabe: llegaron muy pocas conversiones
doctor-reach = esta célula en esta placa: { $step } en { $seconds } s de quietud, por su ruido
doctor-no-reach = esta célula en esta placa no puede pesar hasta { $step }: su ruido permite { $allowed } g; use una célula de carga menor, o aliméntela con más tensión
doctor-bridge = convertidor del puente: { $faults } fallos, { $timeouts } de ellos por tiempo; { $restarts } rearranques; { $reads } lecturas desechadas por dudosas
doctor-probe = sonda: { $faults } fallos
doctor-start = último arranque: { $why ->
    [watchdog] por su vigilante, porque no llegaban conversiones
    [program] por su propio programa, tras algo que no debía pasar
    [power] llegó la corriente
   *[unknown] por la corriente, el botón o su propio programa; no puede decir cuál
}
doctor-flash = memoria: { $erases } borrados de { $pages } páginas, { $share } % de lo que aguantan
doctor-recalled = se enviaron de nuevo { $count } raciones que la báscula aún guardaba; las que no estaban registradas ya lo están
