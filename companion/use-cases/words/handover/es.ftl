# Lo que una persona entrega a la siguiente durante un servicio.
handover-title = Relevo, { $day }
handover-as-at = Tal como estaba a las { $at }.
handover-dishes = Platos
handover-no-dishes = Aún no se ha pesado nada para este servicio.
handover-dish = { $dish }: { $ready } listas, { $out } servidas, { $weighed } pesadas.
handover-left-before = { $count } de las listas quedaron del servicio anterior.
handover-off = Fuera del objetivo: { $short } cortas, { $heavy } pesadas de más.
handover-to-weigh = Aún por pesar: { $count }.
handover-more-out = Salieron más de las que constan: cuente las que hay.
handover-who = Quién está dónde y qué está en marcha
handover-at-work = { $cook }: { $dish }, la última a las { $at }
handover-somebody = Alguien: { $dish }, la última a las { $at }
handover-tomorrow = Para mañana
handover-due = Lote { $batch } { $title }: para { $at }
handover-struck =
    { $count ->
        [one] Una ración anulada: { $reason }
       *[other] { $count } raciones anuladas: { $reason }
    }
