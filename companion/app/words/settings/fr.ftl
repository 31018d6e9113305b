settings-open = Langue
settings-title = Quelle langue ?
settings-follows = Les écrans changent tout de suite. Ce qui est au registre reste tel quel.
settings-not-kept = Le choix n'a pas pu être gardé pour la prochaine fois dans { $path } : { $why }.
settings-no-thread = Le système ne donne aucun fil d'exécution : { $why }.
