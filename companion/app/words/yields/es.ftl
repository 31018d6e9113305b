# Batches by what came out of them.
yields-heading = Lo que salió
yields-choose = Toque lo que se hizo.
yields-none = Todavía no hay registrado nada que saliera de un lote.
yields-about =
    { $count ->
        [one] 1 lote: { $names }
       *[other] { $count } lotes: { $names }
    }
yields-touch = Toque un lote para ver sus cifras.
yields-over = Sobre: { $name }
yields-batch = { $day }: { $figures }
# Beside a batch of which nobody knows when it was begun.
yields-no-day = sin día
yields-nothing-named = Nada de lo que entró en estos lotes tiene nombre. Póngale nombre a lo pesado y vuelva.
