# Ce que la balance attend.
prompt-weighing = Pesée
prompt-await-dish = Posez un récipient vide
prompt-dish-settling = Ne touchez pas : tare du récipient
prompt-filling = Remplissez, puis retirez le récipient
prompt-await-tin = Posez le bac
prompt-tin-settling = Ne touchez pas : pesée du bac
prompt-ready = Prenez une portion
prompt-spooning = Ne touchez pas : pesée de la prise
prompt-tin-away = Reposez le bac
prompt-blocked = Pesée impossible
prompt-unknown = Pesée ; ce programme est plus ancien que la balance

# Ce qui vient de se passer.
notice-run-started = La série a commencé.
notice-run-stopped = La série est terminée.
notice-dish-tared = Le récipient pèse { $mass } ; son poids est déduit.
notice-dish-returned = Le récipient { $number } est revenu et était déjà compté ; le retirer le corrige et n'en compte pas d'autre.
notice-lifted-unsettled = Le récipient est parti avant la pesée stable et n'est pas compté ; reposez-le pour le compter.
notice-lifted-empty = Le récipient est parti vide ; rien n'est compté.
notice-refilled = Le bac a été rempli de { $mass }.
notice-tin-away = Le bac n'est plus sur la balance.
notice-tin-back-lighter = Le bac est revenu avec { $mass } de moins.
notice-tin-back-heavier = Le bac est revenu avec { $mass } de plus.
notice-unaccounted = { $mass } ont quitté le bac d'un coup, ce n'est pas une portion ; rien n'est compté.
notice-filled-while-taken = Le bac a gagné { $mass } pendant la prise ; ce qui a été pris pendant ce temps n'est pas compté.
notice-zeroed = La balance s'est mise à zéro.
notice-found-on-pan = La balance a manqué de courant et porte { $mass } : ce n'est pas compté. Videz la balance et recommencez cette portion.
notice-recalled =
    { $portions ->
        [one] La balance a renvoyé la seule portion qu’elle gardait encore.
       *[other] La balance a renvoyé les { $portions } portions qu’elle gardait encore.
    }
notice-unknown = La balance a dit une chose que ce programme, trop ancien, ne connaît pas.

# Pourquoi le poids d'une portion peut être faux.
doubt-maybe-two = Il en a été pris tant d'un coup que ce sont peut-être deux portions.
doubt-straddles-limit = L'incertitude dépasse une limite ; le verdict peut être l'un ou l'autre.
doubt-taken-off-pan = Elle a été prise alors que le bac n'était pas sur la balance.
doubt-hasty = Elle a été pesée dans un moment de calme trop court.
doubt-touched = Le poids a changé tout seul, comme si quelque chose touchait le plateau.
doubt-maybe-changed = Quelque chose est venu ou parti ensuite, qui en fait partie ou non.
doubt-unknown = La balance en doute pour une raison que ce programme, trop ancien, ne connaît pas.

# Pannes : ce qui se passe et ce qu'il faut faire.
fault-bridge-timeout = La balance ne répond plus.
fault-bridge-high-rail = Le capteur de charge est en butée haute.
fault-bridge-low-rail = Le capteur de charge est en butée basse.
fault-bridge-frozen = Le capteur de charge répète une valeur et ne bouge plus.
fault-bridge-out-of-step = Les mesures du capteur de charge ont perdu le pas.
fault-overload = Il y a trop de poids sur le plateau.
fault-negative-load = Le plateau est plus léger que son zéro.
fault-zero-out-of-range = Le plateau vide est trop loin de zéro.
fault-uncalibrated = Cette balance n'est pas étalonnée.
fault-probe-open = La sonde est débranchée ou cassée.
fault-probe-short-to-ground = La sonde est en court-circuit à la masse.
fault-probe-short-to-supply = La sonde est en court-circuit avec l'alimentation.
fault-probe-silent = Le capteur de température ne répond pas.
fault-probe-out-of-range = La sonde est hors de ce qu'elle peut mesurer.
fault-portions-lost = Des portions sont perdues : il y en a eu plus qu'il n'en pouvait être gardé.
fault-storage-failed = La balance ne peut ni lire ni garder ses réglages.
fault-too-noisy = Le signal de la balance est trop instable pour compter.
fault-restless = Le poids ne se stabilise pas.
fault-unknown = La balance signale une panne que ce programme, trop ancien, ne connaît pas : regardez la balance.

