found-too-little = { $known } indique { $indicated } : { $error } de moins, incertitude { $uncertainty } (k = 2). En service l'écart permis est { $limit } (OIML R 76-1, 3.5.2).
found-too-much = { $known } indique { $indicated } : { $error } de trop, incertitude { $uncertainty } (k = 2). En service l'écart permis est { $limit } (OIML R 76-1, 3.5.2).
found-pass = Bon. { $found }
found-doubtful = Pas certain. { $found } Réessayez : l'incertitude dépasse la limite.
found-fail = Refusé. { $found } Étalonnez-la avant le service.
also-try-portion = Essayez aussi { $mass } : à peu près la plus légère portion. Une balance peut être juste à mi-portée et fausse là.
also-try-heavy = Essayez aussi { $mass } : à peu près la mi-portée. On y voit si la pente a changé.
also-try-both = Essayez aussi { $portion }, à peu près la plus légère portion, et { $heavy }, à peu près la mi-portée.
