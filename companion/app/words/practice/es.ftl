# El puesto de práctica: sin báscula de verdad, con una mano por ratón o dedo.
practice-open = Puesto de práctica
practice-about = ¿Aún sin báscula? Vierta, derrame y retire con ratón o dedo. Se guarda aparte del registro de la cocina.
practice-dish = Plato de práctica
practice-title = Puesto de práctica: no hay báscula de verdad, y nada de aquí va al registro de la cocina.
practice-simulated = Puesto simulado: no hay báscula de verdad, y el cocinero es inventado.
practice-dish-on = Poner recipiente
practice-tin-on = Poner cubeta llena
practice-bowl-on = Poner bol
practice-lift-off = Retirar
practice-pour-fast = Verter rápido
practice-pour-slowly = Verter despacio
practice-hold = mantener pulsado
practice-spoon-out = Sacar cucharada
practice-spill = Derramar
practice-leave-spoon = Dejar la cuchara
practice-take-spoon = Coger la cuchara
practice-probe-in = Sonda en lo caliente
practice-probe-out = Sacar la sonda
practice-end = Terminar la práctica

# Los primeros minutos guiados, una frase por paso.
guide-step = Paso { $step } de { $steps }
guide-leave = Dejar la guía
guide-open = Mostrar la guía
guide-dish-on = Ponga el recipiente.
guide-first-portion = Vierta hasta 60 g, rápido y luego despacio, y retire el recipiente.
guide-undo = Pulse «{ $button }»: la ración ya no cuenta.
guide-too-much = Ponga otro recipiente, derrame demasiado y retírelo.
guide-stop-run = Pulse «{ $button }»: la tanda acaba.
guide-open-brine = Abra «{ $mix }» y luego «{ $button }».
guide-weigh-brine = Pulse «{ $button }» y luego «{ $weigh }».
guide-water-and-salt = Ponga el bol y vierta agua y sal hasta que ambas estén en su punto.
guide-ended = Eso fue todo: pruebe lo que quiera o termine la práctica.
