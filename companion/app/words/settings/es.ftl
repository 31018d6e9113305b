settings-open = Idioma
settings-title = ¿En qué idioma?
settings-follows = Las pantallas cambian al momento. Lo registrado queda como se escribió.
settings-not-kept = La elección no se pudo guardar para la próxima vez en { $path }: { $why }.
settings-no-thread = El sistema no da ningún hilo: { $why }.

sound-title = Tonos en la mesa
sound-no-player = Este ordenador no emite tonos: no tiene ninguno de los reproductores pw-play, paplay y aplay.
sound-off = Nada
sound-low = Bajo
sound-middle = Medio
sound-loud = Alto
sound-taps = Golpecitos hacia el objetivo
sound-spoken = Decir cada ración
sound-no-speaker = Aquí no hay voz instalada
sound-captured = contada
sound-refused = no contada
sound-try = Probar el tono: { $tone }
