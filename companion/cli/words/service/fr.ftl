# Services : leurs bons, assiettes, réglages et la relève.
service-day = service du { $day }
service-day-orders = service du { $day } : { $orders }
service-first-order = premier bon { $time }
service-last-order = dernier bon { $time }
service-day-begins = le jour d'un service commence à { $time }
service-cooks = { $setting ->
    [own] chaque cuisinier voit ses chiffres, et ceux de tous les autres ensemble
   *[hidden] les chiffres de chaque cuisinier sont montrés, noms cachés
}
service-say-when = { $field } : dites quand, car { $day } n'est pas le service en cours ; écrivez une heure, comme 18:30
service-beyond = { $field } : { $value } est hors du calendrier
service-other-day = { $field } : { $value } est du service du { $of }, non du { $day } ; donnez un autre --day ou une autre heure
service-no-portions = aucune portion n'est encore notée ; faites-en avec `evenhand portion`, ou voyez `evenhand demo`
service-none-for-it = Aucune portion n'est notée pour lui.
service-savings = Ce qui épargnerait le plus :
service-nothing-yet = Aucun service n'est encore noté : aucune portion n'a été faite. Voyez `evenhand portion`.
service-listed = { $service }, { $count ->
    [one] { $count } portion
   *[other] { $count } portions
}
service-file-unread = FILE : { $file } : { $why }
service-plates-unread = les assiettes ne peuvent pas être lues : { $why }
service-plate-value = assiette { $plate } : { $why }
service-file-long = FILE : { $file } a { $size } octets ; au plus { $most } sont attendus
service-no-plates = FILE : aucune assiette enregistrée ; créez-en une avec `evenhand service plate`, ou nommez un fichier d'assiettes, avec --keep pour les enregistrer
service-plate-not-there = { $field } : { $name } n'y est pas ; voyez `evenhand service plates`
service-plate-removed = { $plate } n'est plus enregistrée.
service-plate-made = { $count ->
    [0] { $plate } : rien dessus pour l'instant ; prix { $price }.
   *[other] { $plate } : { $things } ; prix { $price }.
}
service-plates-kept = { $count ->
    [one] { $count } assiette notée
   *[other] { $count } assiettes notées
}.
service-plate-price = { $cost } sur { $price }, reste { $margin } ({ $share } de marchandise)
service-plate-rate = à { $rate }
service-count = { $dish } : { $ready ->
    [one] { $ready } prête
   *[other] { $ready } prêtes
}, { $out ->
    [one] { $out } sortie
   *[other] { $out } sorties
}
service-handover = la relève
page-written = Écrit dans { $path } : { $what }.
