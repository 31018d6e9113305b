dishes-title = Que portionnez-vous ?
dishes-new = Nouveau plat
dishes-none = Aucun plat n'est encore connu. Touchez Nouveau plat et nommez le premier.
dish-line = { $goal }, { $mode }

naming-field = Nom du plat

setup-adding = En récipients
setup-adding-how = Poser un récipient, le remplir, le retirer
setup-taking = Depuis un bac
setup-taking-how = Poser le bac et y prélever
setup-start = Commencer
setup-goal-title = { $dish } : dès la prochaine portion
setup-use-goal = Prendre cette cible
setup-target = Cible
setup-tolerance = Tolérance
setup-step = { $what } { $by }
setup-tin-none = Bac non saisi
setup-tin-none-open = Aucun bac n'est ouvert
setup-tin-open = Bac ouvert : reste { $left }
setup-tin-new = Nouveau bac
setup-tin-food = Contenu du nouveau bac
setup-cannot-be = Cela ne se peut pas : { $why }.
setup-on-target = Au poids de { $from } à { $to }.
setup-waiting = En attente de la balance : il faut d'abord la relier.
