# Copies du registre, relecture de chaque ligne, tables qui entrent et sortent, la soirée inventée.
backup-database = FILE : { $path } est une base de données, ou en fait partie ; choisissez un autre nom
backup-written = { $count ->
    [one] { $count } portion écrite dans { $path } et relue
   *[other] { $count } portions écrites dans { $path } et relues
}, ligne par ligne.
restore-done = { $count ->
    [one] { $count } portion remise depuis { $path } et relue
   *[other] { $count } portions remises depuis { $path } et relues
}, ligne par ligne.
restore-aside = Ce qui s'y trouvait avant est dans { $path }.
check-sound = { $path } est intact : { $count ->
    [one] { $count } portion lue, telle qu'elle fut écrite
   *[other] { $count } portions lues, chacune telle qu'elle fut écrite
}.
check-not-sound = { $path } n'est pas tel qu'il fut écrit ; remettez une copie avec `evenhand restore FILE`, qui garde celui-ci à côté
check-nothing-found = Aucun numéro ne manque et aucune ligne n'a été changée.
chain-none = La balance { $scale } n'enchaîne pas ses portions : si l'une a été changée avec sa somme de contrôle n'est pas connu. Un instrument dont le programme les enchaîne le dirait.
chain-linked = Balance { $scale } : { $count ->
    [one] { $count } portion
   *[other] { $count } portions
} dans sa chaîne{ $agrees ->
    [yes] , et aucune ne contredit la précédente
   *[no] ; ce qui ne concorde pas est nommé plus haut
}.
chain-unlinked = { $linked } De { $count ->
    [one] { $count } portion
   *[other] { $count } portions
} hors de la chaîne, on ne sait pas si l'une a été changée avec sa somme de contrôle.
found-structure = la structure du fichier est abîmée ({ $why })
found-orphan = une ligne de { $table } appartient à une autre qui n'est pas là
found-portion-changed = la portion { $id } ne se lit pas comme elle fut écrite
found-strike-changed = une mise à l'écart de la portion { $id } ne se lit pas comme elle fut écrite
found-not-as-made = la portion { $id } n'est pas telle que la balance l'a faite, d'après ce que la suivante, { $next }, en porte
found-unlinked = la portion { $id } ne porte rien de la précédente, comme celles d'avant le font
found-misplaced = la portion { $id } est à une mauvaise place dans la chaîne de sa balance
found-missing-before = { $count ->
    [one] { $count } portion faite avant la portion { $id } n'est pas là
   *[other] { $count } portions faites avant la portion { $id } ne sont pas là
} : perdues, ou notées sur un autre ordinateur ou par un programme plus ancien
found-given-up = la balance elle-même n'avait pas de place pour { $count ->
    [one] { $count } portion faite
   *[other] { $count } portions faites
} avant la portion { $id }
found-begun-again = la balance a recommencé sa chaîne avec la portion { $id } : sa mémoire a été perdue, ou n'a pas pu être lue
found-begun-again-often = la balance a recommencé sa chaîne avec la portion { $id }, et { $times } fois avant : sa mémoire a été perdue, ou n'a pas pu être lue
found-forked = les portions { $one } et { $other } suivent toutes deux la portion { $id } : la mémoire de la balance n'a pas pu garder la première, ou elle n'est pas de cette balance
found-missing-one = la portion { $id } n'est pas là : perdue, ou notée sur un autre ordinateur
found-missing-some = les portions { $first } à { $last } ne sont pas là : perdues, ou notées sur un autre ordinateur
found-senseless-correction = la portion { $id } est liée à une qu'elle ne peut pas corriger
found-picture-changed = l'image { $id } ne se lit pas comme elle fut écrite
found-wrong-sum = la somme gardée de { $dish } pour les 32 jours à partir du { $from } n'est pas celle des portions
found-wrong-sum-elsewhere = la somme gardée des séries commencées ailleurs pour les 32 jours à partir du { $from } n'est pas celle des portions
export-written = { $count ->
    [one] { $count } portion écrite
   *[other] { $count } portions écrites
} dans { $path }.
import-unread = FILE : { $file } ne peut pas être lu : { $why }
import-refused = FILE : { $file } : { $why }
import-done = { $count ->
    [one] { $count } portion ajoutée
   *[other] { $count } portions ajoutées
}, { $already } déjà notées.
import-bad-lines = FILE : { $count ->
    [one] { $count } ligne sur { $all } ne peut pas servir
   *[other] { $count } lignes sur { $all } ne peuvent pas servir
}, rien n'a donc été pris{ $lines }
import-bad-line = ligne { $line } : { $why }
import-line-refused = { $reason ->
    [too-long] a plus de { $values } octets ; écrivez chaque rangée sur une ligne
    [not-utf8] n'est pas du texte UTF-8 ; enregistrez la table en UTF-8
    [never-closed] a un guillemet qui ne se ferme jamais, ou une valeur sur deux lignes ; écrivez chaque rangée sur une ligne
    [too-many] a { $values } valeurs et la table a { $headings } en-têtes, elles seraient donc dans de mauvaises colonnes ; mettez entre guillemets une valeur qui contient un séparateur, comme "30,1"
   *[no-row] ne peut pas être lue comme rangée d'une table
}
import-file-refused = { $reason ->
    [table] le fichier ne peut pas être lu comme table : { $what }
    [not-utf8] le fichier est en UTF-16 ; enregistrez la table en UTF-8
    [read] le fichier ne peut pas être lu : { $what }
    [no-heading] il n'y a pas d'en-tête { $what } ; le fichier a { $there }
   *[two-headings] deux colonnes ont l'en-tête { $what } ; renommez l'une d'elles
}
import-more = et { $count } de plus
import-odd = { $count ->
    [one] { $count } poids loin
   *[other] { $count } poids loin
} des autres du même plat :
import-odd-line = ligne { $line } : { $words }, { $deviations } écarts types { $side ->
    [below] en dessous
   *[above] au-dessus
}
import-not-compared = { $count } poids de plats au-delà des mille premiers : s'ils sont loin des autres n'est pas connu.
import-would = { $count ->
    [one] { $count } portion serait prise
   *[other] { $count } portions seraient prises
} ; rien ne l'a été.
import-weighing = { $mass } sur { $target }
read-as = Lu avec { $separator ->
    [comma] une virgule
    [semicolon] un point-virgule
   *[tab] une tabulation
} entre les valeurs{ $commas }{ $mark ->
    [yes] , après une marque d'ordre des octets
   *[no] {""}
}.
read-as-commas = , { $count ->
    [one] { $count } { $what ->
        [weight] poids
       *[number] nombre
    }
   *[other] { $count } { $what ->
        [weight] poids
       *[number] nombres
    }
} avec virgule décimale
demo-not-empty = le dossier contient déjà des portions, et une soirée inventée n'a rien à y faire ; choisissez-en un vide avec --data DIR
demo-senseless = la soirée inventée ne tient pas debout : { $why }
demo-made = Une soirée inventée à Saltmarsh, { $night }, dix services d'avant et le lendemain jusqu'à maintenant : { $count ->
    [one] { $count } portion
   *[other] { $count } portions
}, dans { $folder }.
demo-there = La soirée inventée du { $night } est déjà dans { $folder }.
demo-look = À voir avec : evenhand service show --data "{ $folder }"
simulate-flash = --flash : { $why }
simulate-truth = --truth : { $path } ne peut pas être écrit : { $why }
simulate-no-terminal = aucun pseudo-terminal ne peut être ouvert : { $why }
simulate-failed = le poste simulé a failli : { $why }
gather-done = { $others ->
    [0] Aucun autre ordinateur n'a encore rien transmis
    [one] { $others } journal d'un autre ordinateur
   *[other] { $others } journaux d'autres ordinateurs
} : { $taken } lignes reprises, { $told } transmises.
gather-not-whole = { $file } n'est pas encore entier : ce qui manque sera repris la prochaine fois.
gather-newer = { $file } vient d'une version plus récente de ce programme et n'a pas été lu ; installez cette version ici.
gather-waiting = { $count ->
    [one] { $count } ligne parle de quelque chose qui n'est pas encore arrivé ; elle est gardée
   *[other] { $count } lignes parlent de quelque chose qui n'est pas encore arrivé ; elles sont gardées
} jusque-là.
gather-clashes = { $count ->
    [one] { $count } ligne est arrivée sous l'identité d'une autre ; les deux sont gardées, et celle qui était ici compte ici
   *[other] { $count } lignes sont arrivées sous l'identité d'autres ; toutes sont gardées, et celles qui étaient ici comptent ici
} : `evenhand gather --overruled` en donne la liste.
gather-set-aside = Préparation { $batch } : { $count ->
    [one] { $count } ligne n'a pas de sens à côté de ce qu'un autre ordinateur a ajouté en même temps, et ne compte pas ; elle reste notée
   *[other] { $count } lignes n'ont pas de sens à côté de ce qu'un autre ordinateur a ajouté en même temps, et ne comptent pas ; elles restent notées
} quand même. Relisez cette préparation.
gather-renumbered = Ce registre a été copié ou remis depuis une copie : cet ordinateur a un nouveau numéro et un nouveau journal.
gather-file-written = { $file } a été changé sur un autre ordinateur et est écrit ici.
gather-none-overruled = Jamais deux ordinateurs n'ont dit des choses différentes.
gather-overruled = { $kind ->
    [setting] Le réglage { $key }
    [dish] Le nom du plat qui fut d'abord { $key }
    [plain_file] Le fichier { $key }
    [prep_menu] Un menu { $key }
    [goods_list] Une liste de marchandises
    [service-first_order] La première commande du { $key }
    [service-last_order] La dernière commande du { $key }
    [heat_reading] Un relevé de { $key }
    [portion] La portion { $key }
   *[other] { $kind } { $key }
} : ce que l'ordinateur { $desk } a dit à { $at } ne compte pas, puisqu'une autre version compte. C'est gardé : `evenhand gather --overruled`.
gather-file = { $path } ne peut pas être utilisé : { $why }
