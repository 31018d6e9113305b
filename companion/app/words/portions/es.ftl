reason-fell = Se cayó
reason-tasted = Probada
reason-not-a-portion = No es ración
reason-wrong-dish = Otro plato
reason-put-back = Devuelta
reason-bumped = Golpe en la báscula
reason-own-hint = o con sus palabras
reason-own = Motivo con sus palabras

portions-no-run = No hay ninguna tanda en marcha, así que no hay raciones que mostrar.
portions-title = { $dish }: elija la ración que anular
portion-corrected = corregida por otra pesada
portion-doubted = { $verdict }. { $doubt }
portion-spoken = Ración { $number }, { $mass }, { $standing }
portion-spoken-struck = Ración { $number }, { $mass }, anulada: { $reason }
strike-what-happens = Queda en el registro, marcada, y deja de contar.
strike-why = ¿Por qué no debe contar la ración { $number }?
strike-was-struck = La ración { $number } se anuló: { $reason }.
strike-was-corrected = La ración { $number } no cuenta: otra pesada ocupó su lugar.
strike-out = Anular
strike-count-again = Volver a contar
portions-newer = { $count ->
    [one] 1 ración nueva
   *[other] { $count } raciones nuevas
}
portions-all-listed = Están todas las raciones
