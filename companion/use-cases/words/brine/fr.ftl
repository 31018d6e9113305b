# Saumure : forces, en connaître une par son poids, la corriger.
brine-ice-below = La glace se forme sous { $at }.
brine-salt-below = Le sel se dépose sous { $at }.
brine-of-water = { $percent } % de l'eau
brine-of-solution = { $percent } % du tout
brine-there-already = Elle y est déjà.
brine-add-salt = Dissolvez { $mass } de sel ; cela fait { $makes }.
brine-add-water = Ajoutez { $mass } d'eau ; cela fait { $makes }.
brine-replace-with-salt = Retirez { $mass }, dissolvez { $mass } de sel.
brine-replace-with-water = Retirez { $mass }, ajoutez { $mass } d'eau.

brine-told-of-solution = { $percent } % de toute la saumure, à { $within } près
brine-told-of-water = { $percent } % de l'eau, à { $within } près
brine-doubt = Le doute vient surtout de : { $of } (k = 2, JCGM 100) ; le récipient grandit de { $middle } ± { $half } ppm par °C en volume.
brine-doubt-of = { $of ->
    [net-mass] poids net
    [vessel] récipient
    [level] niveau de remplissage
    [temperature] température
    [sugar] sucre
    [sugar-model] modèle du sucre
    [tables] tables de densité
    [expansion] dilatation du récipient
   *[nothing] rien
}
brine-sugared = Avec { $percent } % de sucre dans le tout : { $source }.

brine-sugar-unsaid = Le sucre n'est pas dit, et la densité d'une saumure où il y a autre chose que du sel ne dit rien du sel. Dites combien de % de la saumure sont du sucre, ou 0 s'il n'y a que du sel dissous : ni sucre, ni sirop, ni phosphate, ni agent de salaison.
brine-sugar-unknown = Avec une quantité de sucre inconnue, la densité ne dit rien du sel. Dites combien de % de la saumure sont du sucre, ou 0 s'il n'y a que du sel dissous : ni sucre, ni sirop, ni phosphate, ni agent de salaison.
brine-no-brine = Pas de saumure dans le récipient : il pèse autant que vide. Pesez-le vide, puis plein.
brine-no-vessel = Choisissez d'abord un récipient de volume connu.
brine-temperature = { $value } est hors de 0 à 40 °C, ce que couvrent les tables de densité.
brine-density = { $value } n'est pas la densité d'une saumure de sel à cette température. Pesez encore, vide et plein, et voyez qu'il est rempli comme il l'était d'eau.
brine-salt = { $value }, c'est plus de sel que l'eau n'en tient : au plus 35,86 % de l'eau.
brine-too-sweet = { $value } de sucre font un sirop, pas une saumure : au plus 40 %.
brine-target-zero = Avec de l'eau, on n'arrive jamais à 0 % : dites plus que cela.
brine-cannot = Cela ne peut pas se savoir : { $why }.
