# What was typed and cannot be used: what is wrong with it, and what to write
# instead. English has the domain's own words. $first and $second are figures or
# names within them.
input-problem = { $code ->
    [with] { $first } { $second }
   *[other] { $written }
}
input-wanted = { $code ->
    [with] { $first } { $second }
   *[other] { $written }
}
input-refused = { $field }: { $value } { $problem }; { $wanted }
input-unsaid = { $field } { $problem }; { $wanted }
