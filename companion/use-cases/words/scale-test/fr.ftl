found-too-little = { $known } indique { $indicated } : { $error } de moins, incertitude { $uncertainty } (k = 2). En service l'écart permis est { $limit } (OIML R 76-1, 3.5.2).
found-too-much = { $known } indique { $indicated } : { $error } de trop, incertitude { $uncertainty } (k = 2). En service l'écart permis est { $limit } (OIML R 76-1, 3.5.2).
found-pass = Bon. { $found }
found-doubtful = Pas certain. { $found } Réessayez : l'incertitude dépasse la limite.
found-fail = Refusé. { $found } Étalonnez-la avant le service.
