# What is recorded of heat, and what it is watched for. Names of logs and limits
# are said as they are typed.
heat-watched-for = { $name } is watched for { $words }.
heat-aim-needed = --from and --to, or --limit, is needed: watched for what?
heat-band-needed = --from and --to are needed: which band? `evenhand heat aim` keeps one with a log
heat-limit-needed = --limit is needed: which limit? `evenhand heat limits` lists them
heat-limit-unknown = { $flag }: there is no limit { $name }; known are { $known }
heat-organism-unknown = --organism: { $name } is not known here; write one of { $known }
heat-at-flag = { $flag }: { $why }
heat-no-file = { $flag }: { $path } cannot be read: { $why }
heat-no-table = { $flag }: { $path }: { $why }
heat-correction-refused = { $why }
heat-no-length-back = --back: { $text } is no length of time; write one such as 24 h or 90 min
heat-no-length-for = --for: { $text } is no length of time; write one such as 20 min or 3 h
heat-no-step = --longest-step: { $text } is no such length of time; write one up to 24 h, such as 15 min

# A log against a limit. Labels stand before a sentence and have room for twelve
# letters.
heat-label-limit = limit
heat-label-readings = readings
heat-label-probe = probe
heat-label-lethality = lethality
heat-label-record = record
heat-label-reduction = reduction
heat-label-corrected = corrected
heat-label-limit-from = limit from
heat-label-outcome = { $outcome ->
    [broken] OVER
    [kept] within
    [running] so far
    [cannot-tell] cannot tell
    [too-close] TOO CLOSE
   *[noted] note
}
heat-label-alarm = { $alarm ->
    [quiet] ahead
    [look] LOOK
    [close] TOO CLOSE
    [act] ACT NOW
   *[over] OVER
}
heat-about = { $name }: { $about }
heat-readings = { $from } to { $to }
heat-lethality = { $minutes } minutes at { $at } degC, z { $z } degC ({ $source }); { $gaps } min of gaps not counted.
heat-reduction = { $log } log10 of { $organism }: D { $d } min at { $at } degC, z { $z } degC ({ $source }); { $gaps } min of gaps not counted.
heat-organism = { $name ->
   *[other] { $written }
}
heat-corrections = { $count } in force; the record itself is as it was measured
heat-judged = { $limit }: { $outcome }
heat-limits-region = region { $region }; the kitchen's own limits and its region stand in { $file } in the data folder

# A forecast.
heat-for-band = For { $band }:
heat-times-in-ten = { $times } times in ten the truth should lie in the interval.
heat-mornings = { $count ->
    [one] { $count } earlier morning was looked at.
   *[other] { $count } earlier mornings were looked at.
}

# How far a probe may be out.
heat-probe-needed = --type is needed: the limits file does not say what the probe is
heat-probe-good = good to { $within } at { $at } degC (expanded uncertainty, k = 2, JCGM 100)
heat-probe-chain = type { $kind } class { $class }, converter { $converter } degC, cold junction { $junction } degC; { $source }
heat-probe-in-file = in { $file }, for every judgement:
heat-probe-by-file = as the limits file says

# A log on record.
heat-written-out = { $count } readings of { $name } are in { $path }.
heat-no-reading = no reading yet
heat-last-reading = { $celsius } degC at { $at }
heat-listed = { $name }: { $last }
heat-listed-for = { $name }: { $last }, for { $aim }
heat-no-log = No heat log is on record yet; `evenhand heat watch` begins one.
heat-gap = gap of { $seconds } s without readings
heat-left-out = left out
heat-added = { $by } degC added
heat-correction = correction { $number }: { $from } to { $to } { $what }: { $reason }
heat-correction-lifted = correction { $number }: { $from } to { $to } { $what }: { $reason }, lifted since
heat-line-left-out = left out: { $why }
heat-taken-in = { $added } readings are now in the log { $name }; { $there } were there already; { $gaps } gaps.
heat-marked = { $name }: { $word } at { $at }
heat-marker-wrong = { $flag }: { $text } is empty or longer than 60 characters; write a word or two, such as "fire out"
heat-no-correction-number = --lift: { $text } is no correction's number; write a whole number
heat-lifted = Correction { $number } is lifted; it stays on record.
heat-correction-needed = --leave-out or --add is needed: what is wrong with the stretch?
heat-corrected = Correction { $number } is added to { $name }; what was measured stays on record.

# Watching.
heat-name-twice = --name: { $name } stands twice; each probe has a log of its own
heat-place-needed = --port or --simulated is needed: where is the probe? `evenhand ports` lists the ports
heat-no-link = the link cannot be opened: { $why }
heat-link-broke = the link to the scale broke down; start again: what was recorded is kept
heat-probes = { $probes ->
    [one] --name: { $names } logs are named, but the instrument reports { $probes } probe
   *[other] --name: { $names } logs are named, but the instrument reports { $probes } probes
}
heat-not-recorded = Not recorded: { $name }: { $why }.
heat-recorded-again = Readings are recorded again.
heat-kept = { $name }  { $celsius } degC
heat-kept-after-gap = { $name }  { $celsius } degC  (after a gap)
heat-limit-from = limit from { $source }. { $caution }
