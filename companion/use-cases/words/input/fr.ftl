# Ce qui a été tapé et ne convient pas : ce qui ne va pas, et quoi écrire.
input-problem = { $code ->
    [empty] est vide
    [no-number-first] ne commence pas par un nombre
    [comma] contient une virgule, décimale ou de milliers
    [not-a-number] n'est pas un nombre
    [no-number] n'est pas un nombre
    [too-large] est trop grand
    [no-unit] n'a pas d'unité
    [other-mass-unit] a l'unité { $first }, qui n'est pas une masse connue ici
    [other-volume-unit] a l'unité { $first }, qui n'est pas un volume connu ici
    [other-temperature-unit] a l'unité { $first }, qui n'est pas une température connue ici
    [two-sizes] est en { $first }, qui a deux tailles
    [not-a-mass-unit] n'est pas une unité de masse
    [not-a-temperature-unit] n'est pas une unité de température
    [not-ounces] a autre chose que des onces après les livres
    [part-of-a-pound] a une part de livre suivie d'onces
    [pound-of-ounces] a une livre ou plus en onces
    [negative] est négatif
    [zero] est nul
    [not-above-zero] n'est pas au-dessus de zéro
    [other-than-percent] a { $first } là où seul un signe de pourcentage peut être
    [fraction-or-percent] est une fraction de un, ou très peu de pour cent sans leur signe
    [unit-behind] a { $first } après le nombre
    [over-one] est une fraction au-dessus de 1, ou un pourcentage sans son signe
    [whole-or-percent] est le tout, ou un pour cent sans son signe
    [no-span] n'est pas une durée
    [no-span-of-days] n'est pas une durée en jours, heures et minutes
    [absolute-zero] est sous le zéro absolu
    [too-cold-for-a-kitchen] est plus froid que l'azote liquide, le plus froid d'une cuisine
    [too-hot-for-a-probe] est plus chaud que ne mesure une sonde alimentaire
    [no-difference] n'est pas une différence de températures
    [no-day] n'est pas un jour du calendrier
    [before-2000] est avant l'an 2000
    [to-come] est encore à venir
    [beyond-calendar] sort du calendrier
    [no-time-of-day] n'a pas d'heure
    [no-time] n'est pas une heure
    [skipped] n'existe pas : les horloges avancent et la sautent
    [twice] arrive deux fois, car les horloges reculent : ajoutez { $first } pour la première ou { $second } pour la seconde
    [many-lines] prend plusieurs lignes
    [control-characters] contient des caractères de contrôle
    [too-long] dépasse { $first } caractères
    [no-loss] n'est pas une perte d'eau
    [no-mark] n'est pas une note
    [not-after-in] n'est pas après { $first }, quand cela entre
    [long-after-in] est { $first } après l'entrée
    [too-often] est trop souvent
    [no-density] donnerait { $first } kg/l, ce qu'aucun aliment n'a
    [in-no-batch] n'est dans aucune de ces préparations
    [no-yield] n'est dans aucune de ces préparations avec quelque chose qui en est sorti
    [not-in-it] n'y est pas
    [leaves-nothing] n'en laisse rien
    [whatever-there-is] est ce qu'il y en a
    [beyond-held] dépasse ce qui peut être tenu
    [no-size] n'a pas de taille propre
    [syrup] fait un sirop, pas une saumure
    [above-saturation-beside] dépasse la saturation des { $first } % d'eau à côté
    [above-saturation] dépasse la saturation
    [grams-per-cm3] ressemble à des grammes par centimètre cube
    [denser-than-metal] est plus dense que tout métal
    [below-freezing] est sous le point de congélation de l'eau
    [too-warm-for-density] est trop chaud pour connaître la force par la densité ; laissez refroidir
    [too-cold-for-strength] est trop froid pour que { $first } % de la solution restent dissous
    [less-than-water] est moins que sans aucun sel
    [more-than-saturated] est plus que la saumure saturée
    [too-salty] est plus que ce qu'on mange en salaison
    [too-little-water] est trop peu pour dissoudre { $first } g de sel
    [no-thickness] n'est pas l'épaisseur d'une pièce de viande
    [no-water-temperature] n'est pas celle d'une eau
    [no-ice-temperature] n'est pas celle d'une glace
    [no-temperature] n'est pas une température
    [salt-falls-out] la refroidit tant que le sel se dépose
    [no-such-meat] n'est pas dans la table des viandes
    [no-share-of-water] n'est pas la part d'eau d'une viande ou d'un poisson crus
    [more-ice-than-water] est plus que l'eau de la recette
    [too-little-room] est moins que les { $first } g de saumure qu'il y a
    [not-by-water] ne s'atteint pas en ajoutant de l'eau
    [no-basis] n'est pas une manière de dire la force
    [not-all-dissolves] ne se dissout pas entièrement dans { $first } g d'eau
    [no-material] n'est pas une matière connue ici
    [as-large-as-vessel] est aussi grand que le récipient
    [sugar-unsaid] n'est pas dit, et la densité d'une saumure contenant autre chose que du sel ne dit rien du sel
    [sugar-unknown] fait que la densité ne dit rien du sel
    [fraction-over-one] est une fraction au-dessus de 1
    [no-contents] n'est pas un genre d'agent de salaison connu ici
    [two-ways] se calcule de deux manières aux résultats très différents
    [no-method] n'est pas une manière de saler connue ici
    [no-pick-up] n'est pas une part du poids cru
    [no-gain] n'est pas un gain sur { $first } g
    [no-ppm] n'est pas un nombre de parties par million
    [ppm-in-percent] est en pour cent
    [not-bacon] n'est pas de la poitrine
    [missing-for] manque pour { $first }
    [scale-useless] ne sert à rien
    [no-dough-mass] n'est pas une masse que pèse une cuisine
    [not-said] n'est pas dit
    [said-of-nothing] ne se rapporte à rien
    [below-nothing] est en dessous de rien
    [ice-not-water] est de la glace
    [ice-not-part] est moins que rien ou plus qu'il n'y a d'eau
    [no-mixing] est à { $first } K de ce qui est entré, ce qu'aucun pétrissage ne fait
    [no-mixers] n'est pas celle d'un pétrin
    [not-in-a-dough] n'est de rien qui entre dans une pâte
    [no-sauce] n'est pas celui d'une sauce ou d'une pâte
    [not-with-its-salt] ne va pas avec son sel
    [no-name-with-mass] n'a pas de nom avec sa masse
    [not-understood] n'est pas compris
    [salt-twice] dit son sel deux fois
    [neither-salt-nor-water] contient ce qui n'est ni sel ni eau
    [same-twice] dit deux fois la même chose
    [no-salt-said] ne dit pas son sel
    [no-salt] ne contient pas de sel
    [more-than-dissolves] est plus que ce qui se dissout
    [no-shape] n'en est pas une
    [no-uncertainty] n'est pas une incertitude
    [no-salts-share] n'est pas une part de sel
    [not-that-bath] n'est pas ce que devient un bain de { $first } g
    [gave-salt] voudrait dire que la pièce a rendu du sel
    [too-much-salt] voudrait dire plus de sel dans la pièce qu'elle n'en peut prendre à ce bain
    [no-bath-temperature] n'est pas celle d'une saumure en chambre froide ou sur le plan de travail
    [not-after-it-went-in] n'est pas après l'entrée
    [out-of-another-bath] est sorti d'un bain où sont entrés { $first } g
    [not-initials] n'est pas des initiales
    [not-portion-id] n'est pas l'identifiant d'une portion
    [no-time-of-day-here] n'est pas une heure du jour
    [after-noon] est après midi
    [not-cooks-setting] n'est pas un réglage des chiffres des cuisiniers
    [no-currency] n'a pas de monnaie
    [other-currency] a la monnaie { $first }, que ISO 4217 ne donne pas
    [no-mass-of-price] ne dit pas pour quelle masse
    [no-price] n'est pas un prix pour une masse au-dessus de zéro
    [map-without-equals] a { $first } sans un =
    [map-lacks] ne nomme pas { $first }
    [dish-not-on-record] est un plat qui n'est pas noté, sa cible n'est donc pas connue
    [far-from-target] est { $first } fois sa cible de { $second } g
    [above-100-kg] dépasse 100 kg
    [no-date-with-time] n'est pas une date avec son heure
    [no-such-offset] a un décalage qu'aucune horloge n'a
    [skipped-here] n'a pas existé cette nuit-là, quand les horloges ont avancé
    [in-future] est dans le futur
    [no-loss-here] n'est pas une perte connue ici
    [no-latitude] n'est pas une latitude
    [no-height] n'est pas une altitude sur terre
    [no-class-weight] n'est pas un poids d'une classe
    [no-weight-class] n'est pas une classe de poids
    [no-services] n'est pas un nombre de services par mois
    [no-tin-number] n'est pas le numéro d'un bac
    [not-bought] n'est rien qui s'achète
    [missing] manque
    [out-of-range] est hors de la plage
    [of-portioned-dish] est donné pour le plat portionné { $first }
    [formula-too-long] est plus longue qu'une formule
    [not-understood-here] n'est pas compris : { $first }
    [not-a-hundred] n'est pas cent
    [formula-too-few] sont trop peu ou trop pour une formule
    [not-in-formula] n'est pas dans la formule
    [twice-here] s'y trouve deux fois
    [no-share] n'est pas une proportion
    [no-scale-step] n'est pas un échelon de balance
    [pieces-none] sont aucun ou trop
    [mark-not-reached] n'est atteinte par aucune de ces préparations
   *[other] ne peut servir ({ $written })
}
input-wanted = { $code ->
    [mass] écrivez une masse en g, kg, oz ou lb, comme 30g
    [mass-unit] écrivez g, kg, oz ou lb
    [pounds] écrivez des livres entières et moins de 16 onces, comme 1lb4oz
    [mass-above-zero] ce doit être au-dessus de zéro, comme 30g
    [mass-or-none] ce doit être zéro ou plus, comme 1g
    [above-zero] ce doit être au-dessus de zéro
    [zero-or-more] ce doit être zéro ou plus
    [percent] écrivez un nombre de pour cent, comme 10 ou 10%
    [percent-with-sign] écrivez les pour cent avec leur signe, comme 6% ou 0.06%
    [percent-or-fraction] écrivez un pourcentage avec son signe ou une fraction de un, comme 6.25% ou 0.0625
    [span] écrivez des jours, heures et minutes, comme 3d, 36h ou 2d 12h
    [volume] écrivez un volume en ml, cl, dl ou l, comme 5l
    [volume-range] ce doit être au-dessus de zéro et au plus 10000 l
    [gallon] écrivez usgal pour le gallon des États-Unis (3.785 l) ou impgal pour l'impérial (4.546 l) ; de même qt, pt et floz
    [temperature] écrivez une température en degC ou degF, comme 54degC
    [temperature-unit] écrivez degC ou degF
    [day] écrivez un jour : 2026-05-01, today (aujourd'hui), yesterday (hier) ou tomorrow (demain)
    [moment] écrivez une heure d'aujourd'hui (18:30), un jour (2026-05-01, today, yesterday), un jour et une heure (yesterday 22:10, 2026-05-01T18:30), ou le tout avec son décalage (2026-05-01T18:30+02:00)
    [name] écrivez un nom de 1 à { $first } caractères, comme { $second }
    [words] écrivez des mots d'au plus { $first } caractères
    [loss] ce doit être au-dessus de 0 et en dessous de 80 pour cent du premier poids
    [mark] ce doit être de 1 (plus jamais) par 5 (comme il faut) à 9 (le meilleur à ce jour)
    [later] ce doit être plus tard
    [two-years] ce doit être d'ici deux ans
    [a-minute] ce doit être une minute ou plus
    [what-came-out] écrivez ce que pèse ce qui est sorti
    [measure-again] relisez la mesure, et pesez sans le récipient
    [weigh-what-came-out] pesez ce qui est sorti, par exemple avec `batch yield` ; il y a { $first }
    [ingredients-are] elles ont { $first }
    [ingredient-has] il y a { $first }
    [above-minus-hundred] ce doit être au-dessus de -100 pour cent
    [one-with-a-number] changez-en un qui a un nombre
    [kitchen-mass] ce doit être une masse qu'une cuisine peut avoir
    [weigh-meat-and-water] pesez la viande et l'eau ; le reste suit
    [sugar-range] ce doit être de 0 à 67 pour cent
    [sugar-most] ce doit être au plus 40 % de la solution
    [salt-most] le sel doit être au plus 35.86 % de l'eau, la saturation à 60 degF
    [salt-of-water-most] ce doit être au plus 35.86 % de l'eau, la saturation à 60 degF
    [density] écrivez des kilogrammes par mètre cube, comme 1070
    [density-temperatures] ce doit être de 0 à 40 degC, ce que couvrent les tables de densité
    [brine-holds] la saumure y tient au plus { $first } % de la solution
    [shared-salt] ce doit être au-dessus de 0 et au plus 15 pour cent
    [more-water-or-dry] prenez plus d'eau, ou salez la viande à sec
    [thickness] ce doit être au-dessus de 0 et au plus 500 mm
    [degrees-between] ce doit être de { $first } à { $second } degC
    [less-ice] mettez moins de glace, ou de l'eau plus chaude
    [kind-of-meat] écrivez son eau en pour cent, ou l'un de { $first }
    [share-of-water] ce doit être de 20 à 90 pour cent
    [grams-most] ce doit être au plus { $first } g
    [vessels-room] ce doit être tout ce que contient le récipient
    [basis] écrivez water (sel sur l'eau) ou solution (sel sur toute la saumure)
    [material] écrivez steel (acier), glass (verre) ou plastic (plastique)
    [well-below] ce doit être bien en dessous de { $first }
    [say-sugar] dites combien de pour cent de la saumure est du sucre, ou 0 si seul du sel y est dissous : ni sucre, ni sirop, ni phosphate, ni agent de salaison
    [label-fraction] lisez-le sur l'étiquette, comme 6.25% ou 0.0625
    [contents] écrivez sodium-nitrite, potassium-nitrite, nitrate, nitrite-and-nitrate ou vegetable
    [one-of] écrivez l'un de { $first }
    [pick-up] ce doit être au-dessus de 0 et au plus 100 pour cent du poids cru
    [gain] ce doit être au-dessus du poids cru et au plus le double
    [ppm-range] ce doit être de 0 à 1000000 ppm
    [ppm] écrivez un nombre de parties par million, comme 120
    [bacon-rule] la règle sur la couenne est pour la poitrine
    [meat-needed] il faut le poids cru de la viande
    [pickle-needed] il faut le poids de l'eau, du sel et du sucre
    [pick-up-needed] il faut la part de son poids cru que la viande absorbe
    [kitchen-scale] ce doit être celle d'une balance de cuisine
    [another-size] écrivez une autre taille
    [measure-stages] la formule a des étapes ; mesurez leur température
    [no-stages] la formule n'a pas d'étapes ; ôtez-le
    [how-much] écrivez combien il y en a
    [coldest-water] écrivez à combien est l'eau la plus froide, 0 degC ou plus
    [water-not-ice] écrivez-en une de 0 à 100 degC ; ce qui est de la glace se dit à part
    [part-of-water] elle fait partie de l'eau, dont il y a { $first } g
    [dough-again] mesurez encore, ou corrigez ce qui est entré
    [friction] écrivez une différence de -20 à 40 degC
    [look-again] regardez encore les températures
    [dough-degrees] écrivez-en une de -30 à 60 degC
    [goes-in] écrivez combien il en entre
    [label-salt] écrivez le sel de son étiquette en pour cent, au-dessus de 0 et au plus 50
    [salt-and-water] sel et eau ensemble font au plus 100 pour cent
    [as-its-label] écrivez-le comme son étiquette : NAME=150g,salt=16%,water=65%, ou sodium=6.4% pour le sel
    [write-the-salt] écrivez le sel, ou des sauces et pâtes avec le sel de leurs étiquettes
    [more-water] prenez plus d'eau ; le salage à sec ne se calcule pas ainsi
    [shape] écrivez slab pour une pièce plate ou cylinder pour une longue et ronde
    [points] écrivez à combien de points de pourcentage près c'est connu, au-dessus de 0 et au plus 10
    [salt-percent] écrivez-en une de 0 à 26.395 pour cent
    [bath-alone] pesez le bain sans son récipient, ou laissez sa masse
    [try-stirred] essayez encore le bain, remué, et dites ce qui y est entré
    [try-again] essayez encore, et dites ce qui est entré dans le bain
    [weight-before] écrivez ce que cela pèse avant l'entrée
    [bath-degrees] écrivez-en une de -3 à 30 degC
    [when-out] écrivez quand c'est sorti
    [same-pieces] pesez les mêmes pièces sans leur récipient ; de la moitié au double est possible
    [initials] écrivez une à quatre lettres, comme MO
    [portion-id] écrivez-le comme il est donné, comme 00000000000000a1-00000001-17
    [reason] dites pourquoi, en 1 à 200 caractères
    [day-begins] écrivez une heure de 00:00 à 12:00, comme 04:00
    [cooks-setting] écrivez own (celles du cuisinier, le reste ensemble) ou hidden (toutes, noms cachés)
    [money] écrivez un montant et le code ISO 4217 d'une monnaie, comme 4.50 EUR
    [cost] écrivez un montant, le code ISO 4217 d'une monnaie et la masse qu'il achète, comme 1800 EUR/kg
    [map] écrivez quel en-tête porte quoi, comme time=When,mass=Weight,dish=Dish,cook=Cook,target=Target ; time et mass sont nécessaires
    [dish-column] nommez sa colonne dans --map, ou donnez --dish
    [target-column] donnez --target, nommez sa colonne dans --map, ou ajoutez d'abord le plat
    [reach-of-target] une portion pèse d'un dixième de sa cible à { $first } fois plus ; vérifiez --units et les colonnes
    [target-and-tolerance] donnez une cible au-dessus de zéro et une --tolerance plus petite
    [portion-mass] une portion pèse plus que rien et au plus 100 kg ; vérifiez --units
    [local-time] écrivez une heure locale (2026-05-01 18:30:05) ou une avec son décalage (2026-05-01T18:30:05+02:00)
    [loss-here] écrivez trim (parage), cook (cuisson), press (pressage), spill (renversé) ou tasting (goûté)
    [latitude] écrivez des degrés de -90 à 90, comme 52.5
    [height] écrivez des mètres entiers de -500 à 9000, comme 40
    [class-weight] un poids d'une classe est de 1, 2, 5, 10, 20, 50 g et ainsi de suite jusqu'à 20 kg ; pour un autre, dites de combien il peut s'écarter : --within 20mg
    [weight-class] écrivez E2, F1, F2, M1, M2 ou M3
    [services] écrivez un nombre entier de 1 à 62
    [tin-number] écrivez le numéro que montre `evenhand tin list`
    [bought] écrivez tin (bac), fish (poisson), cut (pièce) ou batch (préparation)
    [leave-plate-out] ôtez-le : le poids et le coût sont ceux de ses portions
    [dish-or-name] donnez à un composant un plat ou un nom
    [served] écrivez ce qui en est servi, comme 120g
    [as-bought] écrivez ce qu'il coûte à l'achat, comme 2.40 EUR/kg
    [above-none-to-all] écrivez plus de 0% jusqu'à 100%
    [none-to-below-all] écrivez de 0% à moins de 100%
    [formula-file] écrivez name, how, limits, [[base]], [[other]] et [[stage]] comme une formule les a
    [base-hundred] ce dont les parts sont prises fait 100 pour cent en tout : les farines d'une pâte, étapes comprises
    [own-name] donnez à chacun son nom
    [scale-step] écrivez l'échelon que montre la balance, comme 1 g
    [lower-mark] goûtez-en une et notez-la, ou écrivez une note plus basse
    [one-or-more] écrivez un ou plusieurs de { $first }
   *[other] ne peut servir ({ $written })
}
input-refused = { $field } : { $value } { $problem } ; { $wanted }
input-unsaid = { $field } { $problem } ; { $wanted }
