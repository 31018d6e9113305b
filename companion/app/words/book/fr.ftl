# Le livre de formules de la cuisine aux écrans de mélange.
book-button = Livre
book-heading = Du livre
book-empty = Aucune formule dans le livre. On peut y mettre ce que partagent les bons lots, ou un fichier.
book-not-understood =
    { $count ->
        [one] Pas compris : { $first }
       *[other] { $count } fichiers ne sont pas compris. Le premier : { $first }
    }
book-stage = { $name } : { $stage }
book-back = Retour
book-before = Précédents
book-after = Suivants
