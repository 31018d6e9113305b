# What the record, or a file beside it, refuses, for a screen. $name is a file or what was asked for.
record-refused = { $code ->
    [moved] { $name } a été déplacé, remplacé ou effacé pendant que ce programme l'avait ouvert. Fermez le programme et rouvrez-le. La balance garde les nouvelles portions jusque-là.
    [newer] { $name } a été écrit par une version plus récente de ce programme. Rien n'a été changé. Installez la version plus récente.
    [damaged] { $name } est abîmé. Rien n'a été changé. Remettez une copie à sa place.
    [read-only] { $name } ne peut pas être écrit. Donnez à cet utilisateur le droit d'y écrire. Ce qui est noté reste intact.
    [full] Le disque est plein et plus rien ne peut être noté. Faites de la place. La balance garde les nouvelles portions jusque-là.
    [busy] Un autre programme écrit dans { $name }. Attendez et réessayez, ou fermez-le.
    [disk] { $name } n'a pas pu être lu ou écrit. Vérifiez le disque. Ce qui est noté reste intact.
    [not-there] { $name } n'est pas noté. Revenez et choisissez de nouveau.
    [none] Rien n'est encore noté ici.
    [input] { $name } ne peut pas servir. Écrivez-le de nouveau.
   *[other] Cela n'a pas pu être noté ou relu ({ $name }). Ce qui est noté reste intact. Réessayez.
}
# Why the system did not read or write a file.
record-why = { $code ->
    [not-there] il n'est pas là
    [denied] cet utilisateur n'en a pas le droit
    [full] le disque est plein
   *[other] le système dit { $number }
}
record-limits-unreadable = Le fichier { $file } ne peut pas être lu : { $why }. Rien n'est jugé tant que c'est ainsi.
record-limits-refused = Le fichier { $file } n'est pas compris. Rien n'est jugé tant qu'il n'est pas corrigé.
