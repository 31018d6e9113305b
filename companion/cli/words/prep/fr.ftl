# Ce qui est noté de la mise en place, et ce qui a été tapé.
prep-covers = { $day } : { $covers } couverts.
prep-left = { $day } : il est resté { $portions } portions de { $dish }.
prep-gone = Ce qui restait de la préparation de { $name } pour { $day } n'est plus là.
prep-menu-kept = { $kept_for ->
    [day] La carte, avec { $steps } étapes, est gardée pour { $day }.
   *[every] La carte, avec { $steps } étapes, est gardée pour tous les jours qui n'ont pas la leur.
}
prep-ticked = { $what ->
    [begun] { $step } : commencé.
    [done] { $step } : fait.
   *[undone] { $step } : finalement pas fait.
}
prep-ticked-by = { $what ->
    [begun] { $step } : commencé par { $who }.
    [done] { $step } : fait par { $who }.
   *[undone] { $step } : finalement pas fait par { $who }.
}
prep-not-before = { $step } : pas avant { $time }.
prep-goods-kept = La liste de { $goods } marchandises est gardée.
prep-in-hand = { $goods } : { $amount } en réserve.
prep-ordered = { $goods } : { $packs } x { $pack } commandés pour { $day }.
prep-no-orders = Aucune commande n'est notée.
prep-no-order-number = { $flag } : { $text } n'est pas le numéro d'une commande ; `evenhand prep orders` les montre

prep-no-whole = { $what ->
    [guests] { $flag } : { $text } n'est pas un nombre de couverts ; écrivez un nombre entier de 0 à 100000
    [portions] { $flag } : { $text } n'est pas un nombre de portions ; écrivez un nombre entier de 0 à 100000
    [tubs] { $flag } : { $text } n'est pas un nombre de bacs ; écrivez un nombre entier de 0 à 100000
   *[packs] { $flag } : { $text } n'est pas un nombre de colis ; écrivez un nombre entier de 0 à 100000
}
prep-at-after-opening = --at : { $text } le { $day } est après l'ouverture de son service, { $opens } ; écrivez "today { $text }" pour aujourd'hui, ou { $day }T{ $text } pour alors
prep-no-tubs = --tubs : { $tubs } n'est pas un nombre de bacs ; écrivez un nombre entier de 1 à { $most }
prep-one-png = --tubs : { $tubs } étiquettes ne tiennent pas dans un PNG ; écrivez --pdf, ou --tubs 1
prep-not-finished = PREPARATION : aucune préparation de { $name } pour { $day } n'était finie à ce moment ; cochez d'abord ses étapes
prep-no-share = { $flag } : { $text } n'est pas un nombre qui convient ; écrivez-en un au-dessus de 0 et d'au plus { $most }
prep-covers-unknown = --covers : combien de couverts viennent le { $day } n'est pas connu : moins de deux services du plat ce jour de semaine sont au registre avec les leurs ; dites-le, ou notez-le par `evenhand prep covers`
prep-force-of-none = --force : rien n'est écrit ; dites --out FILE ou --pdf FILE
prep-no-days = --days : { $text } n'est pas un nombre de jours ; écrivez un nombre entier de 1 à 14
prep-until-past = --until : { $text } est avant { $now } ; écrivez un jour ou une heure plus tard
prep-no-days-ahead = --days-ahead : { $text } n'est pas un nombre de jours ; écrivez un nombre entier de 0 à 14
prep-later-no-time = --later : { $text } ne dit pas de combien ; écrivez par exemple 'fish: wash and beard=1 h'
prep-later-no-length = --later : { $text } n'est pas une durée ; écrivez-en une comme 1 h ou 45 min
prep-later-beyond = --later : { $by } sort du calendrier
prep-no-step = { $flag } : il n'y a pas d'étape { $name } ; il y a { $known }
prep-not-listed = GOODS : { $name } n'est pas sur la liste des marchandises ; il y a : { $known }
prep-other-measure = AMOUNT : { $text } est dans une autre mesure que le colis ; écrivez-le comme le colis, qui est { $pack }
prep-no-menu = aucune carte n'est au registre pour { $day } ; gardez-en une par `evenhand prep menu --keep FILE`
prep-refused = { $field } : { $why }
