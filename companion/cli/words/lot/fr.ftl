# Les lots, en ligne de commande.
lot-refused = { $path } : { $why }
lot-sheet-written = La feuille de { $title } est dans { $path }.
lot-over = { $title } : au-dessus d'une limite
lot-stands = { $title } : { $outcome }
