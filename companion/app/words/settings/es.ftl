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

# Lo que se guarda, sus copias, cómo se dicen cifras y horas.
kept-open = Lo guardado, copias
kept-title = Lo que se guarda
kept-what = Cada pesada con su hora y su plato, lecturas de la sonda, elaboraciones, menús y el nombre del cocinero si se dijo. Está en { $folder }.
kept-who = No se envía nada a ninguna parte. Quien usa este ordenador con esta cuenta lo ve todo; otras cuentas no ven nada del registro.
kept-copies = Copia de seguridad
kept-back-up = Hacer copia
kept-back-up-into = Hacer ahora una copia en { $folder }
kept-on-drive = En una unidad aparte: { $folder }
kept-on-this-computer = En este ordenador, se pierde con él: { $folder }
kept-last = Última copia: { $at }. Se releyó entera al hacerla.
kept-none-yet = Ahí no hay todavía ninguna copia.
kept-busy = Se está haciendo y releyendo la copia.
kept-backed-up = Copiado y releído, { $count ->
    [one] una ración
   *[other] { $count } raciones
}: { $path }
kept-backed-up-findings = Copiado en { $path }, pero al mirar cada fila algo no concuerda en el propio registro.
kept-not-backed-up = No se copió en { $path }: { $why }
kept-told = Cifras y horas
kept-figures = Cifras según el idioma: { $example }
kept-zone = Horas según la zona horaria de este ordenador: { $zone }
