# Batches by what came out of them.
yields-heading = Ce qui est sorti
yields-choose = Touchez ce qui a été fait.
yields-none = Rien de ce qui sort d'un lot n'est encore noté.
yields-about =
    { $count ->
        [one] 1 lot : { $names }
       *[other] { $count } lots : { $names }
    }
yields-touch = Touchez un lot pour ses chiffres.
yields-over = Sur : { $name }
yields-batch = { $day } : { $figures }
# Beside a batch of which nobody knows when it was begun.
yields-no-day = sans date
yields-nothing-named = Rien de ce qui est entré dans ces lots n'a de nom. Nommez ce qui a été pesé, puis revenez.
