# El libro de la cocina: fórmulas, imágenes, páginas y carpeta.
formula-how-much = falta --base, --total, --pieces o --of: ¿cuánto hay que hacer?
formula-kept = { $name } está en el libro: { $path }
formula-out = { $name } está fuera del libro. Su archivo es { $file }; `evenhand formula keep` la repone.
formula-there = { $field }: { $name } ya está en el libro, como { $path }; dé otro nombre a una de las dos
formula-nothing-yet = Todavía no hay ninguna fórmula en el libro; `evenhand formula keep FILE` pone una, `evenhand formula share` halla lo que las buenas elaboraciones tienen en común.
formula-line = { $name }: agua { $water } %, { $stages ->
    [one] { $stages } etapa hecha
   *[other] { $stages } etapas hechas
} de antemano
formula-line-mixed = { $name }: agua { $water } %, { $stages ->
    [one] { $stages } etapa hecha
   *[other] { $stages } etapas hechas
} de antemano, amasada a { $temperature }
formula-not-understood = no se entiende: { $why }
formula-no-batch = TITLE: ninguna elaboración se llama { $title }; `evenhand batch list` muestra las que hay
formula-kept-as = Guardada como { $path }.
formula-page = la página de { $name }
formula-page-unknown = NAME: { $name } no es un plato ni una fórmula ni está en ninguna carta; { $there }
formula-page-no-limit = limits: { $name } no está vigente; los conocidos son { $known }
folder-cannot-be-made = no se puede crear { $path }: { $why }
picture-kept = Guardada como imagen { $picture } de { $of }; el archivo ya no hace falta.
picture-nothing-yet = Todavía no se guarda ninguna imagen; `evenhand formula picture NAME FILE` guarda una.
picture-off = La imagen { $picture } está quitada; sigue en el registro y ya no se muestra.
picture-unreadable = { $path }: no se puede leer: { $why }; no se guardó nada
picture-refused = { $path }: { $why }; no se guardó nada
picture-unknown = name: { $name } no es un plato ni una fórmula ni está en ninguna carta; añádalo antes, o escriba el nombre como está allí
picture-there = la imagen { $picture } es la misma; no se guardó nada
picture-too-many = { $of } tiene { $most } imágenes, todas las que caben en su página; quite una antes
book-unreadable = no se puede leer { $path }: { $why }
book-refused = { $path }: { $why }
book-twice = { $first } y { $second } se llaman { $name } los dos; dé otro nombre a uno
book-not-there = formula: { $name } no está en el libro; { $there }{ $broken }
book-there = { $any ->
    [none] todavía no hay ninguna
   *[some] tiene { $names }
}
book-broken = ; no se entiende: { $why }
book-of-book = el libro: { $there }{ $broken }
book-is-there = { $name } ya está en el libro, como { $path }
book-unwritable = no se puede escribir { $path }: { $why }; no se cambió nada
book-nothing = todavía no se guarda ninguna fórmula, carta, lista de géneros ni imagen: no hay nada que escribir
book-written = { $written } de { $all } archivos escritos en { $path }; los demás ya dicen lo mismo.
book-not-of-it = { $path } no es del libro como está ahora, y se dejó allí.
book-differs = { $path }: { $name } dice otra cosa en el libro; --force escribe encima; no se cambió nada
book-other-pictures = { $path }: hay registradas otras imágenes de { $of }; --force pone estas en su lugar; no se cambió nada
book-formula-is = { $name }: { $against ->
    [new] nueva
    [changed] cambiada
   *[same] como estaba
}
book-menu-is = carta { $name }: { $against ->
    [new] nueva
    [changed] cambiada
   *[same] como estaba
}
book-goods-are = lista de { $count } géneros: { $against ->
    [new] nueva
    [changed] cambiada
   *[same] como estaba
}
book-pictures-are = imágenes de { $name }: { $against ->
    [new] nuevas
    [changed] cambiadas
   *[same] como estaban
}
book-not-named = { $path }: ninguna lista lo nombra, y no se leyó.
folder-twice = { $first } y { $second } son los dos { $what } y difieren; quédese con uno
folder-what = { $what ->
    [formula] la fórmula { $name }
    [menu] la carta para { $name }
    [daily] la carta de todos los días desde la misma fecha
    [goods] la lista de géneros
   *[pictures] listas de las imágenes de { $name }
}
folder-empty = { $path }: no hay en ella ninguna fórmula ni carta, ni lista de géneros ni de imágenes; se esperan en sus carpetas formulas, menus, goods y pictures, en archivos que terminan en .toml, y tablas en .csv
