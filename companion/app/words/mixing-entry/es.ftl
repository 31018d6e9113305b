# Lo que se escribe en las pantallas de mezcla.
entry-leave = Dejarlo
entry-enter = Aceptar
entry-caption = { $field ->
    [title] ¿Qué es?
    [ingredient] Nombre del ingrediente
    [number] Cuánto
    [amount] Cuánto debe haber
    [slot] ¿Qué era eso?
    [packet] ¿Qué pone en el envase del agente de curado?
    [fraction] Nitrito de sodio en el agente, según su etiqueta
    [label-again] Lea el envase que tiene en la mano: ¿cuánto es nitrito de sodio?
    [ppm] Nitrito añadido
    [pick-up] Parte de su peso en crudo que absorbe la carne
    [note] Nota
    [tasting] ¿Qué tal estaba? (una palabra, o nada)
    [due-in] ¿Dentro de cuántos días se saca?
    [turn-every] ¿Cada cuántas horas se le da la vuelta o se mira? 0 si nunca
    [loss] ¿Cuánto de su peso debe perder al secarse?
    [change] ¿Cuánto más la próxima vez?
    [of-water] Sal, % del agua
    [of-solution] Sal, % de toda la salmuera
    [salometer] Grados de salómetro
    [density] Densidad, kg/m³
    [temperature] ¿A qué temperatura está?
    [sugar] Azúcar, % de toda la salmuera
    [correct-to] ¿Cuánta debe tener? Sal, % del agua
    [brine-mass] ¿Cuánta salmuera hay?
   *[vessel] Nombre del recipiente
}
entry-caption-about = { $caption }: { $about }
entry-hint = { $field ->
    [title] Las elaboraciones del mismo nombre se comparan entre sí.
    [slot] Un agente de curado se prepara en la pantalla de curado, con su etiqueta.
    [fraction] Léalo en el envase. No se da nada por supuesto.
    [label-again] El agente solo se pesa si es aquello para lo que se calculó la mezcla.
    [pick-up] Si no se sabe, pese una pieza cruda y otra vez curada.
    [tasting] 1 nunca más, 5 como debe ser, 9 la mejor hasta ahora.
    [due-in] 3 son tres días; escriba 36h para horas.
    [loss] Lo que hay ahora en la báscula es su primer peso.
    [change] Menos de cero para menos.
    [sugar] El azúcar hace la salmuera más densa, no más salada. 0 si no lleva.
   *[other] {""}
}

mixing-typed = «{ $text }» no sirve: { $expected }
mixing-typed-nothing = no se escribió nada: { $expected }
mixing-expected = { $field ->
    [mass] escriba un peso mayor que cero, en gramos o con su unidad, como 250 o 1,2kg
    [fraction] escriba el % de nitrito de sodio que dice el envase, más de 0 y como máximo 100, como 6,25
    [ppm] escriba partes por millón de 0 a 1000000, sin el signo %, como 120
    [pick-up] escriba el % del peso en crudo, más de 0 y como máximo 100, como 10
    [due-in] escriba un tiempo mayor que cero y de menos de dos años, como 3 para días o 36h
    [turn-every] escriba un minuto o más, como 12 para horas o 90min; 0 si nunca
    [loss] escriba el % del primer peso, más de 0 y menos de 80, como 30
    [change] escriba un % mayor que −100, como 5 o −5
    [of-water] escriba el % del agua de 0 a 35,86, que es la saturación a 60 °F
    [of-solution] escriba el % del total de 0 a 26,395, que es la saturación a 60 °F
    [salometer] escriba grados de 0 a 100, que son % de la saturación a 60 °F
    [density] escriba kilogramos por metro cúbico de una salmuera a esa temperatura, como 1070
    [temperature] escriba una temperatura, como 4 o 39degF
    [sugar] escriba el % del total de 0 a 67, o 0 si no lleva
    [words] escriba un nombre corto de una línea
   *[number] escriba un número mayor que cero, como 2,5
}
