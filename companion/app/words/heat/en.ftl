# A temperature log as a curve: where it is, where it is going, what to do.
heat-log-last = { $temperature } at { $time }
heat-log-no-reading = no reading yet
heat-log-not-begun = not begun
heat-choose = Choose a log above, put the probe in, and record.
heat-record = Record
heat-stop = Stop
heat-recording = recording { $log }
heat-watch-for = Watch for

# What happens to an oven or a pan: the buttons that mark it.
heat-mark-fire-out = Fire out
heat-mark-loaded = Loaded
heat-mark-taken-out = Taken out
heat-mark-into-the-cold = Into the cold

heat-now = Now
heat-arrival = { $temperature } at about
heat-silent = Not heard since { $time }: what it is now is not known.
heat-no-reading = No reading in the last half day: what it is now is not known.
heat-mornings = { $count ->
    [one] { $count } earlier morning was looked at.
   *[other] { $count } earlier mornings were looked at.
}
heat-corrections = { $count ->
    [one] { $count } correction in force; what was measured stays on record.
   *[other] { $count } corrections in force; what was measured stays on record.
}
heat-begin = Put the probe in, record, and say what it is watched for.
heat-watched-band = Watched for { $band }.
heat-watched-nothing = No band and no limit is set yet.
heat-limit-from = Limit from { $source }. { $probe } { $caution }
heat-not-recorded = { $log } is not recorded: { $why }.

# Read out.
heat-curve = Curve of { $log }: { $readings ->
    [one] { $readings } reading
   *[other] { $readings } readings
}, { $gaps ->
    [one] { $gaps } gap
   *[other] { $gaps } gaps
}
