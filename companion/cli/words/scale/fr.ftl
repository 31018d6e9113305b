# La balance elle-même : étalonnage, essai du matin, réglages, état.
scale-before = La balance devrait être allumée depuis une demi-heure, de niveau, avec son plateau. Posez et ôtez trois fois le poids le plus lourd avant de commencer.
scale-take-off = Ôtez tout du plateau.
scale-put-on = Posez { $mass } au milieu du plateau, et rien d'autre.
scale-hand = { $step } (La main simulée le fait.)
scale-enter = { $step } Puis appuyez sur Entrée.{" "}
scale-counts = { $counts } pas
scale-made = étalonnée avec { $points } points : { $counts } pas par gramme ; à { $heaviest } à { $uncertainty } près (k = 2) ; écart à une droite de { $nonlinearity } au plus ; les points sont à { $residual } près
scale-calibrated = étalonnée avec { $points } points, à { $uncertainty } près à { $heaviest } (k = 2)
scale-history-empty = Aucun étalonnage ni essai avec un poids n'est encore noté ; voyez `evenhand scale calibrate` et `evenhand scale try`.
scale-further-out = la balance s'écarte plus qu'elle ne le peut : étalonnez-la avant le service
scale-nothing-to-set = rien à régler : écrivez --latitude et --height, ou --probe
scale-set = réglé
scale-nobody = personne n'est au clavier pour dire que c'est fait
scale-keyboard = le clavier ne peut pas être lu : { $why }
scale-too-much = trop a été demandé à la balance à la fois : réessayez
scale-not-done = { $why }
scale-silent = { $what ->
    [still] le poste simulé ne bouge plus
    [answer] la balance ne répond pas
    [found] la balance ne dit pas ce qu'elle a trouvé
    [read] la balance ne dit pas ce qu'elle a lu
    [made] la balance ne dit pas ce qu'elle a fait
   *[health] la balance ne dit pas comment elle va
} : débranchez-la, rebranchez-la et recommencez
scale-not-all-sent = la balance ne dit pas qu'elle a tout envoyé : redemandez
doctor-rate = cadence : { $rate } conversions par seconde, { $count } depuis le démarrage
doctor-rate-not-known = cadence : pas connue : trop peu de conversions sont venues d'affilée ; attendez dix secondes et redemandez
doctor-noise = bruit : { $noise } g par conversion (écart type)
doctor-noise-counts = bruit : { $noise } pas par conversion (écart type) ; en grammes, il sera connu une fois la balance étalonnée
doctor-noise-not-known = bruit : pas connu : trop peu de conversions sont venues
doctor-reach = ce capteur sur cette carte : { $step } en { $seconds } s de calme, d'après son bruit
doctor-no-reach = ce capteur sur cette carte ne peut pas peser à { $step } : son bruit permet { $allowed } g ; prenez un capteur de charge plus petit, ou donnez-lui plus de tension
doctor-bridge = convertisseur du pont : { $faults } défauts, dont { $timeouts } par délai ; { $restarts } redémarrages ; { $reads } lectures rejetées comme douteuses
doctor-probe = sonde : { $faults } défauts
doctor-start = dernier démarrage : { $why ->
    [watchdog] par son chien de garde, car aucune conversion ne venait
    [program] par son propre programme, après ce qui ne devrait pas arriver
    [power] le courant est venu
   *[unknown] par le courant, le bouton ou son propre programme ; elle ne peut pas dire lequel
}
doctor-flash = mémoire : { $erases } effacements de { $pages } pages, { $share } % de ce qu'elles supportent
doctor-recalled = { $count } portions que la balance gardait encore ont été renvoyées ; celles qui n'étaient pas notées le sont
