# Arguments that cannot be read. In English the reader of the arguments says this itself, and only the codes are used.
argument-missing = { $arguments } missing: write it too
argument-unknown = { $argument } is unknown here{ $alike ->
    [none] {""}
   *[some] ; a known one is { $suggested }
}
argument-value = { $argument } cannot be { $value }{ $any ->
    [none] {""}
   *[some] ; write one of { $values }
}
argument-value-refused = { $argument } cannot be { $value }: { $why }
argument-without-value = { $argument } needs a value
argument-conflict = { $argument } and { $other } do not go together; leave one out
argument-count = { $argument } was given another number of values than it takes
argument-command-unknown = { $command } is no command{ $alike ->
    [none] {""}
   *[some] ; a known one is { $suggested }
}
argument-command-missing = a command is missing; write one of { $values }
argument-other = the arguments cannot be understood
argument-usage = Usage: { $usage }
argument-help = For more, try --help.