remedy-bridge-timeout = Débranchez la balance, comptez jusqu'à cinq, rebranchez ; si cela reste, vérifiez le câble du capteur.
remedy-bridge-rail = Enlevez tout du plateau ; si cela reste, vérifiez le câble du capteur de charge.
remedy-bridge-frozen = Débranchez la balance et rebranchez-la.
remedy-bridge-out-of-step = Elle redémarre seule et pèse encore ; si cela revient, cherchez un fil desserré ou une pompe proche.
remedy-overload = Enlevez-en.
remedy-negative-load = Enlevez ce qui soulève le plateau ou s'y appuie, puis mettez la balance vide à zéro.
remedy-zero-out-of-range = Videz et essuyez le plateau, regardez dessous, puis zéro ; si cela reste, étalonnez.
remedy-uncalibrated = Étalonnez-la avec deux poids connus avant de vous y fier.
remedy-probe-open = Branchez la sonde ; la pesée continue sans elle.
remedy-probe-short = Séchez la fiche et cherchez un câble écrasé ; la pesée continue sans elle.
remedy-probe-silent = La pesée continue sans elle ; vérifiez le câble de la carte du capteur.
remedy-probe-out-of-range = Laissez la sonde revenir dans sa plage, ou changez-la.
remedy-portions-lost = Laissez le câble branché et comptez les portions à la main avec la liste.
remedy-storage-failed = La pesée continue, mais une coupure de courant efface les réglages.
remedy-too-noisy = Éloignez de ses fils téléphones et plaques ; si cela reste, prenez un capteur plus petit ou plus de tension.
remedy-restless = Lâchez le plateau ; si cela reste, quelque chose le touche ou la table bouge : rien n'est compté d'ici là.

# L'état de la liaison et ce qu'il faut faire.
link-none-chosen = Aucune balance n'est choisie.
link-no-port = Le port { $port } n'existe pas.
link-not-allowed = Cet utilisateur ne peut pas ouvrir { $port }.
link-busy = Un autre programme utilise { $port }.
link-port-failed = { $port } est inutilisable : { $why }.
link-calling = Appel de la balance sur { $port }.
link-silent = Rien ne répond sur { $port }.
link-not-ours = Quelque chose répond sur { $port }, mais ce n'est pas un instrument Evenhand.
link-other-version = La balance sur { $port } parle la version { $theirs } de la liaison, ce programme la { $ours }.
link-desktop-at-other-end = Ce qui vient de { $port } est ce qu'envoie un ordinateur, ou son écho.
link-linked = La balance est reliée sur { $port }.
link-other-instrument = Une autre balance répond sur { $port } : c'est { $found }, la précédente était { $known }.
link-lost = La balance sur { $port } a disparu.
link-scenario-over = Le poste simulé est arrivé à sa fin.
link-no-bench = Le poste simulé ne peut pas être monté : { $why }.

link-none-chosen-do = Choisissez le port de la balance ou le poste simulé.
link-no-port-do = Branchez et allumez la balance, ou choisissez un autre port.
link-not-allowed-do = Ajoutez cet utilisateur au groupe du port (souvent « dialout »), puis reconnectez-vous.
link-busy-do = Fermez l'autre programme.
link-port-failed-do = Débranchez la balance et rebranchez-la, ou choisissez un autre port.
link-calling-do = Attendez un instant.
link-silent-do = Vérifiez que la balance est allumée et que c'est bien son port.
link-not-ours-do = Choisissez un autre port : celui-ci est à autre chose.
link-other-version-newer-do = Installez une version plus récente de ce programme.
link-other-version-older-do = Mettez à jour le micrologiciel de la balance.
link-desktop-at-other-end-do = Choisissez le port où se trouve la balance.
link-other-instrument-do = Rebranchez la première ; ou, pour continuer avec celle-ci, choisissez de nouveau son port ou redémarrez. D'ici là rien n'en est pris, et elle garde ce qu'elle a compté.
link-lost-do = Rebranchez son câble. La balance garde ce qu'elle compte et l'envoie ensuite.
link-scenario-over-do = Recommencez, ou choisissez une autre situation.
link-no-bench-do = Vérifiez le fichier de la situation.
link-looked-for-again = La recherche continue seule.
link-called-again = L'appel continue seul.

