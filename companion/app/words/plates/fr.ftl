# Assiettes : ce qui est sur chacune, et ce qu'elle coûte.
plates-heading = Assiettes
plates-none = Aucune assiette enregistrée
plates-touch = Touchez une assiette pour la changer
plates-touch-part = Touchez ce qui est à changer
plates-new = Nouvelle assiette
plates-no-price = sans prix
plates-put-dish = Mettre un plat
plates-put-part = Mettre autre chose
plates-remove = Retirer l'assiette
plates-remove-ask = Retirer cette assiette ? Ses plats et leurs portions restent.
plates-take-off = L'enlever de l'assiette
plates-portioned = poids et coût de ses portions
plates-portioned-about = Son poids et son coût sont ceux de ses portions
plates-part-about = Ce qui en est servi, et ce qu'il coûte
plates-fixed = { $weight } à { $cost }
plates-touch-dish = Touchez le plat
plates-no-dish = Aucun plat dans la liste
plates-about =
    { $count ->
        [one] { $count } chose dessus
       *[other] { $count } choses dessus
    }
plates-about-price =
    { $count ->
        [one] { $price }, { $count } chose dessus
       *[other] { $price }, { $count } choses dessus
    }
