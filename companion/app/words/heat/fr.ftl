# Un relevé de température en courbe : où il en est, où il va, quoi faire.
heat-log-last = { $temperature } à { $time }
heat-log-no-reading = pas encore de mesure
heat-log-not-begun = pas commencé
heat-choose = Choisissez un relevé ci-dessus, placez la sonde et enregistrez.
heat-record = Enregistrer
heat-stop = Arrêter
heat-recording = en cours : { $log }
heat-watch-for = Surveiller

heat-mark-fire-out = Feu éteint
heat-mark-loaded = Chargé
heat-mark-taken-out = Sorti
heat-mark-into-the-cold = Au froid

heat-now = Maintenant
heat-arrival = { $temperature } vers
heat-silent = Plus rien depuis { $time } : la température actuelle n'est pas connue.
heat-no-reading = Aucune mesure depuis une demi-journée : la température actuelle n'est pas connue.
heat-mornings = { $count ->
    [one] { $count } matinée précédente prise en compte.
   *[other] { $count } matinées précédentes prises en compte.
}
heat-corrections = { $count ->
    [one] { $count } correction en vigueur ; ce qui a été mesuré reste au registre.
   *[other] { $count } corrections en vigueur ; ce qui a été mesuré reste au registre.
}
heat-begin = Placez la sonde, enregistrez, et dites ce qu'il faut surveiller.
heat-watched-band = Surveillé : { $band }.
heat-watched-nothing = Ni plage ni limite pour l'instant.
heat-limit-from = Limite de { $source }. { $probe } { $caution }
heat-not-recorded = { $log } n'est pas enregistré : { $why }.

heat-curve = Courbe de { $log } : { $readings ->
    [one] { $readings } mesure
   *[other] { $readings } mesures
}, { $gaps ->
    [one] { $gaps } trou
   *[other] { $gaps } trous
}
