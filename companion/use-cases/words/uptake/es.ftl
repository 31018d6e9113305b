# Lo que una pieza toma en una salmuera o un adobo. Los porcentajes son de su peso en crudo.
uptake-bath = El baño tiene { $strength } % de sal. Repartida por igual, { $cut } llega a { $end } % de sal, con un margen de { $doubt }.
uptake-water-unsaid = No se sabe cuánta agua tiene { $name }: todo lo que no es sal cuenta como agua, así que el baño es más fuerte de lo que dice aquí.
uptake-gain = Tras { $span } ha ganado { $middle } % (de { $from } a { $to } en ocho lotes de cada diez).
uptake-salt = De eso, sal { $middle } % (de { $from } a { $to }) y agua { $water } % (de { $waterfrom } a { $waterto }).
uptake-core = El centro tiene entonces { $middle } % de sal (de { $from } a { $to }).
uptake-gain-not-known =
    { $more ->
        [one] Aún no se sabe cuánto gana: pese un lote más al entrar y al salir.
       *[other] Aún no se sabe cuánto gana: pese { $more } lotes más al entrar y al salir.
    }
uptake-salt-not-known =
    { $more ->
        [one] Aún no se sabe cuánta sal toma: pese un lote más al entrar y al salir y mida su baño antes y después.
       *[other] Aún no se sabe cuánta sal toma: pese { $more } lotes más al entrar y al salir y mida su baño antes y después.
    }
uptake-out-at = Sacar a las { $at } para { $wanted } % en el centro (de { $from } a { $to } en ocho lotes de cada diez).
uptake-out-at-open = Sacar a las { $at } para { $wanted } % en el centro (no antes de { $from }; uno de cada diez lotes nunca llega).
uptake-then = La pieza entera tiene entonces { $salt } %: el centro sube hasta ahí mientras se reparte en frío. Si se dejara para siempre llegaría a { $end } %.
uptake-never = El centro no llega a { $wanted } % en este baño: se queda en { $end } %. Use más sal, o menos carne.
uptake-when-not-known =
    { $more ->
        [one] Aún no se sabe cuándo llega el centro a { $wanted } %: pese un lote más al entrar y al salir y mida su baño antes y después. Según lo publicado tarda de { $from } a { $to }, y eso no es un plan.
       *[other] Aún no se sabe cuándo llega el centro a { $wanted } %: pese { $more } lotes más al entrar y al salir y mida su baño antes y después. Según lo publicado tarda de { $from } a { $to }, y eso no es un plan.
    }
uptake-for-ever = siempre
uptake-gained = { $cut } ganó { $mass }, { $percent } % de su peso en crudo, en { $span }.
uptake-lost = { $cut } perdió { $mass }, { $percent } % de su peso en crudo, en { $span }.
uptake-found = Entraron { $salt } de sal, con un margen de { $doubt }: { $percent } % de su peso en crudo. El resto del cambio es agua.
uptake-not-told = No se sabe cuánto de eso es sal y cuánto agua: pesar solo la pieza no lo dice. Mida el baño antes y después, o la pieza con un medidor.
uptake-caution = Calculado, no medido en esta pieza, para un baño removido y piezas sin inyectar y sin deshuesar por dentro. Nunca dice que un alimento esté listo, curado o se conserve. Primero van las normas locales y la práctica autorizada.
# Lo que no puede ser de un remojo: constaba { $value }.
uptake-refused = { $field ->
    [salt] Sal del baño: tiene que haberla. Escriba la sal, o una salsa o pasta con la sal de su etiqueta.
    [water] Agua del baño: muy poca para que se disuelva su sal. Use más agua; la salazón en seco no se calcula así.
    [temperature] Temperatura: { $value } no es de una salmuera. Escriba una de −3 a 30 °C.
    [out] Hora de salida: { $value } después de entrar. Tiene que salir después de entrar.
    [mass] Peso: { $value } no puede ser. Pese las mismas piezas sin su recipiente: es posible entre la mitad y el doble de lo que entró.
    [bath-after] Fuerza del baño después: { $value } no puede ser. Tiene que ser menor que antes, sin que falte más sal de la que cabe en la pieza.
    [bath-mass] Peso del baño después: { $value } no puede ser. Pese el baño del que salió esta pieza.
    [in-piece] Sal en la pieza: { $value } no puede ser. Escriba el tanto por ciento de lo que salió, no más de lo que da el baño.
    [within] Margen: { $value } no puede ser. Escriba puntos porcentuales por encima de 0, como 0,2.
   *[other] { $value } no se puede usar aquí.
}
