scale-title = ¿Dónde está la báscula?
scale-look-again = Buscar otra vez
scale-no-port = Este ordenador no tiene ahora ningún puerto serie. Enchufe la báscula, enciéndala y busque otra vez.
scale-simulated = O pruebe con una mesa simulada:

weights-try = Probarla con pesas
weights-calibrate = Calibrar
weights-title-try = Probar la báscula con pesas conocidas
weights-title-calibrate = Calibrar la báscula
weights-begin = Empezar
weights-which-try = ¿Qué pesas tiene? Una cerca de media capacidad, una cerca de una porción.
weights-which-calibrate = ¿Qué pesas tiene? Una cerca del máximo y otra cerca de la mitad.
weights-class = Su clase (OIML R 111-1), grabada en ellas o en su caja:
weights-run-going-on = Hay una tanda en marcha: termínela antes.
weights-wait = Espere: aún se mueve
weights-empty = Está vacía
weights-on = Está puesta
weights-give-up = Dejarlo
weights-step = Paso { $step } de { $steps }
weights-put-on = Ponga { $mass }
weights-empty-pan = Vacíe la báscula
weights-nothing-on = Nada en la bandeja y nada apoyado en ella.
weights-in-the-middle = En el centro de la bandeja y nada más. Sin tocar.
weights-again = Otra vez
weights-kept-old = La báscula mantiene su calibración anterior.

calibration-made = Calibrada con { $points } puntos. A { $heaviest } su incertidumbre es { $uncertainty }.
