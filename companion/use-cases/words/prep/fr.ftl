# Où en est une étape de la mise en place : un mot court.
prep-standing = { $standing ->
    [late] RETARD
    [now] À LANCER
    [under-way] en cours
    [next] ensuite
    [later] plus tard
   *[done] fait
}

prep-latest-about = vers { $time }
prep-seen-done = vu fait à la balance à { $time }
prep-oven-no-name = { $log } : aucun relevé ne porte ce nom.
prep-oven-not-recorded = { $log } : pas de relevé, nul ne sait quand il sera prêt.
prep-oven-no-band = { $log } : sa plage n'a pas de sens.
prep-oven-coming = { $log } dans sa plage vers { $likely } (de { $early } à { $late }) ; { $advice }
prep-oven-perhaps-never = { $log } dans sa plage vers { $likely } (pas avant { $early }, peut-être jamais) ; { $advice }
prep-oven-inside = { $log } déjà dans sa plage ; { $advice }
prep-oven-inside-until = { $log } déjà dans sa plage, jusqu'à { $leaves } ; { $advice }
prep-oven-not-coming = { $log } : à ce train, sa plage n'est pas atteinte.
prep-oven-not-coming-alone = { $log } : à ce train, sa plage n'est pas atteinte ; { $advice }
prep-oven-unknown = { $log } : { $why }
prep-oven-surprise = { $note } ; planifié de nouveau, car il est descendu { $way ->
        [faster] plus vite
       *[slower] plus lentement
    } que prévu à { $then }, où il était dit : { $was }
prep-oven-door-too-few = ce que fait l'ouverture de la porte n'est pas connu : { $openings ->
        [0] elle n'a jamais été notée
        [one] elle a été notée une fois
       *[other] elle a été notée { $openings } fois
    }, il en faut { $least } ; notez "door open" et "door shut"
prep-oven-door-not-of-this = ce que fait maintenant l'ouverture de la porte n'est pas connu : les { $openings } fois où elle a été notée, le four était plus chaud ou plus froid, ou n'a pas été observé assez longtemps ensuite

prep-begin = commencez à partir de { $from }
prep-begin-done = commencez à partir de { $from }, fini à { $until }
prep-begin-else = { $begin }, sinon { $action } : ensuite { $then }
prep-now-or-not = tout de suite, { $latest } au plus tard, ou pas aujourd'hui
prep-action-then = { $action } ; puis { $begin }
prep-oven-too-short = pas sûr qu'il tienne le temps qu'il faut
prep-open-door = ouvrez la porte maintenant { $length }
prep-relight = rallumez le four

prep-mend-oven = pour { $step }, { $action }
prep-mend-more = un de plus : { $resource }, de { $from } à { $to }
prep-mend-swap = servez { $fallback } à la place de { $preparation }
prep-mend-buy = achetez { $preparation } tout fait
prep-mend-drop = retirez { $preparation } de la carte
prep-mend-later = ouvrez { $length } plus tard

prep-more-hands = Plus de bras n'y ferait rien : les étapes, l'une après l'autre, prennent trop de temps.
prep-short-of = Il manque : { $resource }.
prep-short-and-late = Il manque : { $resource } ; même sans cela, { $late } de retard.
prep-dish-off = { $dish } : pas à la carte avant { $ready }, { $late } de retard.

prep-open = Pas connu, trop de façons à essayer : { $open }.
prep-open-shortage = si c'est { $resource } qui manque
prep-open-more = un de plus : { $resource }
prep-open-oven = le four pour { $step }
prep-open-without = sans { $preparation }

prep-no-menu = Aucune carte n'est enregistrée pour le { $day } : faites-en une ou importez-en une sous Cartes.

