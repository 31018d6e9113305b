# The kitchen's own book of formulas on the mixing screens.
book-button = Book
book-heading = From the book
book-empty = No formula is in the book yet. What good batches share can be put into it, or a file.
book-not-understood =
    { $count ->
        [one] Not understood: { $first }
       *[other] { $count } files are not understood. The first: { $first }
    }
# A stage of a formula that is made beforehand.
book-stage = { $name }: { $stage }
book-back = Back
book-before = Before
book-after = After
