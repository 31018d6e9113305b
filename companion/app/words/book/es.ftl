# El libro de fórmulas de la cocina en las pantallas de mezcla.
book-button = Libro
book-heading = Del libro
book-empty = Aún no hay fórmulas en el libro. Se puede guardar lo que comparten los buenos lotes, o un archivo.
book-not-understood =
    { $count ->
        [one] No se entiende: { $first }
       *[other] No se entienden { $count } archivos. El primero: { $first }
    }
book-stage = { $name }: { $stage }
book-back = Volver
book-before = Anteriores
book-after = Siguientes
