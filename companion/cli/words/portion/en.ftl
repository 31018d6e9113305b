# Portions as they come, and what is said beside them.
portion-verdict = { $verdict ->
    [short] short
    [on] on
   *[heavy] heavy
}
portion-known-to = known to { $within }
portion-either = so it could be either
portion-corrects = corrects portion { $number }
portion-doubt = { $doubt ->
    [maybe-two] maybe-two
    [taken-off-pan] taken-off-pan
    [hasty] hasty
    [touched] touched
    [maybe-changed] maybe-changed
   *[unknown] unknown
}
portion-struck = struck out: { $reason }
portion-count = --count: { $value } is no number of portions; write a whole number above zero, such as 20
portion-speed = { $field }: { $value } is no speed; write its seconds a second, from 0.01 to 10000, such as 10
portion-target = --target: { $why }
portion-no-scale = --port or --simulated is needed: where is the scale? `evenhand ports` lists the ports
portion-other-mode = { $asked }: the scenario { $title } is for { $is }; choose another scenario, or { $is }
portion-other-size = The cook of { $title } makes portions of { $makes }, not of { $asked }.
portion-no-link = the link cannot be opened: { $why }
portion-picture-failed = --picture: { $why }
portion-no-interrupts = Ctrl-C cannot be listened to: { $why }
portion-cannot-begin = the run cannot begin: { $why }
portion-link-broke = the link to the scale broke down; start again: the scale keeps what was not recorded
portion-resumed = Going on with the run of { $time }; { $count } of its portions are on record.
portion-recorded-again = Portions are put on record again.
portion-no-run = no run was begun
portion-out = Out of the cold for { $out }, limit { $limit }.
portion-melting = out { $out }, { $left } left
portion-melting-over = out { $out }, { $over } over
portion-out-over = Out of the cold for { $out }, limit { $limit }, over by { $over }: back into the cold.
portion-lost = { $count ->
    [one] { $count } portion was
   *[other] { $count } portions were
} lost: more were made than the scale could keep.
portion-unsent = { $count ->
    [one] { $count } portion is
   *[other] { $count } portions are
} not on record yet: the scale keeps them and sends them when it is linked again.
