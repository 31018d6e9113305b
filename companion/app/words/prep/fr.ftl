# L'horloge de la mise en place : quoi faire, ensuite, et ce qui sera en retard.
prep-heading = Mise en place
prep-title = { $day } : ouvre à { $time }, dans { $length }
prep-title-open = { $day } : ouvert à { $time }, il y a { $length }
prep-nothing-left = Plus rien à faire.
prep-everybody = Tout le monde
prep-take-back = Annuler
prep-hour-late = { $what } en retard d'une heure ?
prep-an-hour-late = Une heure en retard ?
prep-so-late = { $what } en retard de { $by } ?
prep-later-by = { $sign }{ $minutes } min
prep-at-another-time = À une autre heure
prep-tell-heading = Ce qui a été fait plus tôt
prep-tell-touch = Touchez l'étape.
prep-tell-what = { $what ->
    [begun] Commencé
    [done] Fait
   *[undone] Finalement pas fait
}
prep-tell-by = par { $who }
prep-tell-nobody = sans dire par qui
prep-tell-when = { $time }, il y a { $ago }
prep-tell-now = { $time }, maintenant
prep-tell-put-down = Le noter
prep-tell-outside = { $step } : { $time } ne peut pas être du service de { $day }.
prep-print = Listes à imprimer
prep-printed = Écrit dans { $path }
prep-it-is-so = C'est le cas
prep-keep = le garder
prep-done = Fait
prep-done-spoken = { $step } fait

prep-since = depuis { $time }
prep-by = avant { $time }
prep-no-place = pas de place
prep-late = { $takes }, { $late } de retard
prep-spare = { $takes }, marge { $spare }
prep-spare-at-least = { $takes }, marge { $spare } ou plus
prep-rests-longer = repose { $over } de trop
prep-needs = demande { $needs }

prep-chain = Décide de la journée : { $steps }
prep-then = { $first }, puis { $next }
prep-mends = Pour y remédier : { $mends }.
prep-or = { $one }, ou { $other }
prep-no-mend = Aucun changement seul ne sauve la journée.
prep-no-known-mend = On ne connaît aucun changement qui sauve la journée. { $open }
prep-ticked-unknown = Coché, mais plus sur aucune carte : { $steps }.

prep-list = Liste
prep-menus = Cartes
prep-timeline = Horaire
prep-week = Semaine
prep-week-title = Ce qui se prépare cette semaine
prep-week-waiting = La semaine est en cours de calcul.
prep-week-guests = couverts
prep-week-guests-spoken = { $day } : couverts { $step }
prep-lane-nobody = personne de libre
prep-lane-rests = tout seul
prep-bar = { $step } : { $standing }, de { $from } à { $until }
prep-timeline-opens = ouvre à { $time }
prep-timeline-later = { $count ->
    [one] Une étape de plus vient après cette heure.
   *[other] { $count } étapes de plus viennent après cette heure.
}
prep-timeline-without-time = Aucune heure trouvée pour { $steps }.
prep-oven-band = { $step } à { $band }
prep-oven-unknown = { $step } à { $band } : on ne sait pas quand

# Et si : ce qu'on peut essayer, et ce que serait la journée.
prep-what-if = Et si
prep-order = Commande
prep-touch-what-if = Touchez ce qui peut être autrement.
prep-as-it-is = Tel quel
prep-supposed = ET SI : { $what }
prep-all-in-time = Tout est prêt à temps.
prep-dish-ready = { $dish } : prêt { $ready }
prep-it-is-so-keep = C'est ainsi : garder
prep-comes = arrive de { $from } à { $to }, il le faut à { $needed }
