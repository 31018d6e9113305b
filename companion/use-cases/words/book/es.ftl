# Una fórmula del libro de la cocina.
book-stage = { $name } (se hace antes), { $total }
book-last-bowl = mezcla final, { $total }
book-line = { $mass } { $name } ({ $percent } %)
book-starter = masa madre
book-sum = { $total } en total, { $base } de base; agua { $hydration } % de la base.
book-pieces =
    { $count ->
        [one] Para una pieza de { $each }.
       *[other] Para { $count } piezas de { $each }.
    }
book-too-coarse = { $name }: muy poco para pasos de { $step }. Lo pesado se desvía un { $off } %. Use una balanza más fina o haga más de una vez.

# El agua de una masa.
dough-water = Agua a { $at }.
dough-ice = { $ice } de hielo y { $water } de agua a { $coldest }.
dough-too-cold = El agua tendría que estar a { $at }, más de { $warmest }, y la levadura no lo aguanta. Caliente la harina o la sala.
dough-too-warm = Aun con toda el agua en hielo la masa sale demasiado caliente. Enfríe la harina o lo que se hizo antes.
dough-rise =
    { $doughs ->
        [one] El amasado y la sala añadieron { $kelvin } grados a la única masa medida.
       *[other] El amasado y la sala añaden { $kelvin } grados, según las últimas { $doughs } masas medidas.
    }
dough-give-or-take = Ocho masas de cada diez salen a menos de { $kelvin } grados de lo que se quiere.
dough-few =
    { $more ->
        [one] Cuánto puede desviarse no se sabe hasta medir una masa más.
       *[other] Cuánto puede desviarse no se sabe hasta medir { $more } masas más.
    }
dough-by-rule = Agua a { $at }, por la cuenta del oficio con la fricción indicada. No tiene en cuenta cuánto hay de cada cosa: mida esta masa al terminar y la próxima se sabrá mejor.
dough-by-rule-ice = La cuenta del oficio da { $at }, es decir hielo: cuánto, no se sabe hasta medir una masa. Use el agua más fría que haya y mida la masa.
dough-not-known-yet = Aún no se sabe: no se ha medido ninguna masa con este nombre. Mida harina, agua y masa de la próxima; hasta entonces indique la temperatura de la sala y una fricción.
dough-rose = El amasado y la sala añadieron { $kelvin } grados.

# Lo que comparten los buenos lotes.
trials-count =
    { $count ->
        [one] Un lote, { $good } con nota { $mark } o mejor.
       *[other] { $count } lotes, { $good } con nota { $mark } o mejor.
    }
trials-left-out =
    { $count ->
        [one] Un lote no cuenta: no tiene nada de la base o tiene algo sin nombre.
       *[other] { $count } lotes no cuentan: no tienen nada de la base o tienen algo sin nombre.
    }
trials-shared = { $name } { $mean } %, más o menos { $spread } (en { $batches } de { $good })
trials-shared-once = { $name } { $mean } % (en { $batches } de { $good })
trials-more-better = Más { $name } fue con mejor nota. El azar solo da algo así { $chance } veces de cada cien.
trials-less-better = Menos { $name } fue con mejor nota. El azar solo da algo así { $chance } veces de cada cien.
trials-nothing = Nada de lo que se varió se distingue del azar en las notas.
trials-not-known-yet =
    { $more ->
        [one] Qué cambia la nota aún no se sabe: falta un lote con nota.
       *[other] Qué cambia la nota aún no se sabe: faltan { $more } lotes con nota.
    }
trials-next = Para saber más, pruebe { $name } al { $to } % en vez de { $from } % y deje lo demás igual. Nada dice que será mejor.

# A file of the book, for a screen.
book-unreadable = No se puede leer { $path }: { $why }.
book-file-line = { $file }: no se entiende la línea { $line }: { $value }
book-file-refused = { $file }: { $why }
book-twice = { $first } y { $second } se llaman los dos «{ $name }». Cambie el nombre de uno.
book-not-there = «{ $name }» no está en el libro. Vuelva y elija de nuevo.
book-is-there = «{ $name }» ya está en el libro, como { $file }. Elija otro nombre.
book-unwritable = No se puede escribir { $path }: { $why }. No se cambió nada.
# La página para quien se hace cargo de un plato.
takeover-portion = Una ración son { $target }; de { $from } a { $to } vale.
takeover-formula = Qué pesar
takeover-ends-at = Amasada, debe estar a { $at }.
takeover-how = Cómo
takeover-steps = Para cuándo, el { $day }
takeover-step-done = hecho: { $step }
takeover-limits = Límites que se aplican
takeover-watch = En qué fijarse
takeover-nothing = Nada en el registro se distingue del azar.
takeover-heavy = Las raciones suelen pesar { $mean } % de más (de { $from } a { $to }, en { $of } servicios).
takeover-light = Las raciones suelen pesar { $mean } % de menos (de { $from } a { $to }, en { $of } servicios).
takeover-too-warm = Demasiado caliente al amasar: { $count } de las últimas { $of } masas.
takeover-too-cold = Demasiado fría al amasar: { $count } de las últimas { $of } masas.
takeover-more = Suele entrar { $mean } % más de { $name } de lo que dice la fórmula (de { $from } a { $to }, en { $of } lotes).
takeover-less = Suele entrar { $mean } % menos de { $name } de lo que dice la fórmula (de { $from } a { $to }, en { $of } lotes).
takeover-tasted = { $day }, nota { $mark }: { $note }
takeover-looked-at = Se miraron: servicios { $services }, masas { $doughs }, lotes { $batches }. Los márgenes se cumplen 96 veces de cada cien.
takeover-pictures = Fotos
takeover-picture = Foto { $number } ({ $width } por { $height } píxeles)
takeover-picture-of = Foto { $number }: { $caption } ({ $width } por { $height } píxeles)
takeover-picture-broken = La foto { $number } ya no se puede leer. Quítela y dela de nuevo.
takeover-foot = { $name }, página { $nth } de { $of }

# El dibujo de los lotes según lo que salió de ellos.
yields-lost = entró y no salió
yields-figures = entra > sale, sobre { $of }, y la nota

# Por qué no puede ser una fórmula o su masa.
book-refused = { $field ->
    [base] Base: suma { $value }. Aquello de lo que son los tantos por ciento suma 100 %: las harinas de una masa, etapas incluidas.
    [formula] Nombre: { $value } no lo es. Escriba un nombre corto de una línea.
    [ingredients] Ingredientes: { $value }. Una fórmula tiene de 2 a 40.
    [stage] Etapa: { $value } no puede ser. Una etapa toma ingredientes de la fórmula, cada uno una vez, y no más de lo que hay.
    [percent] { $name }: { $value } no es una parte. Escriba un tanto por ciento de la base mayor que 0.
    [mark] Nota: ninguna de estas elaboraciones llega a { $value }. Pruebe más, o pida menos.
    [dough] Temperatura de la masa: { $value }. Diga a cuánto ha de quedar, de 0 a 60 °C.
    [before] Lo hecho antes: { $value }. Diga a qué temperatura está, de −30 a 60 °C.
    [warm] { $name }: { $value } no entra en una masa. Escriba una temperatura de −30 a 60 °C, del agua de 0 a 100 °C.
    [ice] Hielo: { $value } no puede ser. Es como mucho toda el agua.
   *[other] { $name }: { $value } no sirve.
}
book-refused-name = { $field ->
    [flour] Harina
   *[water] Agua
}
