# Les préparations au registre, et où en est chacune.
batch-number = préparation { $number }
batch-stands = préparation { $number } : { $parts }
batch-no-title = pas encore de titre
batch-is-ready = prête
batch-is-out = sortie
batch-due = { $task ->
    [turn] retourner
   *[take-out] sortir
}{ $when ->
    [overdue] {" "}: { $span } de retard
    [now] {" "}maintenant
   *[in] {" "}dans { $span }
}
batch-none = Aucune préparation de ce genre n'est encore au registre ; `evenhand batch begin` en commence une.
batch-nothing-due = Rien n'est à faire pour aucune préparation ; `evenhand batch plan` dit quand il y a à faire.
batch-due-with = préparation { $number }, { $title } : { $due }
batch-item-line = n° { $item } : { $mass } { $name }
batch-no-name = pas encore de nom
batch-cold-store-found = chambre froide : { $outcome } : { $found }
batch-line-on-record = ligne { $line } : { $at } { $what }
batch-line-struck = ligne { $line } (écartée) : { $at } { $what }
batch-share = { $name } { $percent }
batch-not-tasted = non goûtée
batch-compared = préparation { $number } : { $shares } ; { $mark }
batch-again-curing = comparez l'agent de salaison à sa limite avant de l'ajouter : `evenhand cure ppm`
batch-picture-written = L'image est dans { $path }.

# Ce qui a été tapé.
batch-no-number = BATCH : { $text } n'est pas le numéro d'une préparation ; écrivez le numéro que montre `evenhand batch list`
batch-no-such-title = TITLE : { $title } : il n'y a pas de préparation de ce titre ; voyez-les par `evenhand batch list`
batch-what-needed = Il faut --name ou --agent : qu'est-ce que c'est ?
batch-no-such-item = --item : { $item } : rien n'a été pesé sous ce numéro ; ôtez --item pour quelque chose de nouveau
batch-beyond-calendar = --for : { $text } sort du calendrier ; écrivez quelques jours
batch-due-before = --due : { $text } est { $due }, pas après l'entrée, { $into } ; écrivez une heure plus tardive
batch-no-agent = --method : il n'y a pas d'agent de salaison dans cette préparation ; ôtez-le
batch-say-reason = { $why } (--reason)
batch-name-refused = --name : { $why }
batch-no-formula = { $why }
batch-no-equals = { $flag } : { $text } n'a pas de = ; écrivez un nom, = et un nombre, comme water=5
batch-not-in-it = --amount : { $name } n'en fait pas partie ; écrivez un de ses ingrédients
batch-no-picture-kind = --picture : { $path } n'est ni l'un ni l'autre ; finissez son nom par .svg ou .png
