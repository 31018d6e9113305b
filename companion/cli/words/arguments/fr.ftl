# Arguments qui ne peuvent pas être lus.
argument-missing = il manque { $arguments } : écrivez-le aussi
argument-unknown = { $argument } n'est pas connu ici{ $alike ->
    [none] {""}
   *[some] ; un argument connu est { $suggested }
}
argument-value = { $argument } ne peut pas être { $value }{ $any ->
    [none] {""}
   *[some] ; écrivez l'un de { $values }
}
argument-value-refused = { $argument } ne peut pas être { $value } : { $why }
argument-without-value = { $argument } demande une valeur
argument-conflict = { $argument } et { $other } ne vont pas ensemble ; ôtez-en un
argument-count = { $argument } a reçu un autre nombre de valeurs que celui qu'il prend
argument-command-unknown = { $command } n'est pas une commande{ $alike ->
    [none] {""}
   *[some] ; une commande connue est { $suggested }
}
argument-command-missing = il manque une commande ; écrivez l'une de { $values }
argument-other = les arguments ne sont pas compris
argument-usage = Usage : { $usage }
argument-help = Pour en savoir plus, essayez --help.
