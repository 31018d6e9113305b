# Los lotes, en la línea de órdenes.
lot-refused = { $path }: { $why }
lot-sheet-written = La hoja de { $title } está en { $path }.
lot-over = { $title }: por encima de un límite
lot-stands = { $title }: { $outcome }
