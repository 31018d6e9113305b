# Lo que espera la báscula.
prompt-weighing = Pesando
prompt-await-dish = Ponga un recipiente vacío
prompt-dish-settling = Sin tocar: se toma la tara del recipiente
prompt-filling = Llene y retire el recipiente
prompt-await-tin = Ponga la cubeta
prompt-tin-settling = Sin tocar: se pesa la cubeta
prompt-ready = Saque una ración
prompt-spooning = Sin tocar: se pesa lo que ha sacado
prompt-tin-away = Vuelva a poner la cubeta
prompt-blocked = No se puede pesar
prompt-unknown = Pesando; este programa es más antiguo que la báscula

# Lo que acaba de pasar.
notice-run-started = La tanda ha empezado.
notice-run-stopped = La tanda ha terminado.
notice-dish-tared = El recipiente pesa { $mass }; se descuenta su peso.
notice-dish-returned = El recipiente { $number } ha vuelto y ya estaba contado; al retirarlo se corrige y no se cuenta otro.
notice-lifted-unsettled = El recipiente se retiró antes de estabilizarse y no se contó; vuelva a ponerlo para contarlo.
notice-lifted-empty = El recipiente se retiró vacío; no se contó nada.
notice-refilled = Se añadieron { $mass } a la cubeta.
notice-tin-away = La cubeta no está en la báscula.
notice-tin-back-lighter = La cubeta ha vuelto con { $mass } menos.
notice-tin-back-heavier = La cubeta ha vuelto con { $mass } más.
notice-unaccounted = Salieron { $mass } de golpe de la cubeta y eso no es una ración; no se contó.
notice-filled-while-taken = La cubeta ganó { $mass } mientras se sacaba de ella; lo que se sacó entretanto no se contó.
notice-zeroed = La báscula se ha puesto a cero.
notice-found-on-pan = La báscula se quedó sin corriente y tiene { $mass } encima: eso no se cuenta. Despeje la báscula y empiece de nuevo esa ración.
notice-recalled =
    { $portions ->
        [one] La báscula ha vuelto a enviar la única ración que aún guardaba.
       *[other] La báscula ha vuelto a enviar las { $portions } raciones que aún guardaba.
    }
notice-unknown = La báscula dijo algo que este programa, por antiguo, no conoce.

# Por qué el peso de una ración puede estar mal.
doubt-maybe-two = Se sacó tanto de una vez que pueden ser dos raciones.
doubt-straddles-limit = La incertidumbre pasa de un límite; el resultado puede ser uno u otro.
doubt-taken-off-pan = Se sacó con la cubeta fuera de la báscula.
doubt-hasty = Se pesó en un momento de calma demasiado corto.
doubt-touched = El peso cambió solo entretanto, como si algo tocara la bandeja.
doubt-maybe-changed = Después entró o salió algo que puede ser de esta ración o no.
doubt-unknown = La báscula duda de ella por un motivo que este programa, por antiguo, no conoce.

# Averías: qué pasa y qué hacer.
fault-bridge-timeout = La báscula ha dejado de responder.
fault-bridge-high-rail = El sensor de carga marca su tope superior.
fault-bridge-low-rail = El sensor de carga marca su tope inferior.
fault-bridge-frozen = El sensor de carga repite un valor y no se mueve.
fault-bridge-out-of-step = Las lecturas del sensor de carga han perdido el paso.
fault-overload = Hay demasiado peso en la báscula.
fault-negative-load = La bandeja pesa menos que su cero.
fault-zero-out-of-range = La báscula vacía está demasiado lejos de cero.
fault-uncalibrated = Esta báscula no está calibrada.
fault-probe-open = La sonda está desenchufada o rota.
fault-probe-short-to-ground = La sonda está en cortocircuito a masa.
fault-probe-short-to-supply = La sonda está en cortocircuito con la alimentación.
fault-probe-silent = El sensor de temperatura no responde.
fault-probe-out-of-range = La sonda marca fuera de lo que puede medir.
fault-portions-lost = Se perdieron raciones: se hicieron más de las que se podían guardar.
fault-storage-failed = La báscula no puede leer ni guardar sus ajustes.
fault-too-noisy = La señal de la báscula es demasiado inestable para contar.
fault-restless = El peso no se estabiliza.
fault-unknown = La báscula da una avería que este programa, por antiguo, no conoce: mire la báscula.

