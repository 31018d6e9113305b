# Les cartes à la main : la liste, tout ce qui s'en dit, et les étiquettes de ce qui est fait.
menus-heading = Cartes
menus-none = Aucune carte au registre pour l'instant.
menus-touch = Touchez-en une pour la reprendre.
menus-new = Nouvelle carte
menus-files = D'un fichier
menus-always = Pour tous les jours
menus-from = À partir du { $from }
menus-until = Jusqu'au { $until }
menus-from-until = { $from } au { $until }
menus-only = Seulement { $day }
menus-in-force = EN VIGUEUR
menus-every-day = tous les jours
menus-opens = ouvre à { $time }
menus-preparations = { $count ->
    [one] { $count } préparation
   *[other] { $count } préparations
}
menus-broken = illisible : { $why }

menus-start = Par quoi commence la nouvelle carte ?
menus-start-empty = Par rien
menus-start-empty-about = tout est à saisir
menus-start-today = Par celle d'aujourd'hui
menus-start-last-week = Par celle d'il y a une semaine
menus-start-day = Par celle d'un autre jour
menus-start-day-about = la date est à saisir

menus-file-about = touchez pour le lire
menus-files-where = Cartes en TOML ou en tableau CSV, du dossier { $folder } des données. Un fichier peut aussi être déposé sur cette fenêtre.
menus-look-again = Regarder encore
menus-read = Lue de { $path }. Elle n'est pas encore gardée.
menus-written = Écrit dans { $path }

menus-one = Une carte
menus-one-new = Une nouvelle carte
menus-the-menu = La carte
menus-resources = Mains, fours, places
menus-resources-about = Les étapes se les partagent.
menus-nothing = rien
menus-yes = oui
menus-no = non
menus-export = En fichiers
menus-keep = La garder
menus-add-preparation = + préparation
menus-add-step = + étape
menus-add-resource = + mains ou four
menus-add-hand = + un nom
menus-add-skill = + compétence
menus-add-allergen = + allergène
menus-take-out = Retirer
menus-leave-in = Le laisser
menus-up = Plus tôt
menus-down = Plus tard
menus-show-wrong = Le montrer

menus-steps = { $count ->
    [one] { $count } étape
   *[other] { $count } étapes
}
menus-due = pour { $time }
menus-batch = Se fait par lots
menus-batch-of = lots de { $portions }
menus-batch-heading = { $thing } : son lot
menus-no-batch = Sans lots
menus-allergens-heading = { $thing } : allergènes
menus-allergens-not-entered = non saisis
menus-allergens-none = il n'y en a pas
menus-own-source = de cette cuisine
menus-rests = repose { $length }
menus-no-length = DURÉE NON DITE
menus-after = après { $steps }
menus-after-before = L'étape d'avant
menus-after-none = Rien
menus-any-hands = toutes mains
menus-skill = compétence
menus-needs-places = { $places ->
    [0] pas nécessaire
    [one] il en faut { $places }
   *[other] il en faut { $places }
}
menus-places = { $places } à la fois
menus-hours = de { $from } à { $to }
menus-touch-days = Touchez les jours.
menus-touch-needs = Une touche, un de plus ; puis aucun.
menus-touch-skill = Qui sait le faire ?
menus-touch-skills = Touchez ce que ces mains savent faire.
menus-touch-after = Qu'est-ce qui doit être fait avant ?

menus-remove = Retirer { $thing } ?
menus-remove-steps = { $count ->
    [one] Son étape part avec. Ce qui l'attendait ne l'attend plus.
   *[other] Ses { $count } étapes partent avec. Ce qui les attendait ne les attend plus.
}
menus-remove-needed = { $count ->
    [one] Une étape en a besoin. Tant que cette étape n'a pas besoin d'autre chose, la carte ne peut pas être gardée.
   *[other] { $count } étapes en ont besoin. Tant qu'elles n'ont pas besoin d'autre chose, la carte ne peut pas être gardée.
}
menus-not-kept = La carte n'est pas gardée
menus-not-kept-about = Ce qui a changé est perdu si on ne la garde pas.
menus-go-on = Continuer à écrire
menus-drop = Abandonner les changements
menus-unkept = Une autre carte est en cours : gardez-la ou quittez-la d'abord.
menus-not-yet = Elle ne peut pas encore être gardée. { $why }.

menus-kept-from = Gardée ; en vigueur à partir du { $day }.
menus-kept-nowhere = Gardée ; mais elle n'est en vigueur aucun jour de l'année à venir : elle finit avant, ou d'autres gardées plus tard couvrent ses jours.
menus-changes-added = Nouveau : { $names }.
menus-changes-removed = Plus de : { $names }.
menus-changes-changed = Changé : { $names }.
menus-changes-times = Ses heures ou ses jours sont autres.
menus-changes-resources = Les mains, fours ou places sont autres.

