# Pourquoi une commande n'a pas pu être exécutée.
output-closed = la sortie s'est fermée
output-failed = impossible d'écrire sur la sortie : { $why }
period-reversed = --from n'est pas avant --to ; échangez-les
place-belongs-after = --port et --simulated vont après la commande : evenhand portion --port CHEMIN
no-passing-folder = aucun dossier de passage ne peut être créé : { $why }
answered-as-empty = Il n'y a pas de registre dans { $folder } : la réponse est donnée comme si rien n'était noté.
scale-simulated = La balance est simulée : ce qu'elle fait est gardé dans { $folder }, à lire avec --data.
no-serial-port = cet ordinateur n'a pas de port série à présent ; branchez la balance
no-screens = cette version n'a pas d'écrans ; utilisez une commande, que `evenhand help` montre
no-picture = cette version n'a pas d'écrans et ne dessine pas d'image
# Ce qui a été écrit.
needed = { $field } manque ; écrivez-le avec son unité, comme { $field } { $example }
goal-senseless = --target et --tolerance : { $why }
mode-needed = --adding ou --taking manque : ajoute-t-on dans un récipient vide ou prend-on dans un bac plein ?
unit-unknown = --unit : { $value } n'est pas une unité de masse ; écrivez g, kg, oz ou lb
scenario-unreadable = le scénario { $path } ne peut pas être lu : { $why }
scenario-refused = { $field } : { $why }
scenario-unknown = { $field } : { $why } ; écrivez le chemin d'un fichier, ou l'un de { $names }
# Fichiers écrits.
file-failed = { $field } : { $path } ne peut pas être écrit : { $why } ; rien n'a été changé
file-there = { $field } : { $path } existe déjà ; choisissez un autre nom, ou --force pour l'écraser
file-refused = { $field } : { $path } { $what ->
    [store] fait partie du registre
    [database] est une base de données, ou en fait partie
    [folder] est un dossier
   *[no-file] n'est pas un fichier ordinaire
} ; choisissez un autre nom ; rien n'a été changé
page-failed = la page ne peut pas être faite : { $why }
# Pourquoi le registre ne fait pas ce qui est demandé.
store-no-place = ce système n'indique aucun dossier pour les données ; dites lequel avec --data DIR
store-folder = le dossier de données { $path } ne peut pas servir : { $why } ; choisissez-en un autre avec --data DIR
store-none = il n'y a pas de registre dans { $folder } ; voyez si le dossier après --data est le bon : rien n'y a été créé
store-moved = { $path }, ou son journal, a été déplacé, remplacé ou effacé pendant que ce programme l'avait ouvert ; fermez le programme et rouvrez-le ; la balance garde les nouvelles portions jusque-là
store-after-restore = { $path } devait être remis en place et { $why } ; { $there ->
    [yes] ce qui s'y trouvait est dans { $aside }
   *[no] rien ne s'y trouvait avant
}
store-newer = { $path } a été écrit par une version plus récente de ce programme (format { $found }, celle-ci connaît jusqu'à { $known }) ; rien n'a été changé ; installez la version plus récente, ou choisissez un autre dossier avec --data DIR
store-not-ours = { $path } est la base de données d'un autre programme ; rien n'a été changé ; choisissez un autre dossier avec --data DIR
store-damaged = { $path } est abîmé ou n'est pas une base de données ({ $why }) ; rien n'a été changé ; remettez une copie à sa place, ou choisissez un autre dossier avec --data DIR
store-backup = { $path } ne peut pas servir de copie : { $why } ; rien n'a été changé
store-read-only = { $path } ne peut pas être écrit ; donnez à cet utilisateur le droit d'y écrire, ou choisissez un autre dossier avec --data DIR ; ce qui est noté reste intact
store-full = le disque est plein et plus rien ne peut être noté dans { $path } ; faites de la place ; ce qui est noté reste intact, et la balance garde les nouvelles portions jusque-là
store-busy = un autre programme écrit dans { $path } ; fermez-le, ou attendez et réessayez
store-made-up-night = ce qui est gardé ici est une soirée inventée ; elle n'est jamais réunie avec le registre d'une cuisine
store-gathering = un autre programme réunit ce registre en ce moment ; réessayez quand il aura fini
store-journal = { $path } ne peut pas être utilisé : { $why } ; ce qui est noté reste intact
store-disk = { $path } n'a pas pu être lu ou écrit ({ $why }) ; vérifiez le disque ; ce qui est noté reste intact
store-senseless = { $path } contient { $what ->
    [time] une heure
    [mode] un mode
    [goal] une cible
    [currency] une monnaie
   *[other] une valeur ({ $what })
} qui n'a pas de sens ; remettez une copie à sa place
store-sql = { $path } n'a pas pu servir comme demandé : { $why } (code { $code }) ; ce qui est noté reste intact ; `evenhand check` lit tout, et le code dit à ceux qui ont fait ce programme quoi chercher
why-parts = ses parties ne vont pas ensemble
why-begins = il ne commence pas comme il faut
why-part-of-store = il fait partie du registre lui-même ; choisissez-en un autre
why-store-itself = c'est le registre lui-même, non une copie
why-no-such-file = ce fichier n'existe pas
why-there-already = un fichier de ce nom existe déjà ; choisissez-en un autre
why-rule = ce qui devait être écrit enfreint une règle du registre
why-kind = une valeur est d'un autre genre que celles du registre
why-too-large = une valeur est trop grande pour être gardée
why-memory = cet ordinateur n'a plus de mémoire pour cela
why-interrupted = cela a été interrompu avant la fin
why-disk = le disque où il se trouve ne peut pas garder un registre ; choisissez un dossier de cet ordinateur
why-lacks = il lui manque une partie que ce programme cherche
why-figure = un chiffre est d'un autre genre que ceux que ce programme écrit
# Ce qui n'est pas noté.
unknown-dish = le plat { $name } n'existe pas ; { $any ->
    [none] aucun n'est encore noté ; ajoutez-en un avec `evenhand dish add`
   *[some] les plats connus sont { $known }
}
unknown-vessel = le récipient { $name } n'existe pas ; { $any ->
    [none] aucun n'est encore noté ; remplissez-en un avec `evenhand brine vessel fill`
   *[some] les récipients connus sont { $known }
}
unknown-heat-log = le relevé de température { $name } n'existe pas ; { $any ->
    [none] aucun n'est encore noté ; `evenhand heat watch` en commence un
   *[some] les relevés connus sont { $known }
}
unknown-tin = le bac { $tin } n'existe pas ; voyez-les avec `evenhand tin list`
tin-of-other-dish = le bac { $tin } contient { $holds }, non { $asked } ; ouvrez ou choisissez un bac de { $asked }
name-taken = il y a déjà un plat { $name } ; choisissez un autre nom
orders-reversed = le dernier bon du { $day } serait avant le premier ; redonnez les deux heures, celle du premier bon d'abord
unknown-yield-line = la ligne { $line } d'un rendement à écarter n'existe pas ; voyez-les avec `evenhand yield show`
unknown-picture = l'image { $picture } à retirer n'existe pas ; voyez-les avec `evenhand formula pictures`
unknown-batch = la préparation { $batch } n'existe pas ; voyez-les avec `evenhand batch list`
heat-overlaps = une autre mesure de ce relevé est notée à { $at }, dans l'intervalle à ajouter ; gardez les deux sous des noms différents
unknown-heat-correction = aucune correction { $number } n'est en vigueur ; `evenhand heat log --name NAME --json` les montre
unknown-portion = la portion { $portion } n'est pas notée ; `evenhand export` les montre avec leur identifiant
struck-already = la portion { $portion } est déjà écartée
not-struck = la portion { $portion } n'est pas écartée
unknown-order = la commande { $number } n'est pas notée ; `evenhand prep orders` les montre
order-is-so = la commande { $number } est déjà { $is ->
    [taken-back] retirée
   *[put-down] notée
}
nothing-to-undo = il n'y a aucune portion à annuler
log-backward = l'heure { $at } revient avant { $before } : les heures doivent seulement avancer
log-twice = l'heure { $at } s'y trouve deux fois avec des températures différentes
log-absurd = { $celsius } °C à { $at } est hors de -100 à 1400 °C, qu'aucune sonde de cuisine ne mesure
typed = { $why }
