# À commander, au doigt ; et la liste de ce que la cuisine achète.
orders-heading = À commander
orders-waiting = Le calcul est en cours.
orders-touch-supplier = Touchez à qui vous commandez.
orders-basis = Les colis suffisent cinq soirs sur six, pour des soirs et des achats comme ceux enregistrés.
orders-lines = { $wanted ->
    [0] Rien à commander
    [one] Un à commander
   *[other] { $wanted } à commander
}, { $unknown } INCONNU
orders-by = à commander avant { $by }, livré { $day }
orders-no-time = livré { $day }, l'heure limite n'est pas dite
orders-no-days = aucun jour de livraison n'est dit
orders-total = En tout { $cost }.
orders-all-ordered = Tout est commandé
orders-ask-ordered = Commandé à { $supplier } pour { $day } ?
orders-unknown-left = Ce qui est inconnu reste dehors : notez-le à sa propre ligne.
orders-not-yet = Pas encore
orders-is-ordered = C'est commandé
orders-on-the-way = { $packs ->
    [0] aucun en route
    [one] un colis en route
   *[other] { $packs } colis en route
}
orders-placed = Déjà commandé
orders-placed-heading = { $name } : déjà commandé
orders-none-placed = Aucune commande n'a été notée.
orders-touch-placed = Touchez une commande pour la retirer ou la compter à nouveau.
orders-placed-for = Pour { $day }
orders-placed-at = Noté { $at }
orders-packs-of = { $packs } x { $pack } de { $goods }
orders-ask-take-back = Retirer cette commande ?
orders-ask-put-back = Cette commande compte-t-elle finalement ?
orders-call-them = Elle reste notée et ne compte plus. Le fournisseur n'en sait rien : appelez-le.
orders-leave-it = La laisser
orders-by-mistake = Notée par erreur
orders-does-not-come = Elle ne vient pas
orders-put-back = Elle compte
orders-edit = Changer cette marchandise
orders-know = Pour le savoir : { $what }.
orders-know-first = { $more ->
    [0] Pour le savoir : { $first }.
    [one] Pour le savoir : { $first } ; et une chose de plus.
   *[other] Pour le savoir : { $first } ; et { $more } choses de plus.
}
orders-line-after = { $after } suffit après la livraison, { $enough } dès maintenant ; en stock { $hand }
orders-line = { $enough } suffit dès maintenant ; en stock { $hand }
orders-runs-out = RISQUE : il n'y en a plus avant la livraison.
orders-not-counted = non compté
orders-from-to = de { $least } à { $most }
orders-pieces = pièces
orders-packs = colis
orders-understood = Cela fait { $amount }.
orders-of-what = { $number } de quoi ? Touchez-le : en colis, cela fait { $amount }.

orders-goods = Nos achats
orders-none = Aucune marchandise n'est encore sur la liste.
orders-files-where = Listes de marchandises en TOML ou en tableau CSV, du dossier { $folder } dans le dossier des données. On peut aussi déposer un fichier sur cette fenêtre.
orders-add-supplier = + fournisseur
orders-add-goods = + marchandise
orders-add-dish = + plat
orders-add-batch = + préparation
orders-add-cover = + couverts
orders-what-for = Pour quoi c'est :
orders-a-guest = { $takes } par couvert
orders-takes = prend { $takes }
orders-by-yield = d'après son rendement
orders-by-yield-about = Où rien n'est dit, il prend ce que pèsent les portions servies, d'après le rendement des achats enregistrés.
orders-remove-goods = { $count ->
    [one] Sa marchandise part avec lui.
   *[other] Ses { $count } marchandises partent avec lui.
}
orders-kept = La liste est gardée.
orders-not-kept = La liste n'est pas gardée
orders-unkept = Une liste de marchandises est en cours d'écriture : gardez-la ou quittez-la d'abord.

orders-field = { $field ->
    [in-hand] En stock, tel qu'acheté
    [ordered] Colis commandés
    [comes] Quel jour c'est livré
    [new-supplier] Un nouveau fournisseur
    [new-goods] Ce qui s'achète
    [name] Nom
    [delivers] Livre les
    [at] Livré à
    [order-by] Commander jusqu'à
    [days-before] Jours avant la livraison
    [supplier] Vient de
    [pack] Un colis contient
    [price] Un colis coûte
    [piece] Une pièce pèse
    [for] Pour quoi c'est
    [dish] Plat
    [batch] Préparation
    [takes] Chacune prend
   *[per-cover] Un couvert prend
}
orders-expected = { $field ->
    [in-hand] écrivez ce qui est fermé avec son unité, ou en colis ; 0 s'il n'y en a pas
    [packs] écrivez un nombre entier de colis
    [days-before] écrivez un nombre entier de 0 à 14, ou rien : la veille
    [piece] de ce qui se compte en pièces : écrivez ce que pèse une pièce, ou rien
    [takes] écrivez ce que prend une portion ou une préparation, tel qu'acheté, avec son unité ; d'un plat, ou rien
    [for] dites pour quoi c'est
    [time] écrivez une heure, comme 1630, ou rien
    [date] écrivez une date à partir d'aujourd'hui, comme 2026-05-08
    [price] écrivez ce que coûte un colis avec sa monnaie, ou rien
    [amount] écrivez un nombre, puis son unité
   *[name] écrivez un nom d'une ligne
}
orders-takes-of-each = écrivez ce que prend une portion : d'après son rendement un plat va avec une seule marchandise