menus-entry = { $thing } : { $field }
menus-typed = { $field } : « { $text } » ne convient pas ; { $expected }
menus-typed-nothing = { $field } manque : { $expected }
menus-taken = { $field } : « { $text } » existe déjà ; écrivez un nom qu'aucun autre n'a
menus-not-written = Rien n'a été écrit : { $why }
menus-refused = { $thing } : { $field } est « { $value } » ; { $expected }
menus-refused-about = { $thing } : { $expected }
menus-refused-nothing = { $thing } : { $field } manque ; { $expected }
menus-no-such-resource = il faut { $resource }, qui n'est pas parmi les mains, fours et places
menus-too-many-places = il faut { $places } de { $resource }, qui en a { $has }
menus-expected-in-all = { $field ->
    [ring] elle s'attend, par d'autres, elle-même
    [closes] le service doit fermer après avoir ouvert
    [twice] aucun autre ne peut avoir ce nom
    [source] dites d'où vient la conservation
    [never-open] il doit travailler un jour au moins
    [dates] la première date doit être la dernière ou avant
    [both] dites de quand et jusqu'à quand il travaille, ou aucun des deux
    [due] ce doit être entre l'ouverture et la fermeture du service
    [takes] dites combien de temps dure le travail ou le repos
    [band] la température du bas doit être celle du haut ou moins
    [after] aucune étape n'a plus ce nom
    [skill] quelqu'un de ce qu'il faut à l'étape doit avoir cette compétence
    [who] il ne peut y avoir plus de noms que de places
    [either] c'est fait par une préparation ou par des portions, pas les deux
    [portions-of] dites de quel plat
   *[keeps] dites combien de temps cela se garde
}
menus-field = { $field ->
    [left] Reste après le service
    [only-day] Pour un seul jour
    [copy-day] La carte de quel jour
    [preparation] Nouvelle préparation
    [step] Nouvelle étape
    [resource] Mains, un four, une place
    [hand] Nom ou marque
    [skill] Compétence
    [allergen] Allergène
    [tubs] Bacs
    [takes-most] Dure au plus
    [rests-most] Repose au plus
    [works-from] Travaille de
    [works-to] Travaille jusqu'à
    [name] Nom
    [opens] Ouverture du service
    [closes] Fermeture du service
    [spare] Prêt en avance de
    [from] Première date
    [until] Dernière date
    [days] Jours de service
    [places] À la fois
    [closed] Jours de repos
    [serves] Sert pendant le service
    [skills] Compétences
    [due] Pour, sinon à l'ouverture
    [preferred] Mieux fait avant
    [fallback] Servi à la place
    [buy-in] Peut s'acheter
    [portions] Portions par lot
    [keeps] Se garde
    [source] Source de cela
    [dish] Plat, s'il a un autre nom
    [per-service] Portions par service
    [per-cover] Ou portions par couvert
    [date-marked] Porte une date
    [allergens] Allergènes
    [takes] Dure, en travail
    [rests] Repose
    [needs] Il faut
    [skill-asked] Quelles mains
    [in-service] Peut se faire en service
    [not-before] Arrive à, pas avant
    [after] Attend
    [portions-of] Fait par les portions de
    [portions-done] Tant de portions
    [batch-title] Fait par la préparation
    [log] Attend le relevé
    [log-from] Relevé au moins
   *[log-to] Relevé au plus
}
menus-expected = { $field ->
    [left] écrivez combien de portions le service a laissées, 0 s'il n'y en a pas
    [time] écrivez une heure, comme 1830
    [time-or-none] écrivez une heure, comme 1830, ou rien
    [date] écrivez une date, comme 2026-05-08
    [date-or-none] écrivez une date, comme 2026-05-08, ou rien
    [length] écrivez une durée jusqu'à 30 jours : un nombre, puis son unité
    [most] écrivez le plus long, pas moins que le plus court ; rien si c'est toujours pareil
    [spare] écrivez 12 heures au plus, ou rien
    [days] écrivez combien de temps, jusqu'à 366 jours, ou rien
    [places] écrivez un nombre entier de 1 à 1000
    [portions] écrivez un nombre entier de 1 à 10000
    [portions-or-none] écrivez un nombre entier de 1 à 10000, ou rien
    [per-cover] écrivez un nombre au-dessus de 0 et jusqu'à 100, comme 0,6, ou rien
    [degrees] écrivez une température, comme 180
    [source] écrivez d'où cela vient, ou que c'est de cette cuisine
    [log] écrivez le nom d'un relevé de température, ou rien
    [tubs] écrivez un nombre entier de 1 à 200
    [name-or-none] écrivez un nom d'une ligne, ou rien
   *[name] écrivez un nom d'une ligne
}

menus-labels = Étiquettes
menus-labels-of = Étiquettes pour { $day }
menus-no-labels = Rien ne se fait par lots ce jour-là.
menus-touch-a-label = Touchez ce qu'il y a dans le bac.
menus-day-before = Jour d'avant
menus-day-after = Jour d'après
menus-label-prompt = Une étiquette par bac
menus-pdf = PDF à imprimer
menus-png = PNG d'une seule
menus-gone = Il n'y en a plus
menus-put-down = à noter
menus-ask-gone = N'y a-t-il plus rien de { $thing } ?
menus-ask-gone-about = Jeté, ou utilisé autrement : rien de cette préparation n'est plus en réserve.
