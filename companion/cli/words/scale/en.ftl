# The scale itself: calibration, the morning's test, settings, health.
scale-before = The scale should have been on for half an hour, level, with its pan on. Put the heaviest weight on and take it off three times before you begin.
scale-take-off = Take everything off the pan.
scale-put-on = Put { $mass } in the middle of the pan, and nothing else.
scale-hand = { $step } (The simulated hand does it.)
scale-enter = { $step } Then press Enter.{" "}
scale-counts = { $counts } counts
scale-made = calibrated with { $points } points: { $counts } counts a gram; at { $heaviest } within { $uncertainty } (k = 2); off a straight line by { $nonlinearity } at most; the points lie within { $residual }
scale-calibrated = calibrated with { $points } points, within { $uncertainty } at { $heaviest } (k = 2)
scale-history-empty = No calibration and no try with a known weight is on record yet; see `evenhand scale calibrate` and `evenhand scale try`.
scale-further-out = the scale is further out than it may be: calibrate it before service
scale-nothing-to-set = nothing to set: write --latitude and --height, or --probe
scale-set = set
scale-nobody = nobody is at the keyboard to say that it is done
scale-keyboard = the keyboard cannot be read: { $why }
scale-too-much = too much was asked of the scale at once: try again
scale-not-done = { $why }
scale-silent = { $what ->
    [still] the simulated bench stands still
    [answer] the scale does not answer
    [found] the scale does not tell what it found
    [read] the scale does not tell what it read
    [made] the scale does not tell what it made
   *[health] the scale does not say how it is
}: unplug it, plug it in again, and begin anew
scale-not-all-sent = the scale does not say that it has sent everything: ask again
doctor-rate = rate: { $rate } conversions a second, { $count } since it started
doctor-rate-not-known = rate: not known: too few conversions have come without a gap; wait ten seconds and ask again
doctor-noise = noise: { $noise } g a conversion (standard deviation)
doctor-noise-counts = noise: { $noise } counts a conversion (standard deviation); in grams it is known once the scale is calibrated
doctor-noise-not-known = noise: not known: too few conversions have come
doctor-reach = this cell on this board: { $step } in { $seconds } s of quiet, by its noise
doctor-no-reach = this cell on this board cannot weigh to { $step }: its noise allows { $allowed } g; use a smaller load cell, or feed it more voltage
doctor-bridge = bridge converter: { $faults } faults, { $timeouts } of them time-outs; { $restarts } restarts; { $reads } reads dropped as doubtful
doctor-probe = probe: { $faults } faults
doctor-start = last start: { $why ->
    [watchdog] by its watchdog, because no conversions came
    [program] by its own program, after something that should not be
    [power] the power came
   *[unknown] by power, reset button or its own program; it cannot tell which
}
doctor-flash = flash: { $erases } erases of { $pages } pages, { $share } % of what they are made for
doctor-recalled = { $count } portions that the scale still held were sent again; those that were not on record are now
