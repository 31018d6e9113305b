# Formules : faites et changées du doigt, mises à l'échelle, l'eau de leur pâte et ce que partagent les bonnes préparations.
formula-heading = Formules
formula-none = Aucune dans le livre
formula-new = Une nouvelle
formula-new-heading = Une nouvelle formule
formula-from-trials = À partir d'essais
formula-about = Eau { $water } de la base, { $total } en tout, étapes faites avant : { $stages }
formula-of-base = { $name }, base
formula-beforehand = fait avant
formula-add = + ingrédient
formula-add-detail = pour cent de la base
formula-add-stage = + étape
formula-add-stage-detail = levain, trempage
formula-in-stages = { $base } de la base est dans ce qui est fait avant.
formula-is-kept = Elle est ainsi dans le livre.
formula-not-kept = Ceci n'est pas encore dans le livre.
formula-not-yet = Elle ne peut pas encore être gardée.
formula-amounts = Combien
formula-water = Eau de la pâte
formula-keep = Dans le livre
formula-counts = Compte comme
formula-counts-base = base
formula-counts-other = hors base
formula-touch-for-base = touchez si base
formula-line-about = Les pourcentages sont de la base : les farines d'une pâte, qui font 100 ensemble, étapes comprises. Ce qui est hors base compte par son eau.
formula-drop = L'enlever
formula-stage-heading = Avant : { $name }
formula-stage-about = Ce qui de toute la formule entre dans cette étape, en pour cent de toute la base. Un levain est aussi farine et eau de la formule.
formula-starter-flour = Farine du levain
formula-takes-none = rien
formula-how-much = Combien en faire
formula-all-of = Tout ce qu'il y a de
formula-water-prompt = L'eau, pour que la pâte sorte juste
formula-mixed = Elle est sortie ainsi
formula-trials-heading = Les préparations de quel nom ?
formula-no-trials = Aucune préparation n'a de nom
formula-trials-prompt = Ce que partagent les bonnes
formula-choose-base = Touchez ce dont les parts sont comptées : les farines d'une pâte, les graines d'un lait.
formula-freeze = La figer dans le livre
formula-no-base = On n'a pas choisi ce dont les parts sont comptées. Touchez d'abord les farines.
formula-usual = { $name ->
    [flour] farine
    [water] eau
   *[salt] sel
}
formula-last-bowl = pétrissée finale
formula-made-for = { $name } y entre en entier.
formula-goes-into = Va dans
formula-goes-into-heading = Où va { $name } ?
formula-goes-into-about = Une étape va entière à un seul endroit : dans la pétrissée finale ou dans une autre étape, comme le second rafraîchi d'un levain. Ce qui va dans une étape est fait avant elle.
formula-how = Comment on fait
formula-how-none = Rien n'est encore écrit
formula-how-count =
    { $count ->
        [0] pas dit
        [one] une phrase
       *[other] { $count } phrases
    }
formula-add-work = + phrase
formula-work-heading = Phrase { $nth } sur { $of }
formula-work-touch = Touchez-la pour la récrire
formula-earlier = Plus tôt
formula-later = Plus tard
formula-limits = Limites à respecter
formula-limits-touch = Touchez celles à respecter
formula-limits-count =
    { $count ->
        [0] aucune
        [one] une limite
       *[other] { $count } limites
    }
formula-limits-none = Aucune limite n'est choisie. Celles qui le sont figurent sur la page pour la relève, avec leurs chiffres et leurs sources.
formula-limit-not-in-force = { $name } : aucune limite de ce nom n'est en vigueur. Touchez-la pour l'enlever, ou écrivez-la dans le fichier des limites de la cuisine.
formula-not-in-force = pas en vigueur
formula-beside = Sous un autre nom, elle est gardée à côté de « { $name } », qui reste.
formula-remove = Retirer du livre
formula-remove-heading = Retirer « { $name } » du livre ?
formula-remove-it = Oui, retirer « { $name } » du livre
formula-remove-about = Ses préparations et ses pâtes restent enregistrées. Son fichier n'est pas effacé : il va dans le dossier « taken-out », à côté des autres.
formula-remove-leave = La laisser dans le livre
formula-removed = « { $name } » n'est plus dans le livre. Son fichier est { $path }.
