# Fórmulas: hechas y cambiadas con el dedo, escaladas, el agua de su masa y lo que comparten las buenas elaboraciones.
formula-heading = Fórmulas
formula-none = Aún no hay ninguna en el libro
formula-new = Una nueva
formula-new-heading = Una fórmula nueva
formula-from-trials = De las pruebas
formula-about = Agua { $water } de la base, { $total } en total, etapas hechas antes: { $stages }
formula-of-base = { $name }, base
formula-beforehand = se hace antes
formula-add = + ingrediente
formula-add-detail = tanto por ciento de la base
formula-add-stage = + etapa
formula-add-stage-detail = masa madre, remojo
formula-in-stages = { $base } de la base está en lo que se hace antes.
formula-is-kept = Así está en el libro.
formula-not-kept = Esto aún no está en el libro.
formula-not-yet = Aún no se puede guardar.
formula-amounts = Cuánto
formula-water = Agua de la masa
formula-keep = Al libro
formula-counts = Cuenta como
formula-counts-base = base
formula-counts-other = no es base
formula-touch-for-base = toque si es base
formula-line-about = Los tantos por ciento son de la base: las harinas de una masa, que suman 100, etapas incluidas. Lo que no es base cuenta por el agua que tiene.
formula-drop = Quitarlo
formula-stage-heading = Antes: { $name }
formula-stage-about = Qué parte de toda la fórmula entra en esta etapa, en tanto por ciento de toda la base. Una masa madre es también harina y agua de la fórmula.
formula-starter-flour = Harina de la masa madre
formula-takes-none = nada
formula-how-much = Cuánto hacer
formula-all-of = Todo lo que hay de
formula-water-prompt = El agua, para que la masa salga bien
formula-mixed = Salió así
formula-trials-heading = ¿Elaboraciones de qué nombre?
formula-no-trials = Ninguna elaboración tiene nombre aún
formula-trials-prompt = Lo que comparten las buenas
formula-choose-base = Toque de qué son los tantos por ciento: las harinas de una masa, las habas de una leche.
formula-freeze = Fijarla en el libro
formula-no-base = No se ha elegido de qué son los tantos por ciento. Toque primero las harinas.
formula-usual = { $name ->
    [flour] harina
    [water] agua
   *[salt] sal
}
formula-last-bowl = mezcla final
formula-made-for = { $name } va entera en ella.
formula-goes-into = Va en
formula-goes-into-heading = ¿En qué va { $name }?
formula-goes-into-about = Una etapa va entera a un solo sitio: a la mezcla final o a otra etapa, como el segundo refresco de una masa madre. Lo que va en una etapa se hace antes que ella.
formula-how = Cómo se hace
formula-how-none = Aún no hay nada escrito
formula-how-count =
    { $count ->
        [0] sin indicar
        [one] una frase
       *[other] { $count } frases
    }
formula-add-work = + frase
formula-work-heading = Frase { $nth } de { $of }
formula-work-touch = Tóquela para reescribirla
formula-earlier = Antes
formula-later = Después
formula-limits = Límites que valen
formula-limits-touch = Toque los que debe cumplir
formula-limits-count =
    { $count ->
        [0] ninguno
        [one] un límite
       *[other] { $count } límites
    }
formula-limits-none = No hay ningún límite elegido. Los elegidos salen en la hoja para quien toma el relevo, con sus cifras y fuentes.
formula-limit-not-in-force = { $name }: no hay en vigor ningún límite con ese nombre. Tóquelo para quitarlo o escríbalo en el archivo de límites de la cocina.
formula-not-in-force = no está en vigor
formula-beside = Con otro nombre se guarda junto a «{ $name }», que se queda.
formula-remove = Quitar del libro
formula-remove-heading = ¿Quitar «{ $name }» del libro?
formula-remove-it = Sí, quitar «{ $name }» del libro
formula-remove-about = Sus elaboraciones y masas siguen en el registro. Su archivo no se borra: pasa a la carpeta «taken-out», junto a los demás.
formula-remove-leave = Dejarla en el libro
formula-removed = «{ $name }» ya no está en el libro. Su archivo es { $path }.