remedy-bridge-timeout = Desenchufe la báscula, cuente hasta cinco y enchúfela; si sigue igual, revise el cable de la célula de carga.
remedy-bridge-rail = Quite todo de la báscula; si sigue igual, revise el cable de la célula de carga.
remedy-bridge-frozen = Desenchufe la báscula y vuelva a enchufarla.
remedy-bridge-out-of-step = Se reinicia sola y sigue pesando; si vuelve a pasar, busque un cable suelto o una bomba cerca.
remedy-overload = Quite peso.
remedy-negative-load = Quite lo que levante la bandeja o se apoye en ella y ponga a cero la báscula vacía.
remedy-zero-out-of-range = Vacíe y limpie la bandeja, mire debajo y ponga a cero; si sigue igual, calibre.
remedy-uncalibrated = Calíbrela con dos pesas conocidas antes de fiarse de ella.
remedy-probe-open = Enchufe la sonda; se sigue pesando sin ella.
remedy-probe-short = Seque el conector y busque un cable aplastado; se sigue pesando sin ella.
remedy-probe-silent = Se sigue pesando sin ella; revise el cable de la placa del sensor.
remedy-probe-out-of-range = Deje que la sonda vuelva a su margen, o cámbiela.
remedy-portions-lost = No quite el cable y cuente las raciones a mano con la lista.
remedy-storage-failed = Se sigue pesando, pero los ajustes se pierden si se va la luz.
remedy-too-noisy = Aleje de sus cables teléfonos y placas; si sigue igual, use una célula menor o más tensión.
remedy-restless = Suelte la bandeja; si sigue igual, algo la toca o la mesa se mueve: no se cuenta nada hasta que pare.

# Cómo está la conexión y qué hacer.
link-none-chosen = No se ha elegido ninguna báscula.
link-no-port = No existe el puerto { $port }.
link-not-allowed = Este usuario no puede abrir { $port }.
link-busy = Otro programa está usando { $port }.
link-port-failed = No se puede usar { $port }: { $why }.
link-calling = Llamando a la báscula en { $port }.
link-silent = Nadie responde en { $port }.
link-not-ours = Algo responde en { $port }, pero no es un instrumento Evenhand.
link-other-version = La báscula de { $port } habla la versión { $theirs } del enlace y este programa la { $ours }.
link-desktop-at-other-end = Lo que llega de { $port } es lo que envía un ordenador, o su eco.
link-linked = La báscula está conectada en { $port }.
link-other-instrument = En { $port } responde otra báscula: es la { $found } y la anterior era la { $known }.
link-lost = Se ha perdido la báscula de { $port }.
link-scenario-over = La mesa simulada ha llegado a su fin.
link-no-bench = No se puede montar la mesa simulada: { $why }.

link-none-chosen-do = Elija el puerto de la báscula o la mesa simulada.
link-no-port-do = Enchufe y encienda la báscula, o elija otro puerto.
link-not-allowed-do = Añada este usuario al grupo dueño del puerto (a menudo «dialout») y vuelva a entrar.
link-busy-do = Cierre el otro programa.
link-port-failed-do = Desenchufe la báscula y vuelva a enchufarla, o elija otro puerto.
link-calling-do = Espere un momento.
link-silent-do = Compruebe que la báscula está encendida y que este es su puerto.
link-not-ours-do = Elija otro puerto: este es de otra cosa.
link-other-version-newer-do = Instale una versión más nueva de este programa.
link-other-version-older-do = Actualice el firmware de la báscula.
link-desktop-at-other-end-do = Elija el puerto en el que está la báscula.
link-other-instrument-do = Enchufe la primera; o, para seguir con esta, vuelva a elegir su puerto o a empezar. Hasta entonces no se toma nada de ella, y guarda lo que contó.
link-lost-do = Vuelva a enchufar su cable. La báscula guarda lo que cuenta y lo envía después.
link-scenario-over-do = Empiece de nuevo o elija otra situación.
link-no-bench-do = Revise el archivo de la situación.
link-looked-for-again = Se sigue buscando sola.
link-called-again = Se sigue llamando sola.

