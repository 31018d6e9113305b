# Mélanger au poids : le début, une proportion à préparer et sur la balance, et
# peser au fur et à mesure. Les masses ont leur unité.
mixing-no-name = Pas encore de nom
mixing-as-you-go = Peser au fur et à mesure
mixing-weighing-as-you-go = Pesée au fur et à mesure
mixing-batches = Préparations
mixing-vessels = Récipients
mixing-due = À faire
mixing-name-it = Nom
mixing-onto-the-scale = Sur la balance
mixing-how-much = combien ?
mixing-in-all = { $total } en tout
mixing-empty = Vide
mixing-full = Plein
mixing-by = Selon { $source }.
mixing-leaf = { $first } à { $last } sur { $all }
mixing-all-in-of = { $title } : tout y est
mixing-weighed = { $count } pesés à { $at }
mixing-weighed-of = { $count } sur { $of } pesés à { $at }

mixing-water = eau
mixing-salt = sel
mixing-sugar = sucre
mixing-flour = farine
mixing-meat = viande

start-back-to = Retour à { $mix }
start-go-on = Continuer : { $mix }
start-put-aside = Mettre de côté
start-stays = reste au registre
start-as-last-time = Comme la dernière fois
start-new-ratio = Une nouvelle proportion, en
start-form = { $form ->
    [of-water] % de l'eau
    [of-total] % du total
    [bakers] % boulanger
    [of-meat-and-water] Viande et eau
   *[parts] Parts
}
start-form-detail = { $form ->
    [of-water] du liquide
    [of-total] de tout
    [bakers] de la farine
    [of-meat-and-water] % des deux
   *[parts] 4 pour 1
}
start-cure = Salaison ◆ nitrite
start-brine = Saumure
start-soak = Saumure, marinade à l'heure
start-formulas = Formules, eau de pâte
start-counts = Relève, comptes
start-yields = Ce qui est sorti
start-lots = Lots
start-cut = Couper une pièce
start-more-due = { $count ->
    [one] Encore une à faire : toutes les préparations
   *[other] Encore { $count } à faire : toutes les préparations
}
start-nothing-due = Rien à faire.

sketch-add = Ajouter
sketch-add-first = Ajoutez le premier ingrédient.
sketch-within = à { $percent } % près
sketch-on-target = Au poids
sketch-any-amount = Sans quantité
sketch-room = Place, par récipient
sketch-set-grams = fixer g
sketch-as-there-is = ce qu'il y a
sketch-the-rest = le reste, { $percent } %
sketch-agent = { $mark } agent de salaison
sketch-pour-first = Versez tout ce qu'il y a du premier : le reste suit.
sketch-counts-as-flour = { $name } compte comme farine
sketch-part-spoken = { $what ->
    [name] Nom
    [number] Nombre
   *[amount] Quantité
} de { $name } : { $value }
sketch-take-out = Retirer { $name }

walk-hold-still = Ne bougez plus : ensuite { $name }
walk-put-on-with-all = Posez-le avec ce qu'il contient
walk-put-vessel-on = Posez le récipient
walk-put-vessel-back = Reposez le récipient
walk-stop = Arrêtez : { $name }
walk-all-in = Tout y est
walk-enough = { $name } : assez
walk-over = { $name } : en trop
walk-add = Ajoutez { $name }
walk-add-all = Ajoutez { $name }, ce qu'il y a
walk-not-heard = La balance ne répond pas : ce qui est pesé est gardé, et cela continue à son retour.
walk-started-anew = La balance a redémarré : ce qui est venu entre-temps n'est pas connu. Continuez, et dites combien c'était si cela compte.
walk-cannot-be-undone = Une fois mélangé, c'est sans retour.
walk-take-some-out = Retirez-en, ou laissez.
walk-makes = Ainsi, avec les autres en proportion, cela fait { $total } en tout.
walk-makes-too-much = Ainsi, avec les autres en proportion, cela fait { $total } en tout, plus que les { $room } qui tiennent.
walk-makes-with-room = Ainsi, avec les autres en proportion, cela fait { $total } en tout ; il y a place pour { $room }.
walk-vessel-aside = Il est déduit tout seul. Sans récipient, ou s'il y est déjà : Tel quel.
walk-hands-off = Ne touchez plus, cela continue tout seul.
walk-goes-on-on-target = Cela continue tout seul une fois posé au poids.
walk-goes-on = Cela continue tout seul.
walk-came-on = { $mass } de plus qu'au registre : touchez à droite ce que c'est. Si personne ne sait : Tel quel ; cela ne compte alors pas.
walk-went-off = { $mass } de moins qu'au registre : posez le récipient comme il était. Si c'est impossible : Tel quel.
walk-what-was-it = Qu'était-ce vraiment ? Touchez-le à droite.
walk-of = sur { $mass }
walk-total = { $there } sur { $total }
walk-total-room = { $there } sur { $total }, place pour { $room }
walk-in = { $there } dedans
walk-in-room = { $there } dedans, place pour { $room }
walk-no-vessel-yet = Pas de récipient
walk-poured = Versé
walk-read-label = Lisez le nitrite sur le paquet que vous tenez, avant d'approcher { $name } de la balance.
walk-put-away = Laisser
walk-read-the-label = Lire l'étiquette
walk-mark-ready = Marquer prête
walk-as-it-stands = Tel quel
walk-that-was-another = C'était un autre
walk-took-some-out = J'en ai retiré
walk-go-on = Continuer
walk-reached = { $name } : { $is } pour { $asked } demandés
walk-brine = Saumure : sel { $of_water } % de l'eau, { $of_solution } % de la solution

