# Un aliment à travers toutes ses étapes, chacune face à sa limite, sur une feuille.
lots-as-on-record = D'après le registre à { $at } : { $outcome }.
lots-no-limit-held = aucune étape n'a de limite
lots-batch = préparation { $number } : { $title }
lots-no-title = sans titre
lots-not-named = sans nom
lots-not-ready = pas prête : { $why }
lots-between = En route vers l'étape suivante, sans surveillance : { $gap }.
lots-gap = de { $from } à { $to } ({ $lasting })
lots-going-on = en cours
lots-step = { $mark } – { $step }, de { $from } à { $to }
lots-mark = { $outcome ->
    [kept] respecté
    [broken] DÉPASSÉ
    [running] jusqu'ici
    [cannot-tell] pas connu
    [too-close] TROP JUSTE
    [noted] à noter
   *[no-limit] sans limite
}
lots-limit = Limite { $name } : { $demand }.
lots-held-to-none = Sans limite : rien n'est jugé.
lots-read-by = Relevé par : { $log }.
lots-read-by-nothing = Relevé par rien.
lots-found = { $mark } : { $found }
lots-not-read = Non relevé : { $gap }.
lots-corrections = Corrections en vigueur : { $count } ; ce qui a été mesuré reste au registre.
lots-limit-from = Limite selon { $source }.
lots-page = { $title }, feuille { $nth } sur { $of }

# Pourquoi un lot n'est pas jugé.
lots-unreadable = le fichier du lot ne peut être lu : { $why }
lots-field = étape « { $step } » : { $why }
lots-empty = { $what ->
    [title] le champ title est vide, attendu un nom
   *[name] le champ name est vide, attendu un nom
}
lots-no-steps = le lot n'a pas d'étapes, attendu au moins un [[step]]
lots-backward = l'étape « { $step } » finit avant de commencer
lots-open = l'étape « { $step } » n'a pas de fin ; seule la dernière étape peut être en cours
lots-overlaps = l'étape « { $step } » commence avant la fin de « { $before } »
lots-no-log = l'étape « { $step } » a une limite à laquelle un thermomètre répond, et ne nomme aucun relevé
lots-unknown-limit = étape « { $step } » : il n'y a pas de limite « { $limit } » en vigueur ; celles connues sont { $known }
lots-file-unreadable = { $path } ne peut être lu : { $why }
lots-none-there = Aucun lot n'est dans le dossier { $folder } des données de cette cuisine.
