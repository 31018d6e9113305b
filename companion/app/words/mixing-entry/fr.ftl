# Ce qui s'écrit aux écrans de mélange.
entry-leave = Laisser
entry-enter = Valider
entry-caption = { $field ->
    [title] Qu'est-ce que c'est ?
    [ingredient] Nom de l'ingrédient
    [number] Combien
    [amount] Combien il doit y en avoir
    [slot] C'était quoi ?
    [packet] Qu'y a-t-il sur le paquet de l'agent de salaison ?
    [fraction] Nitrite de sodium dans l'agent, d'après son étiquette
    [label-again] Lisez le paquet que vous tenez : quelle part est du nitrite de sodium ?
    [ppm] Nitrite ajouté
    [pick-up] Part de son poids cru que la viande absorbe
    [note] Note
    [tasting] C'était comment ? (un mot, ou rien)
    [due-in] Dans combien de jours faut-il la sortir ?
    [turn-every] Retournée ou regardée toutes les combien d'heures ? 0 pour jamais
    [loss] Quelle part de son poids doit-elle perdre en séchant ?
    [change] Combien de plus, la prochaine fois ?
    [of-water] Sel, % de l'eau
    [of-solution] Sel, % de toute la saumure
    [salometer] Degrés de salomètre
    [density] Masse volumique, kg/m³
    [temperature] À quelle température est-elle ?
    [sugar] Sucre, % de toute la saumure
    [correct-to] Combien doit-elle avoir ? Sel, % de l'eau
    [brine-mass] Combien de saumure y a-t-il ?
   *[vessel] Nom du récipient
}
entry-caption-about = { $caption } : { $about }
entry-hint = { $field ->
    [title] Les préparations du même nom se comparent entre elles.
    [slot] Un agent de salaison se prépare à l'écran de salaison, avec son étiquette.
    [fraction] Lisez-le sur le paquet. Rien n'est supposé.
    [label-again] L'agent n'est pesé que si c'est celui pour lequel le mélange a été calculé.
    [pick-up] Si on ne la connaît pas, pesez une pièce crue, puis salée.
    [tasting] 1 plus jamais, 5 comme il faut, 9 la meilleure jusqu'ici.
    [due-in] 3 font trois jours ; écrivez 36h pour des heures.
    [loss] Ce qui est sur la balance maintenant est son premier poids.
    [change] Sous zéro pour moins.
    [sugar] Le sucre rend la saumure plus dense, pas plus salée. 0 s'il n'y en a pas.
   *[other] {""}
}

mixing-typed = « { $text } » ne va pas : { $expected }
mixing-typed-nothing = rien n'est écrit : { $expected }
mixing-expected = { $field ->
    [mass] écrivez un poids au-dessus de zéro, en grammes ou avec son unité, comme 250 ou 1,2kg
    [fraction] écrivez le % de nitrite de sodium que dit le paquet, plus de 0 et au plus 100, comme 6,25
    [ppm] écrivez des parties par million de 0 à 1000000, sans signe %, comme 120
    [pick-up] écrivez le % du poids cru, plus de 0 et au plus 100, comme 10
    [due-in] écrivez un temps au-dessus de zéro et de moins de deux ans, comme 3 pour des jours ou 36h
    [turn-every] écrivez une minute ou plus, comme 12 pour des heures ou 90min ; 0 pour jamais
    [loss] écrivez le % du premier poids, plus de 0 et moins de 80, comme 30
    [change] écrivez un % au-dessus de −100, comme 5 ou −5
    [of-water] écrivez le % de l'eau de 0 à 35,86, la saturation à 60 °F
    [of-solution] écrivez le % du tout de 0 à 26,395, la saturation à 60 °F
    [salometer] écrivez des degrés de 0 à 100, en % de la saturation à 60 °F
    [density] écrivez les kilogrammes par mètre cube d'une saumure à cette température, comme 1070
    [temperature] écrivez une température, comme 4 ou 39degF
    [sugar] écrivez le % du tout de 0 à 67, ou 0 s'il n'y en a pas
    [words] écrivez un nom court d'une ligne
   *[number] écrivez un nombre au-dessus de zéro, comme 2,5
}
