# What the record, or a file beside it, refuses, for a screen. $name is a file or what was asked for.
record-refused = { $code ->
    [moved] { $name } se movió, se reemplazó o se borró mientras este programa lo tenía abierto. Cierre el programa y ábralo de nuevo. La balanza guarda las porciones nuevas hasta entonces.
    [newer] { $name } lo escribió una versión más nueva de este programa. No se cambió nada. Instale la versión más nueva.
    [damaged] { $name } está dañado. No se cambió nada. Ponga una copia en su lugar.
    [read-only] No se puede escribir en { $name }. Deje que este usuario escriba ahí. Lo registrado sigue intacto.
    [full] El disco está lleno y no cabe nada más en el registro. Haga sitio. La balanza guarda las porciones nuevas hasta entonces.
    [busy] Otro programa está escribiendo en { $name }. Espere y pruebe de nuevo, o ciérrelo.
    [disk] No se pudo leer o escribir { $name }. Revise el disco. Lo registrado sigue intacto.
    [not-there] { $name } no está en el registro. Vuelva y elija de nuevo.
    [none] Aquí todavía no hay registro.
    [input] { $name } no se puede usar. Escríbalo de nuevo.
   *[other] El registro no pudo hacerlo ({ $name }). Lo registrado sigue intacto. Pruebe de nuevo.
}
# Why the system did not read or write a file.
record-why = { $code ->
    [not-there] no está ahí
    [denied] este usuario no tiene permiso
    [full] el disco está lleno
   *[other] el sistema dice { $number }
}
record-limits-unreadable = No se puede leer { $file }: { $why }. No se juzga nada hasta que se pueda.
record-limits-refused = No se entiende { $file }. No se juzga nada hasta que se corrija.
