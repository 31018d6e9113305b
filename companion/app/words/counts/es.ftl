# Cuentas que bajan durante un servicio, y el relevo.
counts-heading = Relevo
counts-none = Aún no se ha pesado nada para este servicio
counts-touch = Listas ahora; toque lo que sale
counts-ready = { $dish }: { $count }
counts-about = servidas { $out }, pesadas { $weighed }
counts-about-more = servidas { $out }, pesadas { $weighed }, por pesar { $more }
counts-take-back = Anular la última
counts-page = Hoja para mañana
counts-written = La hoja para imprimir está en { $path }.
counts-not-written = No se puede escribir la hoja: { $why }. No se cambió nada.
counts-nothing-else = Nadie ha racionado aún, y nada queda para mañana.
counts-no-dish = No hay plato que contar. Toque antes un plato.
counts-refused = Raciones servidas: no se pueden contar { $count }; no se pueden anular más de las que salieron.
counts-opening = Listo al abrir
counts-opening-touch = Toque lo que cuenta
counts-opening-none = Aún no hay platos en la lista
counts-opening-not-said = sin contar
counts-opening-ready =
    { $count ->
        [one] una porción
       *[other] { $count } porciones
    }
counts-opening-about = Porciones que dejó el servicio anterior y que hoy pueden salir. Lo que se pesa hoy se cuenta solo: no lo incluya aquí. Una cuenta nueva sustituye a la anterior.
counts-opening-caution = Cuente solo lo que aún está dentro del tiempo en que esta cocina lo guarda.
