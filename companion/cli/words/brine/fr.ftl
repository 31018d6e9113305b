# Saumures : une force dite de toutes les manières, quoi peser, en corriger une,
# en connaître une à son poids.
brine-of-water = { $percent } % de l'eau
brine-of-solution = { $percent } % de la solution
brine-salometer = { $degrees } degrés de salinomètre
brine-density-at = { $density } kg/m³ à { $at } °C
brine-freezing = { $what ->
    [ice] de la glace se forme sous { $at } °C
   *[salt] le sel se dépose sous { $at } °C
}
brine-water = eau   { $mass }
brine-ice = glace { $mass }
brine-salt = sel   { $mass }
brine-sugar = sucre { $mass }
brine-makes-in-all = donne { $mass } de saumure, { $volume } à { $at } °C : { $of_water } % de l'eau, { $of_solution } % de la solution
brine-volume-by = volume selon : { $source }
brine-ice-unknown = si toute la glace fond n'est pas connu : indiquez à combien est l'eau, --water-at
brine-ends-at = { $at } °C, à { $within } près
brine-ice-stays = la glace ne peut pas toute fondre : il en reste environ { $left }, à { $at } ; le liquide a alors { $liquid }
brine-ice-melts = la glace fond, et la saumure est alors à { $at }
brine-ice-counted = { $said } (glace comptée à { $ice_at }, le sel aussi chaud que l'eau ; sans compter la marmite ni l'air)
brine-sugar-cooling = ce que refroidit le sucre et son point de congélation ne sont pas comptés
brine-heats-by = chaleurs selon : { $source } ; { $brine }

brine-now = maintenant { $mass } à { $strength }
brine-there-already = elle y est déjà
brine-stir-in = incorporez { $mass } de sel
brine-pour-in = versez { $mass } d'eau
brine-replace = { $with ->
    [salt] retirez { $mass } de saumure, puis incorporez { $mass } de sel
   *[water] retirez { $mass } de saumure, puis versez { $mass } d'eau
}
brine-makes = donne { $mass } à { $strength }

brine-within = { $said }, à { $within } près
brine-density-within = { $density } kg/m³, à { $within } près, à { $at } °C
brine-most-doubt = le plus grand doute vient de : { $of ->
    [net-mass] la masse nette
    [vessel] le récipient
    [level] le niveau de remplissage
    [temperature] la température
    [sugar] le sucre
    [sugar-model] le modèle du sucre
    [tables] les tables de densité
    [expansion] la dilatation du récipient
   *[nothing] rien
}
brine-give-or-take = (à tant près : incertitude élargie, k = 2, JCGM 100 ; les deux pesés dans l'air)
brine-sugared = avec { $percent } % de sucre dans le tout, { $source }
brine-growth = la dilatation du récipient est comptée comme { $middle } ± { $half } ppm par °C en volume, { $source }

brine-share-salt = sel { $mass }
brine-share = la saumure a { $strength } au début ; { $percent } % du tout est du sel une fois réparti
brine-in-meat = dans la viande { $percent } % (de { $from } à { $to } selon son eau), dans l'eau des deux { $water } %
brine-meat-water = { $name } : { $percent } % d'eau, { $source }
brine-meat-unknown = à combien vient la viande elle-même n'est pas connu : dites laquelle, --kind, pour l'eau qu'elle contient
brine-time = règle pratique : de { $from } à { $to } jours ({ $source }) ; égalisé jusqu'au cœur seulement après { $even_from } à { $even_to } jours
brine-time-rule = de 6 à 7 mm de profondeur par jour depuis chaque face, et jusqu'à deux jours de plus pour faire bonne mesure (pratique courante, sans source)

# Récipients.
vessel-none = Aucun récipient n'est encore au registre ; `evenhand brine vessel fill` en mesure un.
vessel-out-of-use = { $name } n'est plus en service
vessel-shown = { $name } : { $volume } ml à 20 °C, à { $within } ml près (k = 2), par { $water } d'eau à { $at } °C
vessel-shown-empty = { $name } : { $volume } ml à 20 °C, à { $within } ml près (k = 2), par { $water } d'eau à { $at } °C, vide { $empty }
