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
counts-more = Más platos de los que caben aquí: { $count }. Están en la hoja.
counts-nothing-else = Nadie ha racionado aún, y nada queda para mañana.
counts-no-dish = No hay plato que contar. Toque antes un plato.
counts-refused = Raciones servidas: no se pueden contar { $count }; no se pueden anular más de las que salieron.
