# Lo que se anota de la mise en place, y lo que se escribió.
prep-covers = { $day }: { $covers } cubiertos.
prep-left = { $day }: quedaron { $portions } raciones de { $dish }.
prep-gone = Lo que quedaba de la elaboración de { $name } para { $day } ya no está.
prep-menu-kept = { $kept_for ->
    [day] La carta, con { $steps } pasos, queda guardada para { $day }.
   *[every] La carta, con { $steps } pasos, queda guardada para todos los días que no tengan la suya.
}
prep-ticked = { $what ->
    [begun] { $step }: empezado.
    [done] { $step }: hecho.
   *[undone] { $step }: al final no está hecho.
}
prep-ticked-by = { $what ->
    [begun] { $step }: empezado por { $who }.
    [done] { $step }: hecho por { $who }.
   *[undone] { $step }: al final no lo hizo { $who }.
}
prep-not-before = { $step }: no antes de { $time }.
prep-goods-kept = La lista de { $goods } géneros queda guardada.
prep-in-hand = { $goods }: hay { $amount }.
prep-ordered = { $goods }: { $packs } x { $pack } pedidos para { $day }.
prep-no-orders = No hay ningún pedido registrado.
prep-no-order-number = { $flag }: { $text } no es el número de un pedido; `evenhand prep orders` los muestra

prep-no-whole = { $what ->
    [guests] { $flag }: { $text } no es un número de comensales; escriba un número entero de 0 a 100000
    [portions] { $flag }: { $text } no es un número de raciones; escriba un número entero de 0 a 100000
    [tubs] { $flag }: { $text } no es un número de cubetas; escriba un número entero de 0 a 100000
   *[packs] { $flag }: { $text } no es un número de envases; escriba un número entero de 0 a 100000
}
prep-at-after-opening = --at: { $text } del { $day } es después de que abra su servicio, { $opens }; escriba "today { $text }" para hoy, o { $day }T{ $text } para entonces
prep-no-tubs = --tubs: { $tubs } no es un número de cubetas; escriba un número entero de 1 a { $most }
prep-one-png = --tubs: { $tubs } etiquetas no caben en un PNG; escriba --pdf, o --tubs 1
prep-not-finished = PREPARATION: ninguna elaboración de { $name } para { $day } estaba acabada entonces; marque antes sus pasos
prep-no-share = { $flag }: { $text } no es un número que valga; escriba uno por encima de 0 y como mucho { $most }
prep-covers-unknown = --covers: no se sabe cuántos comensales vienen el { $day }: hay registrados menos de dos servicios del plato en ese día de la semana con los suyos; indíquelo, o anótelo con `evenhand prep covers`
prep-force-of-none = --force: no se escribe nada; diga --out FILE o --pdf FILE
prep-no-days = --days: { $text } no es un número de días; escriba un número entero de 1 a 14
prep-until-past = --until: { $text } es anterior a { $now }; escriba un día o una hora posterior
prep-no-days-ahead = --days-ahead: { $text } no es un número de días; escriba un número entero de 0 a 14
prep-later-no-time = --later: { $text } no dice cuánto; escriba uno como 'fish: wash and beard=1 h'
prep-later-no-length = --later: { $text } no es una duración; escriba una como 1 h o 45 min
prep-later-beyond = --later: { $by } se sale del calendario
prep-no-step = { $flag }: no hay ningún paso { $name }; los que hay son { $known }
prep-not-listed = GOODS: { $name } no está en la lista de géneros; los que hay son: { $known }
prep-other-measure = AMOUNT: { $text } está en otra medida que el envase; escríbalo como el envase, que es { $pack }
prep-no-menu = no hay ninguna carta en el registro para { $day }; guarde una con `evenhand prep menu --keep FILE`
prep-refused = { $field }: { $why }