# Ce qui ne va pas du côté de l'ordinateur.
trouble-too-fast = Les portions arrivent plus vite que personne ne les fait : la balance a un problème, et le reste y attend.
trouble-scale = La balance a un problème : { $why }.
trouble-store = Les portions ne peuvent pas être enregistrées : { $why }.
trouble-clock-back = L'horloge de cet ordinateur a été reculée de { $by }. Les portions gardent leur ordre ; les heures d'avant et d'après peuvent se chevaucher.

portion-clash = la balance a envoyé deux portions différentes sous un même numéro ; la première compte
portion-senseless-goal = la balance a envoyé une portion dont la cible n'a pas de sens
portion-senseless-correction = la balance a envoyé la correction d'une portion qu'elle ne peut pas corriger
portion-beyond-capacity = la balance a envoyé une portion au-delà de ce qu'elle peut peser
portion-senseless-uncertainty = la balance a envoyé une portion dont l'incertitude n'a pas de sens
portion-senseless-temperature = la balance a envoyé une portion dont la température n'a pas de sens
portion-other-instrument = la balance a envoyé une portion pesée par une autre balance

# Pourquoi la demande n'a pas été faite.
not-done-no-run = Aucune série n'est en cours.
not-done-store = { $why }.
not-done-refused = La balance ne l'a pas fait : { $why }.
not-done-no-reply = La balance ne répond pas : redemandez, ou débranchez-la et rebranchez-la.
not-done-link-lost = La liaison s'est coupée avant la réponse : redemandez quand elle revient.
not-done-too-many = Trop de demandes à la fois : attendez un instant.

refusal-not-stable = le poids bougeait ; attendez qu'il soit stable et redemandez
refusal-beyond-zero-range = il y a trop de poids pour en faire le zéro ; videz le plateau, ou tarez
refusal-negative-tare = le poids est sous zéro ; videz le plateau et mettez à zéro
refusal-faulty = une panne empêche la balance de peser
refusal-no-run = aucune série n'est en cours
refusal-unknown = cette balance ne connaît pas cet ordre ; elle est plus ancienne que le programme ou faite sans
refusal-running = une série est en cours ; terminez-la d'abord
refusal-not-calibrating = aucun étalonnage n'est en cours ; commencez-en un d'abord
refusal-setting = le lieu n'est pas sur terre : latitude de -90 à 90 degrés, altitude de -500 à 9000 m

goal-target-not-positive = la cible doit être au-dessus de zéro
goal-tolerance-negative = une tolérance ne peut pas être négative
goal-tolerance-swallows-target = la tolérance en dessous doit être plus petite que la cible, sinon un récipient vide serait au poids
goal-beyond-capacity = la cible et sa tolérance dépassent ce que cette balance peut peser

calibration-too-few-points = un étalonnage demande le plateau vide et au moins un poids connu
calibration-too-many-points = un étalonnage prend seize points au plus
calibration-no-zero = le plateau vide manque parmi les points d'étalonnage
calibration-negative-load = un poids d'étalonnage ne peut pas être sous zéro
calibration-not-a-number = un point d'étalonnage contient un nombre qui n'est pas fini
calibration-no-span = la mesure a à peine changé entre deux poids ; vérifiez que le poids était posé et que le capteur de charge est branché
calibration-not-straight = les poids ne vont pas ensemble ; vérifiez que chacun était celui indiqué et que rien ne touche le plateau

test-not-stable = le poids bougeait ; attendez qu'il soit stable et redemandez
test-too-light = le poids est trop léger pour essayer cette balance ; prenez-en un plus lourd
test-too-heavy = le poids est plus lourd que ce que cette balance peut peser
test-too-coarse = le poids n'est pas assez exact pour cette balance ; prenez une meilleure classe
test-another-load = ce qui est sur le plateau n'est pas ce poids ; mettez le plateau vide à zéro, posez seulement le poids et redemandez