prep-not-known = pas connu
prep-lot = { $portions } de { $ready }, à utiliser avant { $by }
prep-end-of = la fin de { $day }
prep-supply-stock = { $name } : en stock { $lots }
prep-supply-none-needed = { $name } : rien à prévoir
prep-supply-made = { $name } : fait
prep-supply-made-short = { $name } : fait, il en manque { $short }
prep-supply-make = { $batches ->
    [one] { $name } : faites une préparation de { $portions } ;
   *[other] { $name } : faites { $batches } préparations de { $portions } ;
}
prep-supply-record = D'après les { $count } dernières préparations enregistrées, chacune en donne { $portions }.
prep-supply-beyond = Le plan contient { $most } préparations ; { $more } autres n'y ont pas d'étapes.
prep-why-short = il en faut { $needed }, il y en a { $stock }.
prep-why-begun = elle est commencée.
prep-why-keeping = on ne sait pas combien de temps cela se garde : la carte ne le dit pas.
prep-why-stock = le stock n'est pas connu : ce que { $day } a pris n'est pas enregistré.
prep-why-covers = le besoin n'est pas connu : aucun couvert prévu n'est enregistré.
prep-why-dish = le besoin n'est pas connu : aucun plat { $dish } n'est enregistré et la carte ne donne pas de nombre.
prep-why-past = le besoin n'est pas connu : aucun service passé de { $dish } n'est enregistré avec ses couverts.
prep-remedy-left = Notez-le : evenhand prep left "{ $dish }" N --for { $date }
prep-remedy-covers = Notez-les : evenhand prep covers N --for { $date }
prep-remedy-dish = Mettez needs ou per_cover dans la carte, ou enregistrez le plat : evenhand dish add
prep-remedy-past = Mettez needs ou per_cover dans la carte, ou notez les couverts passés : evenhand prep covers N --for DATE
prep-remedy-keeping = Mettez keeps et sa source dans la carte.
prep-stock-past = DATE DÉPASSÉE, ne compte pas : { $name } : { $lots }
prep-stock-no-keeping = { $name } : ne compte pas, on ne sait pas combien de temps cela se garde : { $lots }
prep-stock-unsure = { $name } : au plus { $lots } ; ce que { $day } a pris n'est pas enregistré
prep-stock-beyond = { $portions ->
    [one] { $name } : une portion de plus servie que dans les préparations enregistrées
   *[other] { $name } : { $portions } portions de plus servies que dans les préparations enregistrées
}

prep-week-heading = SEMAINE, du { $first } au { $last }
prep-week-make = faire
prep-week-stock = stock { $portions }
prep-week-made = fait
prep-week-none = rien

label-moment = { $day }, { $time }
label-use-by = À utiliser avant { $by }
label-use-by-end-of = À utiliser au plus tard le { $day }
label-use-by-not-known = À utiliser avant : pas connu
label-made = Fait : { $at }
label-made-not-known = Fait : pas connu
label-not-begun = Fait : pas commencé
label-ready = Prêt : { $at }
label-not-ready = Prêt : pas encore
label-lot = Lot : { $lot }
label-lot-tub = Lot : { $lot }, bac { $nth } sur { $of }
label-allergens = Allergènes : { $allergens }
label-allergens-none = Allergènes : aucun, selon la carte
label-allergens-not-entered = Allergènes : pas notés
label-keeps = Se garde { $length } une fois prêt ; source : { $source }.
label-keeps-not-known = On ne sait pas combien de temps cela se garde : la carte ne le dit pas.
label-mark = Limite de jours : { $days } à { $temperature } ou moins, le premier compté : { $day } est le dernier. { $source }.
label-mark-left-out = La limite de jours n'est pas appliquée, selon la carte.

prep-who-missing = { $missing ->
    [one] il manque quelqu'un de libre qui sache
   *[other] il manque { $missing } personnes libres qui sachent
}
prep-who-heading = { $name }, { $day }
prep-who-with = avec { $names }
prep-who-passes = passe à { $names }
prep-who-nothing = Rien à faire.
prep-opening-heading = RELAIS À { $time }
prep-opening-later = { $step } : pas commencé, prêt à { $until }
prep-opening-rests = { $step } : repose jusqu'à { $until }
prep-opening-under-way = { $step } : en cours jusqu'à { $until }

# La liste du jour sur papier.
prep-print-step = [ ] de { $from } à { $until } : { $step } ({ $takes })
prep-print-page = { $list } : page { $page } sur { $pages }
prep-list-heading = MISE EN PLACE DU { $day }
prep-list-opens = le service ouvre à { $opens } ; état à { $now }
prep-list-start-by = début
prep-list-latest = au plus tard
prep-list-takes = durée
prep-list-what = quoi
prep-list-will-be-late = SERA EN RETARD
prep-list-to-begin = À COMMENCER
prep-list-batches = LOTS
prep-list-done = FAIT
prep-list-decides = la chaîne qui décide de la journée
prep-list-unknown = « { $step } » a été noté, mais n'est plus sur aucune carte
prep-list-late = RETARD : en l'état, tout n'est pas prêt à temps ; le pire a { $late } de retard.
prep-list-late-perhaps = Peut-être moins : au moins { $least }.
prep-list-no-time = PAS LE TEMPS : { $step } ne tient ni dans ses heures ni dans son four.
prep-list-no-mend = Aucun changement seul n'y remédie.
prep-list-no-known-mend = On ne connaît aucun changement qui y remédie à lui seul.
prep-list-mends = L'un de ces changements suffit :

