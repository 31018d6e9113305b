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
formula-is-there = { $name } est déjà dans le livre : { $path }. Choisissez un autre nom.
