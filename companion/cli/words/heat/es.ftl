# Lo que se registra del calor, y para qué se vigila.
heat-watched-for = Se vigila { $name }: { $words }.
heat-aim-needed = Hace falta --from y --to, o --limit: ¿para qué se vigila?
