# Le livre de la cuisine : formules, images, pages et dossier.
formula-how-much = --base, --total, --pieces ou --of manque : combien faut-il en faire ?
formula-kept = { $name } est dans le livre : { $path }
formula-out = { $name } est hors du livre. Son fichier est { $file } ; `evenhand formula keep` la remet.
formula-there = { $field } : { $name } est déjà dans le livre, comme { $path } ; renommez l'une des deux
formula-nothing-yet = Aucune formule n'est encore dans le livre ; `evenhand formula keep FILE` en met une, `evenhand formula share` trouve ce que les bonnes préparations ont en commun.
formula-line = { $name } : eau { $water } %, { $stages ->
    [one] { $stages } étape faite
   *[other] { $stages } étapes faites
} d'avance
formula-line-mixed = { $name } : eau { $water } %, { $stages ->
    [one] { $stages } étape faite
   *[other] { $stages } étapes faites
} d'avance, pétrie à { $temperature }
formula-not-understood = pas compris : { $why }
formula-no-batch = TITLE : aucune préparation ne s'appelle { $title } ; `evenhand batch list` montre celles qu'il y a
formula-kept-as = Gardée comme { $path }.
formula-page = la page de { $name }
formula-page-unknown = NAME : { $name } n'est ni un plat, ni une formule, ni dans une carte ; { $there }
formula-page-no-limit = limits : { $name } n'est pas en vigueur ; les limites connues sont { $known }
folder-cannot-be-made = { $path } ne peut pas être créé : { $why }
picture-kept = Gardée comme image { $picture } de { $of } ; le fichier lui-même ne sert plus.
picture-nothing-yet = Aucune image n'est encore gardée ; `evenhand formula picture NAME FILE` en garde une.
picture-off = L'image { $picture } est retirée ; elle reste notée et n'est plus montrée.
picture-unreadable = { $path } : impossible à lire : { $why } ; rien n'a été gardé
picture-refused = { $path } : { $why } ; rien n'a été gardé
picture-unknown = name : { $name } n'est ni un plat, ni une formule, ni dans une carte ; ajoutez-le d'abord, ou écrivez le nom comme il y est
picture-there = l'image { $picture } est la même ; rien n'a été gardé
picture-too-many = { $of } a { $most } images, autant que sa page peut en montrer ; retirez-en une d'abord
book-unreadable = { $path } ne peut pas être lu : { $why }
book-refused = { $path } : { $why }
book-twice = { $first } et { $second } s'appellent tous deux { $name } ; renommez l'un des deux
book-not-there = formula : { $name } n'est pas dans le livre ; { $there }{ $broken }
book-there = { $any ->
    [none] il n'y en a encore aucune
   *[some] il a { $names }
}
book-broken = ; pas compris : { $why }
book-of-book = le livre : { $there }{ $broken }
book-is-there = { $name } est déjà dans le livre, comme { $path }
book-unwritable = { $path } ne peut pas être écrit : { $why } ; rien n'a été changé
book-nothing = aucune formule, carte, liste de produits ni image n'est encore gardée : il n'y a rien à écrire
book-written = { $written } fichiers sur { $all } écrits dans { $path } ; les autres disent déjà la même chose.
book-not-of-it = { $path } n'est pas du livre tel qu'il est, et a été laissé là.
book-differs = { $path } : { $name } dit autre chose dans le livre ; --force écrit par-dessus ; rien n'a été changé
book-other-pictures = { $path } : d'autres images de { $of } sont notées ; --force met celles-ci à leur place ; rien n'a été changé
book-formula-is = { $name } : { $against ->
    [new] nouvelle
    [changed] changée
   *[same] comme elle était
}
book-menu-is = carte { $name } : { $against ->
    [new] nouvelle
    [changed] changée
   *[same] comme elle était
}
book-goods-are = liste de { $count } produits: { $against ->
    [new] nouvelle
    [changed] changée
   *[same] comme elle était
}
book-pictures-are = images de { $name } : { $against ->
    [new] nouvelles
    [changed] changées
   *[same] comme elles étaient
}
book-not-named = { $path } : aucune liste ne le nomme, et il n'a pas été lu.
folder-twice = { $first } et { $second } sont tous deux { $what } et diffèrent ; gardez l'un des deux
folder-what = { $what ->
    [formula] la formule { $name }
    [menu] la carte pour { $name }
    [daily] la carte de tous les jours à partir de la même date
    [goods] la liste des produits
   *[pictures] des listes des images de { $name }
}
folder-empty = { $path } : aucune formule, aucune carte ni liste de produits ou d'images ne s'y trouve ; elles sont attendues dans ses dossiers formulas, menus, goods et pictures, en fichiers qui finissent en .toml, et en tables .csv
