# Le poste d'essai : sans vraie balance, une main à la souris ou au doigt.
practice-open = Poste d'essai
practice-about = Pas encore de balance ? Versez, renversez et retirez à la souris ou au doigt. C'est gardé à part du registre de la cuisine.
practice-dish = Plat d'essai
practice-title = Poste d'essai : il n'y a pas de vraie balance, et rien d'ici ne va au registre de la cuisine.
practice-simulated = Poste simulé : il n'y a pas de vraie balance, et le cuisinier est inventé.
practice-dish-on = Poser le récipient
practice-tin-on = Poser le bac plein
practice-bowl-on = Poser le bol
practice-lift-off = Retirer
practice-pour-fast = Verser vite
practice-pour-slowly = Verser lentement
practice-hold = maintenir appuyé
practice-spoon-out = Prendre une cuillerée
practice-spill = Renverser
practice-leave-spoon = Laisser la cuillère
practice-take-spoon = Reprendre la cuillère
practice-probe-in = Sonde dans le chaud
practice-probe-out = Retirer la sonde
practice-end = Finir l'essai

# Les premières minutes guidées, une phrase par étape.
guide-step = Étape { $step } sur { $steps }
guide-leave = Quitter le guide
guide-open = Montrer le guide
guide-dish-on = Posez le récipient.
guide-first-portion = Versez jusqu'à 60 g, vite puis lentement, et retirez le récipient.
guide-undo = Appuyez sur « { $button } » : la portion ne compte plus.
guide-too-much = Posez un autre récipient, renversez-y trop, et retirez-le.
guide-stop-run = Appuyez sur « { $button } » : la série finit.
guide-open-brine = Ouvrez « { $mix } », puis « { $button } ».
guide-weigh-brine = Appuyez sur « { $button } », puis sur « { $weigh } ».
guide-water-and-salt = Posez le bol, et versez l'eau et le sel jusqu'à ce que les deux soient justes.
guide-ended = C'était tout : essayez ce que vous voulez, ou finissez l'essai.
