settings-open = Langue
settings-title = Quelle langue ?
settings-follows = Les écrans changent tout de suite. Ce qui est au registre reste tel quel.
settings-not-kept = Le choix n'a pas pu être gardé pour la prochaine fois dans { $path } : { $why }.
settings-no-thread = Le système ne donne aucun fil d'exécution : { $why }.

sound-title = Sons au poste
sound-no-player = Cet ordinateur ne joue aucun son : il n'a aucun des lecteurs pw-play, paplay et aplay.
sound-off = Aucun
sound-low = Faible
sound-middle = Moyen
sound-loud = Fort
sound-taps = Tapotements vers la cible
sound-spoken = Dire chaque portion
sound-no-speaker = Aucune voix n'est installée ici
sound-captured = comptée
sound-refused = non comptée
sound-try = Essayer le son : { $tone }

# Ce qui est gardé, ses copies, comment chiffres et heures sont dits.
kept-open = Données, sauvegarde
kept-title = Ce qui est gardé
kept-what = Chaque pesée avec son heure et son plat, les relevés de la sonde, les préparations, les menus, et le nom du cuisinier s'il a été dit. C'est dans { $folder }.
kept-who = Rien n'est envoyé nulle part. Qui utilise cet ordinateur sous ce compte voit tout ; les autres comptes ne voient rien du registre.
kept-copies = Sauvegarde
kept-back-up = Sauvegarder
kept-back-up-into = Sauvegarder maintenant dans { $folder }
kept-on-drive = Sur un disque à part : { $folder }
kept-on-this-computer = Sur cet ordinateur, perdu avec lui : { $folder }
kept-last = Dernière sauvegarde : { $at }. Elle a été relue en entier en la faisant.
kept-none-yet = Aucune sauvegarde ne s'y trouve encore.
kept-busy = La sauvegarde est en train d'être faite et relue.
kept-backed-up = Sauvegardé et relu, { $count ->
    [one] une portion
   *[other] { $count } portions
} : { $path }
kept-backed-up-findings = Sauvegardé dans { $path }, mais un regard sur chaque ligne a trouvé que quelque chose ne concorde pas dans le registre même.
kept-not-backed-up = Pas sauvegardé dans { $path } : { $why }
kept-told = Chiffres et heures
kept-figures = Chiffres selon la langue : { $example }
kept-zone = Heures selon le fuseau horaire de cet ordinateur : { $zone }
