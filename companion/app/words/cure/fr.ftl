# Préparer une salaison.
cure-how = Comment la viande est-elle salée ?
cure-way = { $method ->
    [dry] À sec
    [immersion-equilibrium] Immersion
    [immersion-pickup] Immersion
    [pumped] Injection
    [comminuted] Hachée
    [bacon-dry] Poitrine, à sec
    [bacon-pumped] Poitrine injectée
   *[bacon-immersion] Poitrine, immersion
}
cure-way-detail = { $method ->
    [dry] frottée
    [bacon-dry] frottée
    [immersion-equilibrium] à l'équilibre
    [bacon-immersion-equilibrium] à l'équilibre
    [comminuted] mélangé
   *[pick-up] par absorption
}
cure-heading = ◆ Salaison : { $method }
cure-what-label = Que contient l'agent, d'après l'étiquette ?
cure-contents = { $contents ->
    [sodium-nitrite] Nitrite de sodium
    [nitrite-and-nitrate] + nitrate
    [nitrate] Nitrate
    [potassium-nitrite] Potassium
   *[vegetable] Végétal
}
cure-not-said = pas dit
cure-on-packet = sur le paquet
cure-by-label = par l'étiquette
cure-by-label-spoken = Nitrite d'après l'étiquette
cure-ingoing = nitrite ajouté
cure-taken-up = absorbé
cure-skin-on = Avec couenne
cure-skin-off = Sans couenne
cure-limit = Limite : { $limit }.
cure-another-way = Autre façon
cure-salt-and-rest = Sel et le reste