# Lo que va mal en el ordenador.
trouble-too-fast = Llegan raciones más deprisa de lo que nadie las hace: algo va mal en la báscula y el resto espera en ella.
trouble-scale = Algo va mal en la báscula: { $why }.
trouble-store = No se pueden registrar las raciones: { $why }.
trouble-clock-back = El reloj del ordenador se ha retrasado { $by }. Las raciones mantienen su orden; las horas de antes y después pueden solaparse.

portion-clash = la báscula envió dos raciones distintas con un mismo número; cuenta la primera
portion-senseless-goal = la báscula envió una ración con un objetivo sin sentido
portion-senseless-correction = la báscula envió una corrección de una ración que no puede corregir
portion-beyond-capacity = la báscula envió una ración mayor de lo que puede pesar
portion-senseless-uncertainty = la báscula envió una ración con una incertidumbre sin sentido
portion-senseless-temperature = la báscula envió una ración con una temperatura sin sentido
portion-other-instrument = la báscula envió una ración que pesó otra báscula

# Por qué no se hizo lo que se pidió.
not-done-no-run = No hay ninguna tanda en marcha.
not-done-store = { $why }.
not-done-refused = La báscula no lo hizo: { $why }.
not-done-no-reply = La báscula no contesta: pídalo otra vez, o desenchúfela y enchúfela.
not-done-link-lost = Se perdió la conexión antes de la respuesta: pídalo otra vez cuando vuelva.
not-done-too-many = Se pidió demasiado a la vez: espere un momento.

refusal-not-stable = el peso se movía; espere a que se estabilice y pídalo otra vez
refusal-beyond-zero-range = hay demasiado peso para tomarlo por cero; vacíe la báscula o use la tara
refusal-negative-tare = el peso está por debajo de cero; vacíe la báscula y póngala a cero
refusal-faulty = la báscula tiene una avería que impide pesar
refusal-no-run = no hay ninguna tanda en marcha
refusal-unknown = esta báscula no conoce esa orden; es más antigua que el programa o no la lleva
refusal-running = hay una tanda en marcha; termínela antes
refusal-not-calibrating = no hay ninguna calibración en marcha; empiece una antes
refusal-setting = el lugar no está en tierra: latitud de -90 a 90 grados, altura de -500 a 9000 m

goal-target-not-positive = el objetivo tiene que ser mayor que cero
goal-tolerance-negative = una tolerancia no puede ser negativa
goal-tolerance-swallows-target = la tolerancia por debajo tiene que ser menor que el objetivo, o estaría en peso hasta un recipiente vacío
goal-beyond-capacity = el objetivo y su tolerancia pasan de lo que puede pesar esta báscula

calibration-too-few-points = una calibración necesita la báscula vacía y al menos una pesa conocida
calibration-too-many-points = una calibración admite dieciséis puntos como mucho
calibration-no-zero = falta la báscula vacía entre los puntos de calibración
calibration-negative-load = una pesa de calibración no puede estar por debajo de cero
calibration-not-a-number = un punto de calibración tiene un número que no es finito
calibration-no-span = la lectura apenas cambió entre dos pesas; compruebe que la pesa estaba puesta y que la célula de carga está conectada
calibration-not-straight = las pesas no concuerdan entre sí; compruebe que cada una era la indicada y que nada toca la bandeja

test-not-stable = el peso se movía; espere a que se estabilice y pídalo otra vez
test-too-light = la pesa es demasiado ligera para probar esta báscula; use una mayor
test-too-heavy = la pesa es mayor de lo que puede pesar esta báscula
test-too-coarse = la pesa no es bastante exacta para esta báscula; use una de mejor clase
test-another-load = lo que hay encima no es esa pesa; ponga a cero la báscula vacía, ponga solo la pesa y pídalo otra vez
