link-unplugged = Aucune balance n'est reliée. Branchez son câble à cet ordinateur.
link-quiet = La balance ne dit plus rien. Vérifiez son alimentation et que son câble tient bien.
link-first-reading = La balance est reliée ; sa première mesure arrive.
scale-busy = La balance est encore occupée. Réessayez dans un instant.
scale-not-chosen = Aucune balance n'est choisie. Dites d'abord où elle est.

mass-no-reading = Pas de mesure
mass-cannot-weigh = Pesée impossible
mass-in-the-dish = Dans le récipient
mass-taken-out = Prélevé
mass-on-the-pan = Sur le plateau
mass-net = Net
mass-steady = stable
mass-moving = bouge
mass-spoken-unknown = Poids inconnu
mass-spoken = { $mass } grammes
mass-spoken-verdict = { $mass } grammes, { $verdict }

prompt-add = Ajoutez
prompt-take-out = Enlevez-en un peu
prompt-lift-off = Retirez le récipient
prompt-hands-off = Ne touchez pas

probe-unplugged = débranchée
probe-shorted = en court-circuit
probe-no-answer = muette
probe-out-of-range = hors plage

run-begun-elsewhere = Une série commencée ailleurs
run-count = Portions
run-mean = Moyenne
run-spread = Écart type
run-today = Aujourd'hui
run-today-spread = écart type { $mass }
run-in-doubt = Douteuses
run-in-doubt-of = { $doubted } sur { $count }
run-with-all = avec toutes { $mass }
run-today-doubted = { $doubted } douteuses ; sans elles, écart type { $mass }
tin-left = Reste dans le bac
tin-and-food = Bac et contenu
tin-portions-between = { $fewest } à { $most } portions
idle-start = Portionner tout de suite
idle-last-run = Dernière série, { $dish } : { $figures }.
idle-today = Aujourd'hui : { $figures }.
idle-today-doubted = Aujourd'hui : { $doubted } sur { $figures } douteuses.
idle-none = Pas encore de portion aujourd'hui.
figures-mean = { $portions }, moyenne { $mean }
figures-mean-spread = { $portions }, moyenne { $mean }, écart type { $spread }
figures-in-doubt = { $doubted } sur { $portions } douteuses ; sans elles moyenne { $mean }, écart type { $spread } ; avec elles { $all }, { $allspread }

button-undo-last = Annuler
button-strike-out = Écarter
button-change-goal = Cible
button-stop-run = Terminer
button-choose-dish = Choisir un plat
button-find-scale = Trouver la balance
button-tare-off = Sans tare
button-tare = Tare
button-zero = Zéro

last-portion = Dernière, n° { $number } : { $verdict }
approach-nothing = Vers { $goal }, encore rien
approach = Vers { $goal } : { $verdict }, { $distance }
strip-first = La première portion viendra ici
strip-summary = Portions dans l'ordre : { $on } au poids, { $short } en manque, { $heavy } en trop, { $struck } écartées

melt-seconds = { $seconds } s
melt-minutes = { $minutes } min
melt-left = reste { $time }
melt-over = dépassé de { $time }
melt-out = Hors du froid
melt-back = Retour au froid
melt-spoken = Hors du froid { $out }, { $stands }. C'est rentré ?
melt-rate = { $rate } ± { $within }/min
melt-losing = Sur le plateau : { $lost } perdus jusqu'ici, { $rate } ± { $within } par minute.
