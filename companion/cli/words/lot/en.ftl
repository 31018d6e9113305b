# Lots, on the command line.
lot-refused = { $path }: { $why }
lot-sheet-written = The sheet of { $title } written to { $path }.
lot-over = { $title }: over a limit
lot-stands = { $title }: { $outcome }
