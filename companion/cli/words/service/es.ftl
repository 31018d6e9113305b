# Servicios: sus comandas, platos, ajustes y el relevo.
service-day = servicio { $day }
service-day-orders = servicio { $day }: { $orders }
service-first-order = primera comanda { $time }
service-last-order = última comanda { $time }
service-day-begins = el día de un servicio empieza a las { $time }
service-cooks = { $setting ->
    [own] cada cocinero ve sus cifras, y las de todos los demás juntas
   *[hidden] se muestran las cifras de cada cocinero, con los nombres ocultos
}
service-say-when = { $field }: diga cuándo, pues { $day } no es el servicio de ahora; escriba una hora, como 18:30
service-beyond = { $field }: { $value } está fuera del calendario
service-other-day = { $field }: { $value } es del servicio de { $of }, no del de { $day }; dé otro --day u otra hora
service-no-portions = todavía no hay raciones registradas; haga alguna con `evenhand portion`, o vea `evenhand demo`
service-none-for-it = No hay raciones registradas de él.
service-savings = Lo que más ahorraría:
service-nothing-yet = Todavía no hay ningún servicio registrado: no se hizo ninguna ración. Vea `evenhand portion`.
service-listed = { $service }, { $count ->
    [one] { $count } ración
   *[other] { $count } raciones
}
service-file-unread = FILE: { $file }: { $why }
service-plates-unread = no se pueden leer los platos: { $why }
service-plate-value = plato { $plate }: { $why }
service-file-long = FILE: { $file } tiene { $size } bytes; se esperan como mucho { $most }
service-no-plates = FILE: no hay platos registrados; cree uno con `evenhand service plate`, o nombre un archivo de platos, con --keep para registrarlos
service-plate-not-there = { $field }: { $name } no está; vea `evenhand service plates`
service-plate-removed = { $plate } ya no está registrado.
service-plate-made = { $count ->
    [0] { $plate }: aún no lleva nada; precio { $price }.
   *[other] { $plate }: { $things }; precio { $price }.
}
service-plates-kept = { $count ->
    [one] { $count } plato registrado
   *[other] { $count } platos registrados
}.
service-plate-price = { $cost } de { $price }, quedan { $margin } ({ $share } es género)
service-plate-rate = a { $rate }
service-count = { $dish }: { $ready ->
    [one] { $ready } lista
   *[other] { $ready } listas
}, { $out ->
    [one] { $out } servida
   *[other] { $out } servidas
}
service-handover = el relevo
page-written = Escrito en { $path }: { $what }.
