# Un registro de temperatura como curva: dónde está, hacia dónde va, qué hacer.
heat-log-last = { $temperature } a las { $time }
heat-log-no-reading = sin lecturas aún
heat-log-not-begun = sin empezar
heat-choose = Elija arriba un registro, ponga la sonda y registre.
heat-record = Registrar
heat-stop = Parar
heat-recording = registrando { $log }
heat-watch-for = Vigilar

heat-mark-fire-out = Fuego apagado
heat-mark-loaded = Cargado
heat-mark-taken-out = Sacado
heat-mark-into-the-cold = A la cámara

heat-now = Ahora
heat-arrival = { $temperature } hacia las
heat-silent = Sin señal desde las { $time }: no se sabe cómo está ahora.
heat-no-reading = Ninguna lectura en medio día: no se sabe cómo está ahora.
heat-mornings = { $count ->
    [one] Se miró { $count } mañana anterior.
   *[other] Se miraron { $count } mañanas anteriores.
}
heat-corrections = { $count ->
    [one] { $count } corrección vigente; lo medido queda en el registro.
   *[other] { $count } correcciones vigentes; lo medido queda en el registro.
}
heat-begin = Ponga la sonda, registre y diga qué se vigila.
heat-watched-band = Se vigila: { $band }.
heat-watched-nothing = Aún no hay intervalo ni límite.
heat-limit-from = Límite de { $source }. { $probe } { $caution }
heat-not-recorded = { $log } no se registra: { $why }.

heat-curve = Curva de { $log }: { $readings ->
    [one] { $readings } lectura
   *[other] { $readings } lecturas
}, { $gaps ->
    [one] { $gaps } hueco
   *[other] { $gaps } huecos
}
