# Cómo está un paso de la mise en place: una palabra corta.
prep-standing = { $standing ->
    [late] TARDE
    [now] YA
    [under-way] en marcha
    [next] sigue
    [later] después
   *[done] hecho
}

prep-seen-done = visto hecho en la báscula a las { $time }
prep-oven-no-name = { $log }: ningún registro se llama así.
prep-oven-not-recorded = { $log }: sin registrar, no se sabe cuándo estará.
prep-oven-no-band = { $log }: su intervalo no tiene sentido.
prep-oven-coming = { $log } en su intervalo hacia las { $likely } (de { $early } a { $late }); { $advice }
prep-oven-perhaps-never = { $log } en su intervalo hacia las { $likely } (no antes de las { $early }, quizá nunca); { $advice }
prep-oven-inside = { $log } ya en su intervalo; { $advice }
prep-oven-inside-until = { $log } ya en su intervalo, hasta las { $leaves }; { $advice }
prep-oven-not-coming = { $log }: tal como va, no llega a su intervalo.
prep-oven-unknown = { $log }: { $why }

prep-begin = empiece a partir de las { $from }
prep-begin-done = empiece a partir de las { $from }, listo a las { $until }
prep-begin-else = { $begin }; si no, { $action }
prep-now-or-not = ya, a las { $latest } lo más tarde, u hoy no
prep-action-then = { $action }; después, { $begin }
prep-oven-too-short = no es seguro que aguante lo que esto tarda
prep-open-door = abra la puerta { $length }
prep-relight = vuelva a encender el horno

prep-mend-oven = para { $step }, { $action }
prep-mend-more = uno más de { $resource }, de { $from } a { $to }
prep-mend-swap = sirva { $fallback } en lugar de { $preparation }
prep-mend-buy = compre { $preparation } ya hecho
prep-mend-drop = quite { $preparation } de la carta
prep-mend-later = abra { $length } más tarde

prep-more-hands = Más manos no ayudan: los pasos, uno tras otro, tardan demasiado.
prep-short-of = No alcanza: { $resource }.
prep-short-and-late = No alcanza: { $resource }; aun alcanzando, { $late } tarde.
prep-dish-off = { $dish }: fuera de carta hasta { $ready }, { $late } tarde.

prep-open = Sin saber, hay demasiadas formas que probar: { $open }.
prep-open-shortage = si lo que falta es { $resource }
prep-open-more = uno más de { $resource }
prep-open-oven = el horno para { $step }
prep-open-without = sin { $preparation }

prep-no-menu = No hay carta registrada para el { $day }; guárdela con: evenhand prep menu --keep FILE
