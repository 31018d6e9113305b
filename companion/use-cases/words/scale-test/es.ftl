found-too-little = { $known } marca { $indicated }: { $error } de menos, con incertidumbre { $uncertainty } (k = 2). En servicio puede desviarse { $limit } (OIML R 76-1, 3.5.2).
found-too-much = { $known } marca { $indicated }: { $error } de más, con incertidumbre { $uncertainty } (k = 2). En servicio puede desviarse { $limit } (OIML R 76-1, 3.5.2).
found-pass = Correcta. { $found }
found-doubtful = No es seguro. { $found } Pruebe otra vez: la incertidumbre pasa del límite.
found-fail = No pasa. { $found } Calíbrela antes del servicio.
also-try-portion = Pruebe también { $mass }: más o menos la porción más ligera. Una báscula puede estar bien a media capacidad y mal ahí.
also-try-heavy = Pruebe también { $mass }: más o menos media capacidad. Muestra si la pendiente ha cambiado.
also-try-both = Pruebe también { $portion }, más o menos la porción más ligera, y { $heavy }, más o menos media capacidad.
