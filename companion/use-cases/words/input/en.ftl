# What was typed and cannot be used. What is wrong with it and what to write
# instead are reasons, whose sentences are the kitchen's.
# What a field is called where it is no option and no key of a file; $name is the
# field with hyphens. English has the name as it is.
input-field = { $name ->
   *[other] { $field }
}
input-line = line { $line }
input-line-column = line { $line }, column { $column }
input-refused = { $field }: { $value } { $problem }; { $expected }
input-unsaid = { $field } { $problem }; { $expected }
