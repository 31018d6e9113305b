# Lo que se escribió y no sirve: qué tiene de malo, y qué escribir en su lugar.
input-problem = { $code ->
    [empty] está vacío
    [no-number-first] no empieza por un número
    [comma] tiene una coma, que puede ser decimal o de millares
    [not-a-number] no es un número
    [no-number] no es un número
    [too-large] es demasiado grande
    [no-unit] no tiene unidad
    [other-mass-unit] tiene la unidad { $first }, que aquí no es de masa
    [other-volume-unit] tiene la unidad { $first }, que aquí no es de volumen
    [other-temperature-unit] tiene la unidad { $first }, que aquí no es de temperatura
    [two-sizes] está en { $first }, que tiene dos tamaños
    [not-a-mass-unit] no es una unidad de masa
    [not-a-temperature-unit] no es una unidad de temperatura
    [not-ounces] lleva algo que no son onzas tras las libras
    [part-of-a-pound] lleva parte de una libra y además onzas
    [pound-of-ounces] lleva una libra o más en onzas
    [negative] es negativo
    [zero] es cero
    [not-above-zero] no está por encima de cero
    [other-than-percent] tiene { $first } donde solo cabe un signo de porcentaje
    [fraction-or-percent] es una fracción de uno, o muy poco porcentaje sin su signo
    [unit-behind] tiene { $first } tras el número
    [over-one] es una fracción mayor que 1, o un porcentaje sin su signo
    [whole-or-percent] es el total, o uno por ciento sin su signo
    [no-span] no es una duración
    [no-span-of-days] no es una duración en días, horas y minutos
    [absolute-zero] está por debajo del cero absoluto
    [too-cold-for-a-kitchen] es más frío que el nitrógeno líquido, lo más frío de una cocina
    [too-hot-for-a-probe] es más caliente de lo que mide una sonda de alimentos
    [no-difference] no es una diferencia de temperaturas
    [no-day] no es un día del calendario
    [before-2000] es anterior al año 2000
    [to-come] aún está por llegar
    [beyond-calendar] se sale del calendario
    [no-time-of-day] no tiene hora
    [no-time] no es una hora
    [skipped] no existe: los relojes se adelantan y la saltan
    [twice] pasa dos veces, porque los relojes se atrasan: añada { $first } para la primera o { $second } para la segunda
    [many-lines] ocupa varias líneas
    [control-characters] lleva caracteres de control
    [too-long] pasa de { $first } caracteres
    [no-loss] no es una pérdida de agua
    [no-mark] no es una nota
    [not-after-in] no es posterior a { $first }, cuando entra
    [long-after-in] es { $first } después de entrar
    [too-often] es demasiado a menudo
    [no-density] daría { $first } kg/l, que ningún alimento tiene
    [in-no-batch] no está en ninguna de estas elaboraciones
    [no-yield] no está en ninguna de estas elaboraciones junto con algo que salió
    [not-in-it] no está en ello
    [leaves-nothing] no deja nada
    [whatever-there-is] es lo que haya
    [beyond-held] pasa de lo que se puede manejar
    [no-size] no tiene tamaño propio
    [syrup] da un almíbar, no una salmuera
    [above-saturation-beside] pasa de la saturación del { $first } % de agua que lo acompaña
    [above-saturation] pasa de la saturación
    [grams-per-cm3] parece gramos por centímetro cúbico
    [denser-than-metal] es más denso que cualquier metal
    [below-freezing] está por debajo del punto de congelación del agua
    [too-warm-for-density] está demasiado caliente para conocer la fuerza por la densidad; deje que se enfríe
    [too-cold-for-strength] es demasiado frío para que siga disuelto el { $first } % de la solución
    [less-than-water] es menos que sin sal alguna
    [more-than-saturated] es más que la salmuera saturada
    [too-salty] es más de lo que se come en cualquier curado
    [too-little-water] es poco para disolver { $first } g de sal
    [no-thickness] no es el grosor de una pieza de carne
    [no-water-temperature] no es la de un agua
    [no-ice-temperature] no es la de un hielo
    [no-temperature] no es una temperatura
    [salt-falls-out] la enfría tanto que la sal precipita
    [no-such-meat] no está en la tabla de carnes
    [no-share-of-water] no es la parte de agua de una carne o pescado crudos
    [more-ice-than-water] es más que el agua de la receta
    [too-little-room] es menos que los { $first } g de salmuera que hay
    [not-by-water] no se alcanza añadiendo agua
    [no-basis] no es un modo de expresar la fuerza
    [not-all-dissolves] no se disuelve toda en { $first } g de agua
    [no-material] no es un material conocido aquí
    [as-large-as-vessel] es tan grande como el recipiente
    [sugar-unsaid] no se indica, y la densidad de una salmuera con algo más que sal no dice nada de la sal
    [sugar-unknown] hace que la densidad no diga nada de la sal
    [fraction-over-one] es una fracción mayor que 1
    [no-contents] no es un tipo de agente de curado conocido aquí
    [two-ways] se puede calcular de dos maneras con resultados muy distintos
    [no-method] no es un modo de curar conocido aquí
    [no-pick-up] no es una parte del peso en crudo
    [no-gain] no es un aumento sobre { $first } g
    [no-ppm] no es un número de partes por millón
    [ppm-in-percent] está en tanto por ciento
    [not-bacon] no es panceta
    [missing-for] falta para { $first }
    [scale-useless] no sirve para nada
    [no-dough-mass] no es una masa que pese una cocina
    [not-said] no se indica
    [said-of-nothing] no se refiere a nada
    [below-nothing] está por debajo de nada
    [ice-not-water] es hielo
    [ice-not-part] es menos que nada o más que el agua que hay
    [no-mixing] está a { $first } K de lo que entró, y ningún amasado hace eso
    [no-mixers] no es la de una amasadora
    [not-in-a-dough] no es de nada que entre en una masa
    [no-sauce] no es de una salsa o pasta
    [not-with-its-salt] no casa con su sal
    [no-name-with-mass] no lleva un nombre con su masa
    [not-understood] no se entiende
    [salt-twice] dice su sal dos veces
    [neither-salt-nor-water] lleva algo que no es ni sal ni agua
    [same-twice] dice lo mismo dos veces
    [no-salt-said] no dice su sal
    [no-salt] no lleva sal
    [more-than-dissolves] es más de lo que se disuelve
    [no-shape] no lo es
    [no-uncertainty] no es una incertidumbre
    [no-salts-share] no es una parte de sal
    [not-that-bath] no es en lo que queda un baño de { $first } g
    [gave-salt] supondría que la pieza perdió sal
    [too-much-salt] supondría más sal en la pieza de la que puede tomar de ese baño
    [no-bath-temperature] no es la de una salmuera en cámara o sobre la mesa
    [not-after-it-went-in] no es posterior a la entrada
    [out-of-another-bath] salió de un baño en el que entraron { $first } g
    [not-initials] no son iniciales
    [not-portion-id] no es el identificador de una ración
    [no-time-of-day-here] no es una hora del día
    [after-noon] es después de mediodía
    [not-cooks-setting] no es un ajuste de las cifras de los cocineros
    [no-currency] no tiene moneda
    [other-currency] tiene la moneda { $first }, que no está en ISO 4217
    [no-mass-of-price] no dice por qué masa
    [no-price] no es un precio por una masa mayor que cero
    [map-without-equals] tiene { $first } sin un =
    [map-lacks] no nombra { $first }
    [dish-not-on-record] es un plato que no está registrado, así que no se conoce su objetivo
    [far-from-target] es { $first } veces su objetivo de { $second } g
    [above-100-kg] pasa de 100 kg
    [no-date-with-time] no es una fecha con su hora
    [no-such-offset] tiene un desfase que ningún reloj tiene
    [skipped-here] no existió esa noche, cuando se adelantaron los relojes
    [in-future] está en el futuro
    [no-loss-here] no es una pérdida conocida aquí
    [no-latitude] no es una latitud
    [no-height] no es una altura en tierra
    [no-class-weight] no es una pesa de una clase
    [no-weight-class] no es una clase de pesas
    [no-services] no es un número de servicios al mes
    [no-tin-number] no es el número de una cubeta
    [not-bought] no es nada que se compre
    [missing] falta
    [out-of-range] está fuera del intervalo
    [of-portioned-dish] se da para el plato racionado { $first }
    [formula-too-long] es más larga que una fórmula
    [not-understood-here] no se entiende: { $first }
    [not-a-hundred] no es cien
    [formula-too-few] son muy pocos o demasiados para una fórmula
    [not-in-formula] no está en la fórmula
    [twice-here] está dos veces
    [no-share] no es una proporción
    [no-scale-step] no es un escalón de una báscula
    [pieces-none] son ninguno o demasiados
    [mark-not-reached] no la alcanza ninguna de estas elaboraciones
   *[other] no se puede usar ({ $written })
}
input-wanted = { $code ->
    [mass] escriba una masa con g, kg, oz o lb, como 30g
    [mass-unit] escriba g, kg, oz o lb
    [pounds] escriba libras enteras y menos de 16 onzas, como 1lb4oz
    [mass-above-zero] debe estar por encima de cero, como 30g
    [mass-or-none] debe ser cero o más, como 1g
    [above-zero] debe estar por encima de cero
    [zero-or-more] debe ser cero o más
    [percent] escriba un número de tanto por ciento, como 10 o 10%
    [percent-with-sign] escriba el tanto por ciento con su signo, como 6% o 0.06%
    [percent-or-fraction] escriba un porcentaje con su signo o una fracción de uno, como 6.25% o 0.0625
    [span] escriba días, horas y minutos, como 3d, 36h o 2d 12h
    [volume] escriba un volumen con ml, cl, dl o l, como 5l
    [volume-range] debe estar por encima de cero y ser como mucho 10000 l
    [gallon] escriba usgal para el galón de Estados Unidos (3.785 l) o impgal para el imperial (4.546 l); lo mismo qt, pt y floz
    [temperature] escriba una temperatura con degC o degF, como 54degC
    [temperature-unit] escriba degC o degF
    [day] escriba un día: 2026-05-01, today (hoy), yesterday (ayer) o tomorrow (mañana)
    [moment] escriba una hora de hoy (18:30), un día (2026-05-01, today, yesterday), un día y una hora (yesterday 22:10, 2026-05-01T18:30), o todo con su desfase (2026-05-01T18:30+02:00)
    [name] escriba un nombre de 1 a { $first } caracteres, como { $second }
    [words] escriba palabras de como mucho { $first } caracteres
    [loss] debe estar por encima de 0 y por debajo del 80 por ciento del primer peso
    [mark] debe ir de 1 (nunca más) por 5 (como debe ser) a 9 (lo mejor hasta ahora)
    [later] debe ser más tarde
    [two-years] debe ser antes de dos años
    [a-minute] debe ser un minuto o más
    [what-came-out] escriba lo que pesa lo que salió
    [measure-again] vuelva a leer la medida, y pese sin el recipiente
    [weigh-what-came-out] pese lo que salió, por ejemplo con `batch yield`; en ellas hay { $first }
    [ingredients-are] llevan { $first }
    [ingredient-has] lleva { $first }
    [above-minus-hundred] debe estar por encima de -100 por ciento
    [one-with-a-number] cambie uno que tenga número
    [kitchen-mass] debe ser una masa que quepa en una cocina
    [weigh-meat-and-water] pese la carne y el agua; lo demás se deduce
    [sugar-range] debe ser de 0 a 67 por ciento
    [sugar-most] debe ser como mucho el 40 % de la solución
    [salt-most] la sal debe ser como mucho el 35.86 % del agua, que es la saturación a 60 degF
    [salt-of-water-most] debe ser como mucho el 35.86 % del agua, que es la saturación a 60 degF
    [density] escriba kilogramos por metro cúbico, como 1070
    [density-temperatures] debe ser de 0 a 40 degC, lo que abarcan las tablas de densidad
    [brine-holds] ahí la salmuera admite como mucho el { $first } % de la solución
    [shared-salt] debe estar por encima de 0 y ser como mucho 15 por ciento
    [more-water-or-dry] use más agua, o sale la carne en seco
    [thickness] debe estar por encima de 0 y ser como mucho 500 mm
    [degrees-between] debe ser de { $first } a { $second } degC
    [less-ice] ponga menos hielo, o agua más caliente
    [kind-of-meat] escriba su agua en tanto por ciento, o uno de { $first }
    [share-of-water] debe ser de 20 a 90 por ciento
    [grams-most] debe ser como mucho { $first } g
    [vessels-room] debe ser lo que cabe en total en el recipiente
    [basis] escriba water (sal sobre el agua) o solution (sal sobre toda la salmuera)
    [material] escriba steel (acero), glass (vidrio) o plastic (plástico)
    [well-below] debe quedar muy por debajo de { $first }
    [say-sugar] indique qué porcentaje de la salmuera es azúcar, o 0 si solo lleva sal disuelta: ni azúcar, ni jarabe, ni fosfato, ni agente de curado
    [label-fraction] léalo en la etiqueta, como 6.25% o 0.0625
    [contents] escriba sodium-nitrite, potassium-nitrite, nitrate, nitrite-and-nitrate o vegetable
    [one-of] escriba uno de { $first }
    [pick-up] debe estar por encima de 0 y ser como mucho el 100 por ciento del peso en crudo
    [gain] debe estar por encima del peso en crudo y ser como mucho el doble
    [ppm-range] debe ser de 0 a 1000000 ppm
    [ppm] escriba un número de partes por millón, como 120
    [bacon-rule] la regla de la piel es para panceta
    [meat-needed] hace falta el peso en crudo de la carne
    [pickle-needed] hace falta el peso del agua, la sal y el azúcar
    [pick-up-needed] hace falta la parte de su peso en crudo que absorbe la carne
    [kitchen-scale] debe ser la de una báscula de cocina
    [another-size] escriba otro tamaño
    [measure-stages] la fórmula tiene etapas; mida a qué temperatura están
    [no-stages] la fórmula no tiene etapas; quítelo
    [how-much] escriba cuánto hay
    [coldest-water] escriba a cuánto está el agua más fría, 0 degC o más
    [water-not-ice] escriba una de 0 a 100 degC; lo que es hielo se indica aparte
    [part-of-water] es parte del agua, de la que hay { $first } g
    [dough-again] mida otra vez, o corrija lo que entró
    [friction] escriba una diferencia de -20 a 40 degC
    [look-again] mire otra vez las temperaturas
    [dough-degrees] escriba una de -30 a 60 degC
    [goes-in] escriba cuánto entra
    [label-salt] escriba la sal de su etiqueta en tanto por ciento, por encima de 0 y como mucho 50
    [salt-and-water] la sal y el agua juntas son como mucho el 100 por ciento
    [as-its-label] escríbalo como su etiqueta: NAME=150g,salt=16%,water=65%, o sodium=6.4% por la sal
    [write-the-salt] escriba la sal, o salsas y pastas con la sal de sus etiquetas
    [more-water] use más agua; la salazón en seco no se calcula con esto
    [shape] escriba slab para una pieza plana o cylinder para una larga y redonda
    [points] escriba con qué margen en puntos porcentuales se conoce, por encima de 0 y como mucho 10
    [salt-percent] escriba una de 0 a 26.395 por ciento
    [bath-alone] pese el baño sin su recipiente, o quite su masa
    [try-stirred] pruebe otra vez el baño, removido, y diga lo que entró en él
    [try-again] pruebe otra vez, y diga lo que entró en el baño
    [weight-before] escriba lo que pesa antes de entrar
    [bath-degrees] escriba una de -3 a 30 degC
    [when-out] escriba cuándo salió
    [same-pieces] pese las mismas piezas sin su recipiente; es posible de la mitad al doble
    [initials] escriba de una a cuatro letras, como MO
    [portion-id] escríbalo como está en la lista, como 00000000000000a1-00000001-17
    [reason] diga por qué, en 1 a 200 caracteres
    [day-begins] escriba una hora de 00:00 a 12:00, como 04:00
    [cooks-setting] escriba own (las del cocinero, el resto juntas) o hidden (todas, sin nombres)
    [money] escriba un importe y el código ISO 4217 de una moneda, como 4.50 EUR
    [cost] escriba un importe, el código ISO 4217 de una moneda y la masa que compra, como 1800 EUR/kg
    [map] escriba qué encabezado tiene qué, como time=When,mass=Weight,dish=Dish,cook=Cook,target=Target; hacen falta time y mass
    [dish-column] nombre su columna en --map, o dé --dish
    [target-column] dé --target, nombre su columna en --map, o añada antes el plato
    [reach-of-target] una ración pesa de un décimo de su objetivo a { $first } veces más; compruebe --units y las columnas
    [target-and-tolerance] dé un objetivo mayor que cero y una --tolerance menor
    [portion-mass] una ración pesa más que nada y como mucho 100 kg; compruebe --units
    [local-time] escriba una hora local (2026-05-01 18:30:05) o una con su desfase (2026-05-01T18:30:05+02:00)
    [loss-here] escriba trim (recorte), cook (cocción), press (prensado), spill (derrame) o tasting (cata)
    [latitude] escriba grados de -90 a 90, como 52.5
    [height] escriba metros enteros de -500 a 9000, como 40
    [class-weight] una pesa de una clase es de 1, 2, 5, 10, 20, 50 g y así hasta 20 kg; de otra diga cuánto puede desviarse: --within 20mg
    [weight-class] escriba E2, F1, F2, M1, M2 o M3
    [services] escriba un número entero de 1 a 62
    [tin-number] escriba el número que muestra `evenhand tin list`
    [bought] escriba tin (cubeta), fish (pescado), cut (pieza) o batch (elaboración)
    [leave-plate-out] quítelo: el peso y el coste son los de sus raciones
    [dish-or-name] dé a un componente un plato o un nombre
    [served] escriba lo que se sirve de él, como 120g
    [as-bought] escriba lo que cuesta al comprarlo, como 2.40 EUR/kg
    [above-none-to-all] escriba más de 0% hasta 100%
    [none-to-below-all] escriba de 0% a menos de 100%
    [formula-file] escriba name, how, limits, [[base]], [[other]] y [[stage]] como los tiene una fórmula
    [base-hundred] aquello de lo que son las proporciones suma 100 por ciento: las harinas de una masa, con sus etapas
    [own-name] dé a cada uno su nombre
    [scale-step] escriba el escalón que muestra la báscula, como 1 g
    [lower-mark] cate y puntúe una, o escriba una nota más baja
    [one-or-more] escriba uno o más de { $first }
   *[other] no se puede usar ({ $written })
}
input-refused = { $field }: { $value } { $problem }; { $wanted }
input-unsaid = { $field } { $problem }; { $wanted }
