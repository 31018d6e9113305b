settings-open = Idioma
settings-title = ¿En qué idioma?
settings-follows = Las pantallas cambian al momento. Lo registrado queda como se escribió.
settings-not-kept = La elección no se pudo guardar para la próxima vez en { $path }: { $why }.
settings-no-thread = El sistema no da ningún hilo: { $why }.
