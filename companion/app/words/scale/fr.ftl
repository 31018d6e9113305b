scale-title = Où est la balance ?
scale-look-again = Chercher encore
scale-no-port = Cet ordinateur n'a pas de port série pour l'instant. Branchez la balance, allumez-la et cherchez encore.
scale-simulated = Ou essayez sur un poste simulé :

weights-try = L'essayer avec des poids
weights-calibrate = Étalonner
weights-title-try = Essayer la balance avec des poids connus
weights-title-calibrate = Étalonner la balance
weights-begin = Commencer
weights-which-try = Quels poids avez-vous ? Un proche de la mi-portée, un proche d'une portion.
weights-which-calibrate = Quels poids avez-vous ? Un près du maximum, un près de la moitié.
weights-class = Leur classe (OIML R 111-1), gravée dessus ou sur leur boîte :
weights-run-going-on = Une série est en cours : terminez-la d'abord.
weights-wait = Attendez : pas encore stable
weights-empty = C'est vide
weights-on = C'est posé
weights-give-up = Abandonner
weights-step = Étape { $step } sur { $steps }
weights-put-on = Posez { $mass }
weights-empty-pan = Videz le plateau
weights-nothing-on = Rien sur le plateau, rien qui s'y appuie.
weights-in-the-middle = Au milieu du plateau et rien d'autre. Ne touchez pas.
weights-again = Encore
weights-kept-old = La balance garde son ancien étalonnage.

calibration-made = Étalonnée avec { $points } points. À { $heaviest } son incertitude est { $uncertainty }.
