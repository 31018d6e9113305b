# Salmuera: fuerzas, conocer una por su peso, corregirla.
brine-ice-below = Se hiela por debajo de { $at }.
brine-salt-below = La sal precipita por debajo de { $at }.
brine-of-water = { $percent } % del agua
brine-of-solution = { $percent } % del total
brine-there-already = Ya está.
brine-add-salt = Disuelva { $mass } de sal; da { $makes }.
brine-add-water = Añada { $mass } de agua; da { $makes }.
brine-replace-with-salt = Saque { $mass } y disuelva { $mass } de sal.
brine-replace-with-water = Saque { $mass } y añada { $mass } de agua.

brine-told-of-solution = { $percent } % de toda la salmuera, con un margen de { $within }
brine-told-of-water = { $percent } % del agua, con un margen de { $within }
brine-doubt = La mayor duda viene de: { $of } (k = 2, JCGM 100); el recipiente crece { $middle } ± { $half } ppm por °C en volumen.
brine-doubt-of = { $of ->
    [net-mass] peso neto
    [vessel] recipiente
    [level] nivel de llenado
    [temperature] temperatura
    [sugar] azúcar
    [sugar-model] modelo del azúcar
    [tables] tablas de densidad
    [expansion] dilatación del recipiente
   *[nothing] nada
}
brine-sugared = Con { $percent } % de azúcar en el total: { $source }.

brine-sugar-unsaid = Falta decir el azúcar, y la densidad de una salmuera con algo más que sal no dice nada de la sal. Diga qué % de la salmuera es azúcar, o 0 si solo lleva sal disuelta: ni azúcar, ni jarabe, ni fosfato, ni agente de curado.
brine-sugar-unknown = Con una cantidad de azúcar desconocida, la densidad no dice nada de la sal. Diga qué % de la salmuera es azúcar, o 0 si solo lleva sal disuelta: ni azúcar, ni jarabe, ni fosfato, ni agente de curado.
brine-no-brine = No hay salmuera en el recipiente: pesa lo mismo que vacío. Péselo vacío y luego lleno.
brine-no-vessel = Elija antes un recipiente de volumen conocido.
brine-temperature = { $value } queda fuera de 0 a 40 °C, que es lo que cubren las tablas de densidad.
brine-density = { $value } no es la densidad de una salmuera de sal a esa temperatura. Péselo otra vez, vacío y lleno, y vea que esté lleno como lo estuvo de agua.
brine-salt = { $value } es más sal de la que admite el agua: como máximo 35,86 % del agua.
brine-too-sweet = { $value } de azúcar es un jarabe, no una salmuera: como máximo 40 %.
brine-target-zero = Con agua nunca llega a 0 %: diga más que eso.
brine-cannot = No se puede saber: { $why }.
