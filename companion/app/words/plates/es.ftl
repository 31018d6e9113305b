# Platos: qué lleva cada uno y cuánto cuesta.
plates-heading = Platos
plates-none = Aún no hay platos registrados
plates-touch = Toque un plato para cambiarlo
plates-touch-part = Toque lo que haya que cambiar
plates-new = Plato nuevo
plates-no-price = sin precio
plates-put-dish = Poner una elaboración
plates-put-part = Poner otra cosa
plates-remove = Quitar el plato del registro
plates-remove-ask = ¿Quitar este plato del registro? Sus elaboraciones y raciones se quedan.
plates-take-off = Quitarlo del plato
plates-portioned = peso y coste de sus raciones
plates-portioned-about = Su peso y su coste son los de sus raciones
plates-part-about = Cuánto se sirve y cuánto cuesta
plates-fixed = { $weight } a { $cost }
plates-touch-dish = Toque la elaboración
plates-no-dish = Aún no hay nada en la lista
plates-about =
    { $count ->
        [one] lleva una cosa
       *[other] lleva { $count } cosas
    }
plates-about-price =
    { $count ->
        [one] { $price }, lleva una cosa
       *[other] { $price }, lleva { $count } cosas
    }
