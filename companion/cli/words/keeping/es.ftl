# Copias del registro, revisiones de cada fila, tablas que entran y salen, la noche inventada.
backup-database = FILE: { $path } es una base de datos, o pertenece a una; elija otro nombre
backup-written = { $count ->
    [one] { $count } ración escrita en { $path } y releída
   *[other] { $count } raciones escritas en { $path } y releídas
}, fila por fila.
restore-done = { $count ->
    [one] { $count } ración repuesta desde { $path } y releída
   *[other] { $count } raciones repuestas desde { $path } y releídas
}, fila por fila.
restore-aside = Lo que había antes está en { $path }.
check-sound = { $path } está bien: { $count ->
    [one] { $count } ración leída, tal como se escribió
   *[other] { $count } raciones leídas, cada una tal como se escribió
}.
check-not-sound = { $path } no está como se escribió; reponga una copia con `evenhand restore FILE`, que guarda este al lado
check-nothing-found = No falta ningún número y no se cambió ninguna fila.
chain-none = La báscula { $scale } no encadena sus raciones: no se sabe si alguna se cambió junto con su suma de control. Lo diría un instrumento cuyo programa las encadene.
chain-linked = Báscula { $scale }: { $count ->
    [one] { $count } ración
   *[other] { $count } raciones
} en su cadena{ $agrees ->
    [yes] , y ninguna contradice a la anterior
   *[no] ; lo que no concuerda se nombra arriba
}.
chain-unlinked = { $linked } De { $count ->
    [one] { $count } ración
   *[other] { $count } raciones
} fuera de la cadena no se sabe si alguna se cambió junto con su suma de control.
found-structure = la estructura del archivo está dañada ({ $why })
found-orphan = una fila de { $table } pertenece a una que no está
found-portion-changed = la ración { $id } no se lee como se escribió
found-strike-changed = una anulación de la ración { $id } no se lee como se escribió
found-not-as-made = la ración { $id } no es como la hizo la báscula, según lo que lleva de ella la siguiente, { $next }
found-unlinked = la ración { $id } no lleva nada de la anterior, como sí llevan las de antes
found-misplaced = la ración { $id } está en un lugar equivocado de la cadena de su báscula
found-missing-before = { $count ->
    [one] falta { $count } ración hecha antes de la ración { $id }
   *[other] faltan { $count } raciones hechas antes de la ración { $id }
}: perdida, o registrada en otro ordenador o por un programa más antiguo
found-given-up = la propia báscula no tuvo sitio para { $count ->
    [one] { $count } ración hecha
   *[other] { $count } raciones hechas
} antes de la ración { $id }
found-begun-again = la báscula empezó de nuevo su cadena con la ración { $id }: su memoria se perdió, o no se pudo leer
found-begun-again-often = la báscula empezó de nuevo su cadena con la ración { $id }, y { $times } veces antes: su memoria se perdió, o no se pudo leer
found-forked = las raciones { $one } y { $other } siguen las dos a la ración { $id }: la memoria de la báscula no pudo guardar la primera, o no es de la báscula
found-missing-one = la ración { $id } no está: perdida, o registrada en otro ordenador
found-missing-some = las raciones { $first } a { $last } no están: perdidas, o registradas en otro ordenador
found-senseless-correction = la ración { $id } está unida a una que no puede corregir
found-picture-changed = la imagen { $id } no se lee como se escribió
found-wrong-sum = la suma guardada de { $dish } para los 32 días desde { $from } no es la de las raciones
found-wrong-sum-elsewhere = la suma guardada de tandas empezadas en otro sitio para los 32 días desde { $from } no es la de las raciones
export-written = { $count ->
    [one] { $count } ración escrita
   *[other] { $count } raciones escritas
} en { $path }.
import-unread = FILE: no se puede leer { $file }: { $why }
import-refused = FILE: { $file }: { $why }
import-done = { $count ->
    [one] { $count } ración añadida
   *[other] { $count } raciones añadidas
}, { $already } ya registradas.
import-bad-lines = FILE: { $count ->
    [one] { $count } línea de { $all } no se puede usar
   *[other] { $count } líneas de { $all } no se pueden usar
}, así que no se trajo nada{ $lines }
import-bad-line = línea { $line }: { $why }
import-line-refused = { $reason ->
    [too-long] tiene más de { $values } bytes; escriba cada fila en una línea
    [not-utf8] no es texto UTF-8; guarde la tabla como UTF-8
    [never-closed] tiene unas comillas que no se cierran, o un valor en dos líneas; escriba cada fila en una línea
    [too-many] tiene { $values } valores y la tabla tiene { $headings } encabezados, así que quedarían en columnas equivocadas; ponga entre comillas un valor que lleve un separador, como "30,1"
   *[no-row] no se puede leer como fila de una tabla
}
import-file-refused = { $reason ->
    [table] el archivo no se puede leer como tabla: { $what }
    [not-utf8] el archivo está en UTF-16; guarde la tabla como UTF-8
    [read] el archivo no se puede leer: { $what }
    [no-heading] no hay ningún encabezado { $what }; el archivo tiene { $there }
   *[two-headings] dos columnas tienen el encabezado { $what }; dé otro nombre a una
}
import-more = y { $count } más
import-odd = { $count ->
    [one] { $count } peso lejos
   *[other] { $count } pesos lejos
} de los demás del mismo plato:
import-odd-line = línea { $line }: { $words }, { $deviations } desviaciones típicas por { $side ->
    [below] debajo
   *[above] encima
}
import-not-compared = { $count ->
    [one] { $count } peso
   *[other] { $count } pesos
} de platos más allá de los mil primeros: no se sabe si están lejos de los demás.
import-would = { $count ->
    [one] Se traería { $count } ración
   *[other] Se traerían { $count } raciones
}; no se trajo nada.
import-weighing = { $mass } de { $target }
read-as = Leído con { $separator ->
    [comma] una coma
    [semicolon] un punto y coma
   *[tab] un tabulador
} entre valores{ $commas }{ $mark ->
    [yes] , tras una marca de orden de bytes
   *[no] {""}
}.
read-as-commas = , { $count ->
    [one] { $count } { $what ->
        [weight] peso
       *[number] número
    }
   *[other] { $count } { $what ->
        [weight] pesos
       *[number] números
    }
} con coma decimal
demo-not-empty = la carpeta ya tiene raciones, y una noche inventada no pinta nada entre ellas; elija una vacía con --data DIR
demo-senseless = la noche inventada no se sostiene: { $why }
demo-made = Una noche inventada en Saltmarsh, { $night }, diez servicios anteriores y el día siguiente hasta ahora: { $count ->
    [one] { $count } ración
   *[other] { $count } raciones
}, en { $folder }.
demo-there = La noche inventada de { $night } ya está en { $folder }.
demo-look = Mírela con: evenhand service show --data "{ $folder }"
simulate-flash = --flash: { $why }
simulate-truth = --truth: no se puede escribir { $path }: { $why }
simulate-no-terminal = no se puede abrir una pseudoterminal: { $why }
simulate-failed = falló la mesa simulada: { $why }
gather-done = { $others ->
    [0] Ningún otro ordenador ha contado nada todavía
    [one] { $others } diario de otro ordenador
   *[other] { $others } diarios de otros ordenadores
}: { $taken } líneas recogidas, { $told } contadas.
gather-not-whole = { $file } todavía no está completo: lo que falta se recoge la próxima vez.
gather-newer = { $file } es de una versión más nueva de este programa y no se ha leído; instale aquí esa versión.
gather-waiting = { $count ->
    [one] { $count } línea habla de algo que aún no ha llegado; se guarda
   *[other] { $count } líneas hablan de algo que aún no ha llegado; se guardan
} hasta que llegue.
gather-clashes = { $count ->
    [one] { $count } línea llegó con la identidad de otra; se guardan las dos, y aquí cuenta la que ya estaba
   *[other] { $count } líneas llegaron con la identidad de otras; se guardan todas, y aquí cuentan las que ya estaban
}: `evenhand gather --overruled` las enumera.
gather-set-aside = Lote { $batch }: { $count ->
    [one] { $count } línea no tiene sentido junto a lo que otro ordenador añadió al mismo tiempo, y no cuenta; queda registrada
   *[other] { $count } líneas no tienen sentido junto a lo que otro ordenador añadió al mismo tiempo, y no cuentan; quedan registradas
} de todos modos. Repase este lote.
gather-renumbered = Este registro se copió o se repuso desde una copia: este ordenador tiene un número nuevo y un diario nuevo.
gather-file-written = { $file } se cambió en otro ordenador y se escribe aquí.
gather-none-overruled = Nunca dos ordenadores han dicho cosas distintas.
gather-overruled = { $kind ->
    [setting] El ajuste { $key }
    [dish] El nombre del plato que primero fue { $key }
    [plain_file] El archivo { $key }
    [prep_menu] Un menú { $key }
    [goods_list] Una lista de géneros
    [service-first_order] La primera comanda del { $key }
    [service-last_order] La última comanda del { $key }
    [heat_reading] Una lectura de { $key }
    [portion] La porción { $key }
   *[other] { $kind } { $key }
}: lo que dijo el ordenador { $desk } a las { $at } no cuenta, porque cuenta otra versión. Se guarda: `evenhand gather --overruled`.
gather-file = { $path } no se puede usar: { $why }
