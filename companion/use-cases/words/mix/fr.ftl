# Une proportion, et un mélange sur la balance. Les masses ont leur unité.
ratio-form = { $form ->
    [of-water] % de l'eau
    [of-total] % du total
    [bakers] % de la farine
    [of-meat-and-water] % de la viande et de l'eau ensemble
    [of-meat] % de la viande
   *[parts] parts en poids
}
ratio-too-few = une proportion a au moins deux ingrédients : ajoutez-en un
ratio-only-meat-and-water = viande et eau seules ne font pas une proportion : ajoutez au moins un autre, en % des deux ensemble
ratio-nameless = le n° { $item } n'a pas de nom : dites d'abord ce que c'était
ratio-twice = { $name } y est deux fois : donnez à chacun son nom
ratio-no-amount = { $name } : { $number } n'est pas une quantité ; il faut plus de zéro
ratio-nothing-left = { $rest } : les autres laissent { $left } % des cent ; ils doivent faire moins de 100 %
ratio-flours = les farines font { $sum } % ; toute la farine ensemble fait 100 %

mix-no-such = il n'y a pas cet ingrédient dans ce mélange
mix-unguarded = { $agent } est un agent de salaison : dites comment la viande est salée, et ce qui est viande et saumure dans le mélange
mix-wrong-guard = la façon de saler n'est pas celle de ce mélange : préparez-le à nouveau à l'écran de salaison
mix-not-confirmed = confirmez d'abord : lisez le nitrite sur l'étiquette de { $agent }
mix-other-label = l'étiquette dit { $read }, le mélange a été calculé pour { $expected } ; rien n'est à peser
mix-target-unknown = fixez ou pesez d'abord les autres : la quantité de { $name } en dépend
mix-nothing-chosen = choisissez d'abord un ingrédient
mix-not-settled = la balance ne s'est pas posée depuis le choix de l'ingrédient
mix-not-there = { $taken } de { $name } ont été retirés, il n'y en a que { $there }
mix-cannot-take-back = { $name } ne peut plus être retiré du mélange

walk-not-steady = la balance bouge : laissez-la se poser
walk-changed = { $mass } sur la balance avant que l'étiquette soit confirmée : corrigez d'abord, puis continuez
walk-may-be-agent = ce qui est venu est peut-être { $agent } : dites ce que c'est ; si personne ne sait, mettez le mélange de côté et recommencez, avec de la viande neuve
walk-nothing-poured = rien n'a encore été versé qui puisse être autre chose
walk-agent = un agent de salaison ne s'échange contre rien : recommencez, avec de la viande neuve

notice-grown = { $name } a dépassé ; avec les autres en proportion, cela fait { $total } en tout
notice-grown-room = { $name } a dépassé ; avec les autres en proportion, cela fait { $total } en tout ; il y a place pour { $room }
notice-no-room = cela fait { $total }, il y a place pour { $room } : retirez du mélange, ou prenez un récipient plus grand
notice-not-enough = il faut { $needed } de { $name }, il y a { $available }
notice-cannot-be-undone = { $name } dépasse de { $over } et ne peut plus être retiré
not-ready-short = { $name } : encore { $missing }
not-ready-to-come = { $name } manque encore
