# Ce qu'une personne transmet à la suivante pendant un service.
handover-title = Relève, { $day }
handover-as-at = Situation à { $at }.
handover-dishes = Plats
handover-no-dishes = Rien n'a encore été pesé pour ce service.
handover-dish = { $dish } : { $ready } prêtes, { $out } servies, { $weighed } pesées.
handover-left-before = { $count } des prêtes restaient du service précédent.
handover-off = Hors de la cible : { $short } trop légères, { $heavy } trop lourdes.
handover-to-weigh = Encore à peser : { $count }.
handover-more-out = Il en est sorti plus qu'il n'y en a au registre : comptez ce qu'il y a.
handover-who = Qui est où, et ce qui est en cours
handover-at-work = { $cook } : { $dish }, la dernière à { $at }
handover-somebody = Quelqu'un : { $dish }, la dernière à { $at }
handover-tomorrow = Pour demain
handover-due = Lot { $batch } { $title } : pour { $at }
handover-struck =
    { $count ->
        [one] Une portion rayée : { $reason }
       *[other] { $count } portions rayées : { $reason }
    }
