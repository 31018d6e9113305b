# Una proporción y una mezcla en la báscula. Los pesos llevan su unidad.
ratio-form = { $form ->
    [of-water] % del agua
    [of-total] % del total
    [bakers] % de la harina
    [of-meat-and-water] % de carne y agua juntas
    [of-meat] % de la carne
   *[parts] partes en peso
}
ratio-too-few = una proporción tiene al menos dos ingredientes: añada uno
ratio-only-meat-and-water = carne y agua solas no son una proporción: añada al menos otro, en % de las dos juntas
ratio-nameless = el n.º { $item } no tiene nombre: diga antes qué era
ratio-twice = { $name } está dos veces: dé a cada uno su nombre
ratio-no-amount = { $name }: { $number } no es una cantidad; debe ser más de cero
ratio-nothing-left = { $rest }: los demás dejan { $left } % de los cien; deben sumar menos de 100 %
ratio-flours = las harinas suman { $sum } %; toda la harina junta es 100 %

mix-no-such = no hay tal ingrediente en esta mezcla
mix-unguarded = { $agent } es un agente de curado: diga cómo se cura la carne, y qué de la mezcla es carne y qué salmuera
mix-wrong-guard = la forma de curado no es la de esta mezcla: prepárela otra vez en la pantalla de curado
mix-not-confirmed = confirme antes: lea el nitrito en la etiqueta de { $agent }
mix-other-label = la etiqueta dice { $read }, la mezcla se calculó para { $expected }; no se pesa nada
mix-target-unknown = fije o pese antes los demás: de ellos depende cuánto { $name }
mix-nothing-chosen = elija antes un ingrediente
mix-not-settled = la báscula no se ha parado desde que se eligió el ingrediente
mix-not-there = se sacó { $taken } de { $name } y solo hay { $there }
mix-cannot-take-back = { $name } ya no se puede sacar de la mezcla

walk-not-steady = la báscula se mueve: deje que se pare
walk-changed = { $mass } en la báscula antes de confirmar la etiqueta: corríjalo antes y siga
walk-may-be-agent = lo que se puso puede ser { $agent }: diga qué es; si nadie lo sabe, aparte la mezcla y empiece otra vez, con carne nueva
walk-nothing-poured = aún no se ha puesto nada que pueda ser otra cosa
walk-agent = un agente de curado no se cambia por otra cosa: empiece otra vez, con carne nueva

notice-grown = { $name } se pasó; con los demás a la par da { $total } en total
notice-grown-room = { $name } se pasó; con los demás a la par da { $total } en total; caben { $room }
notice-no-room = da { $total } y caben { $room }: saque parte de la mezcla o use un recipiente más grande
notice-not-enough = hacen falta { $needed } de { $name } y hay { $available }
notice-cannot-be-undone = { $name } se pasa en { $over } y ya no se puede sacar
not-ready-short = faltan { $missing } de { $name }
not-ready-to-come = falta { $name }
