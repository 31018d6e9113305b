found-too-little = { $known } marca { $indicated }: { $error } de menos, con incertidumbre { $uncertainty } (k = 2). En servicio puede desviarse { $limit } (OIML R 76-1, 3.5.2).
found-too-much = { $known } marca { $indicated }: { $error } de más, con incertidumbre { $uncertainty } (k = 2). En servicio puede desviarse { $limit } (OIML R 76-1, 3.5.2).
found-pass = Correcta. { $found }
found-doubtful = No es seguro. { $found } Pruebe otra vez: la incertidumbre pasa del límite.
found-fail = No pasa. { $found } Calíbrela antes del servicio.