capture-not-heard = La balance ne répond pas
capture-started-anew = La balance a redémarré : continuez
capture-anything = Mettez ce que vous voulez
capture-aside = Ce qui se pose est noté. Touchez une ligne pour dire ce que c'était.
capture-came-on = { $mass } de plus qu'au registre. Si c'est entré : C'est entré. Sinon Tel quel ; cela ne compte alors pas.
capture-just-now = À l'instant
capture-done = Terminé
capture-that-went-in = C'est entré
capture-more-of-the-same = Encore du même
capture-what-was-it = C'était quoi ?

mixing-note-gone-on = poursuivi avec { $mass } sur la balance qui ne sont pas au registre et ne comptent pas
mixing-note-started-anew = la balance a redémarré au milieu d'un versement
mixing-note-put-away = laissée avant d'être marquée prête
mixing-note-not-ready = laissée, pas prête : { $why }
mixing-agrees = { $agent } : pesé { $weighed }, calculé { $computed } pour ce qu'il y a : cela concorde
mixing-disagrees = { $agent } : pesé { $weighed }, calculé { $computed } pour ce qu'il y a : cela ne concorde pas, pas prête
mixing-not-ready = pas prête : { $why }

mixing-portioning = des portions sont en cours : arrêtez d'abord cette série
mixing-another-mix = un autre mélange est en cours : finissez-le ou laissez-le d'abord
mixing-not-steady = la balance bouge ou ne répond pas : laissez-la se poser
mixing-nothing-more = il n'y a pas plus sur la balance qu'au registre : laissez-la se poser
mixing-nothing-on = il n'y a rien sur la balance
mixing-nothing-weighed = rien n'est encore pesé
mixing-only-one-thing = il faut deux pesées pour que l'une soit encore de l'autre
mixing-too-many = une proportion a ici au plus { $most } ingrédients
mixing-there-already = { $name } y est déjà
mixing-how-much-of = { $name } : dites combien
mixing-no-amount = { $name } : « { $text } » n'est pas une quantité ; écrivez un nombre au-dessus de zéro, comme 2,5
mixing-no-such-amount = cette quantité est impossible : il faut plus de zéro, et ce qu'une cuisine peut avoir
mixing-no-ingredient = ajoutez un ingrédient
mixing-agent-in-it = il y a un agent de salaison : préparez-la à nouveau à l'écran de salaison, le paquet en main
mixing-no-packet = dites ce qu'il y a sur le paquet de l'agent de salaison
mixing-no-fraction = lisez le nitrite sur l'étiquette de l'agent de salaison
mixing-no-ppm = dites combien de nitrite ajouté il doit y avoir
mixing-no-pick-up = dites quelle part de son poids cru la viande absorbe
mixing-low-fraction = { $text } %, c'est moins que les agents vendus pour saler : 0,0625 pour un, c'est 6,25 %. Écrivez-le avec son signe % si l'étiquette le dit ainsi
mixing-no-strength = dites la force qu'elle doit avoir
mixing-beyond-calendar = c'est au-delà du calendrier
mixing-no-title = écrivez ce que c'est, ou laissez
mixing-not-named-through = aucune préparation de { $title } n'a un nom pour tout ce qu'elle contient
mixing-book-changed = le livre a changé entre-temps : regardez-le à nouveau
mixing-not-under-way = il est fini, ou a été mis de côté
mixing-no-batch = choisissez d'abord une préparation
mixing-untitled = pas encore de nom : dites ce que c'est, et elle se compare aux autres
mixing-probe-in-brine = mettez la sonde dans la saumure, ou écrivez sa température
mixing-probe-in-water = mettez la sonde dans l'eau : sa température décide de la place qu'elle prend
mixing-empty-first = pesez-le d'abord vide
mixing-limits-not-read = les limites n'ont pas encore été lues
