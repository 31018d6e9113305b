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
