# Ce qui s'écrit aux écrans du livre de la cuisine.
book-typed = { $name } : « { $text } » ne peut pas servir : { $expected }
book-typed-nothing = { $name } n'est pas dit : { $expected }
book-not-said = pas dit
book-on-scale = Sur la balance : { $mass }
book-no-worker = Le registre ne répond plus. Fermez le programme et ouvrez-le de nouveau.
book-field = { $field ->
    [cut] Morceau
    [cut-mass] Poids
    [thickness] Le plus épais
    [meat-water] Son eau
    [bath-water] Eau du bain
    [bath-salt] Sel du bain
    [sauce-name] Sauce ou pâte
    [sauce-mass] Combien
    [sauce-salt] Sel de son étiquette
    [sauce-water] Eau de son étiquette
    [held-at] À quelle température
    [core] Cœur à atteindre
    [lasting] Prévu après
    [out-mass] Poids, égouttée
    [bath-after] Bain maintenant, sel
    [bath-mass] Bain maintenant, poids
    [in-piece] Ou sel par appareil
   *[within] À … près
}
book-entry = { $field ->
    [cut] Qu'est-ce qui entre ? Les préparations d'un nom vont ensemble
    [cut-mass] Combien pèse le tout ?
    [thickness] Quelle est l'épaisseur d'une pièce au plus épais ?
    [meat-water] Combien d'eau contient-elle ?
    [bath-water] Combien d'eau dans le bain ?
    [bath-salt] Combien de sel dans le bain ?
    [sauce-name] Quelle sauce ou pâte ?
    [sauce-mass] Combien en entre-t-il ?
    [sauce-salt] Combien de sel, d'après l'étiquette ?
    [sauce-water] Combien d'eau, d'après l'étiquette ?
    [held-at] À quelle température sont pièce et bain ?
    [core] Combien de sel au cœur ?
    [lasting] Après combien d'heures faut-il le dire ?
    [out-mass] Combien pèse le tout, égoutté ?
    [bath-after] Quelle est la force du bain remué ?
    [bath-mass] Combien pèse le bain maintenant ?
    [in-piece] Combien de sel dans la pièce, par appareil ?
   *[within] À combien de points près a-t-on lu ?
}
book-entry-hint = { $field ->
    [cut-mass] Touchez ce qui est sur la balance, ou écrivez.
    [thickness] Longue et ronde : son diamètre.
    [sauce-salt] Si l'étiquette donne le sodium : 2,5 fois cela.
    [sauce-water] Rien, si personne ne sait.
    [core] En pour cent du poids cru. Rien pour ne pas le dire.
    [lasting] Rien pour ne pas le dire.
    [out-mass] Les mêmes pièces, sans récipient.
    [bath-after] Pour cent de toute la saumure, par le poids d'un récipient connu ou un appareil.
    [in-piece] Toute hachée. Pour cent de ce qui est sorti.
   *[other] {""}
}
book-expected = { $field ->
    [words] écrivez un nom court d'une ligne
    [mass] écrivez un poids au-dessus de zéro, en grammes ou avec son unité, comme 250 ou 1,2kg
    [mass-or-none] écrivez un poids de zéro ou plus, en grammes ou avec son unité, comme 250 ou 1,2kg
    [thickness] écrivez des millimètres au-dessus de zéro, comme 30
    [meat-water] écrivez un pourcentage de 20 à 90, comme 75
    [sauce-salt] écrivez un pourcentage au-dessus de 0 et jusqu'à 50, comme 16
    [sauce-water] écrivez un pourcentage qui avec le sel fasse au plus 100, ou rien
    [temperature] écrivez une température, comme 4 ou 39degF
    [core] écrivez un pourcentage du poids cru, comme 1,6
    [lasting] écrivez une durée au-dessus de zéro, comme 5 pour des heures ou 90min
    [strength] écrivez un pourcentage du tout de 0 à 26,395, qui est la saturation à 60 °F
    [within] écrivez des points de pourcentage au-dessus de 0, comme 0,2
   *[percent] écrivez un pourcentage, comme 1,8
}
