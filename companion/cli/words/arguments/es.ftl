# Argumentos que no se pueden leer.
argument-missing = falta { $arguments }: escríbalo también
argument-unknown = { $argument } no se conoce aquí{ $alike ->
    [none] {""}
   *[some] ; uno conocido es { $suggested }
}
argument-value = { $argument } no puede ser { $value }{ $any ->
    [none] {""}
   *[some] ; escriba uno de { $values }
}
argument-value-refused = { $argument } no puede ser { $value }: { $why }
argument-without-value = { $argument } necesita un valor
argument-conflict = { $argument } y { $other } no van juntos; quite uno
argument-count = { $argument } recibió otro número de valores del que toma
argument-command-unknown = { $command } no es una orden{ $alike ->
    [none] {""}
   *[some] ; una conocida es { $suggested }
}
argument-command-missing = falta una orden; escriba una de { $values }
argument-other = no se entienden los argumentos
argument-usage = Uso: { $usage }
argument-help = Para saber más, pruebe --help.