# Quand une livraison arrive d'habitude, à côté de son étape.
prep-delivery-comes = arrive entre { $from } et { $to } huit fois sur dix, d'après les { $count } dernières ; le plan compte sur { $counted } (carte : { $menu }) ; il la faut à { $needed }
prep-delivery-perhaps-late = risque d'arriver trop tard : entre { $from } et { $to } huit fois sur dix, d'après les { $count } dernières ; le plan compte sur { $counted } ; il la faut à { $needed }
prep-delivery-not-known = on ne sait pas encore quand elle arrive d'habitude : cochez-en { $more } de plus ; il la faut à { $needed }
prep-delivery-risk = À DÉCIDER avant { $by } : { $step } peut n'arriver qu'à { $to }, { $late } trop tard pour son plat.
prep-delivery-risk-else = Sinon : { $what }.

# Le plan en texte.
prep-plan-opened = Le service a ouvert { $at }, il y a { $ago }.
prep-plan-opens = Le service ouvre { $at }, dans { $until }.
prep-plan-moved = Et si : { $what } arrive plus tard.
prep-plan-turned = Autre ordre qu'avant : { $step } vient maintenant après { $others }
prep-plan-turned-until = { $turned }, car cela ne peut pas commencer avant { $at }
prep-plan-start-by = commencer
prep-plan-latest = au plus tard
prep-plan-spare = marge
prep-plan-what = quoi
prep-plan-no-place = sans place
prep-plan-rests = repose { $over } de plus que son maximum
prep-plan-decides = * la chaîne qui décide du jour
prep-plan-not-shown = { $count ->
    [one] Une étape ultérieure, commencée après { $until }, n'est pas affichée : --until DATE l'affiche.
   *[other] { $count } étapes ultérieures, commencées après { $until }, ne sont pas affichées : --until DATE les affiche.
}

prep-par-heading = { $dish } pour { $day }, { $covers } couverts :
prep-par-heading-weekday = { $dish } pour { $day }, { $covers } couverts comme les mêmes jours de la semaine :
prep-par-ready = avoir prêt
prep-par-ready-said = { $ready } portions : { $likely } sans doute et { $margin } de marge (la part dite, un dixième de marge)
prep-par-ready-past = { $ready } portions : { $likely } sans doute et { $margin } de marge (suffit cinq soirs sur six, d'après { $past } services passés)
prep-par-few-nights = avec si peu de soirs, nul ne sait rien d'un autre genre de soir, comme une fête
prep-par-make = à portionner
prep-par-make-words = { $count } : hier en a laissé { $left }
prep-par-portion = une portion
prep-par-portion-target = { $mass } d'après sa cible
prep-par-portion-served = { $mass } telle que servie, sur { $count }
prep-par-food = prêt
prep-par-food-words = il manque { $wanted } à côté de { $ready } déjà prêts
prep-par-start = partir de
prep-par-range = { $likely }, jusqu'à { $most }
prep-par-yield-said = { $range } pour un rendement de { $bought } (dit)
prep-par-yield-past = { $range } pour un rendement de { $bought } (d'après { $count } achats récents)
prep-par-no-yield = inconnu : aucun rendement n'est enregistré (`evenhand yield` en note un, --yield en dit un)
prep-par-start-by = commencer
prep-par-order = commander
prep-par-order-words = { $range } à côté de { $hand } tels qu'achetés

# Fichiers de cartes et de marchandises refusés.
prep-menu-refused = La carte du { $day } est inutilisable. { $why }
file-refused = Le fichier { $path } : { $why }
file-unreadable = il est illisible ({ $why }).
file-too-long = il a { $bytes } octets, et aucun n'en a plus de { $most }.
file-no-toml = Ce n'est pas un tel fichier en TOML, ou il y manque quelque chose, ou quelque chose y est inconnu ou d'un autre genre : { $why }
file-field = { $place } : { $field } vaut « { $value } » ; { $expected }.
file-field-nothing = { $place } : { $field } manque ; { $expected }.
file-reversed = { $place } : sa durée la plus courte dépasse la plus longue.
file-never-open = { $name } est fermé tous les jours de la semaine ; il faut un jour ouvert au moins.
file-no-such-resource = L'étape { $step } demande { $resource }, qui n'est pas parmi les mains, fours et places.
file-too-many-places = L'étape { $step } demande { $places } de { $resource }, qui en a { $has }.
file-closes = Le service ferme avant d'ouvrir.
file-ring = L'étape { $step } attend, à travers d'autres, elle-même.
file-no-such-step = Il nomme une étape qui n'y est pas.
file-twice = { $name } figure deux fois parmi les mains, fours et places.
what-if-no-time = « { $text } » ne nomme aucune durée ; écrivez ce qui est en retard et de combien, comme fish +1h.
what-if-length = « { $text } » n'est pas une durée ; écrivez-en une de plus de rien et de 30 jours au plus, comme 1h ou 45 min.
what-if-unknown = Il n'y a rien qui s'appelle « { $name } » ; il y a { $known }.
take-off-not-on-menu = La carte du { $day } n'a aucune préparation appelée { $preparation }.
take-off-refused = Sans { $preparation } la carte ne peut pas être gardée. { $why }
