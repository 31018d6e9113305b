# What the instrument waits for.
prompt-weighing = Weighing
prompt-await-dish = Put an empty dish on
prompt-dish-settling = Hold still: taking the dish's weight
prompt-filling = Fill, then lift the dish off
prompt-await-tin = Put the tin on
prompt-tin-settling = Hold still: taking the tin's weight
prompt-ready = Take a portion
prompt-spooning = Hands off: weighing what was taken
prompt-tin-away = Put the tin back
prompt-blocked = Cannot weigh
prompt-unknown = Weighing; this program is older than the scale

# What just happened. Masses come with their unit.
notice-run-started = The run has begun.
notice-run-stopped = The run has ended.
notice-dish-tared = The dish weighs { $mass }; its weight is taken off.
notice-dish-returned = Dish { $number } is back and was counted already; lifting it again corrects it and counts none.
notice-lifted-unsettled = The dish went before it was steady and was not counted; put it back to count it.
notice-lifted-empty = The dish went empty; nothing was counted.
notice-refilled = The tin was filled up by { $mass }.
notice-tin-away = The tin is off the scale.
notice-tin-back-lighter = The tin is back, { $mass } lighter.
notice-tin-back-heavier = The tin is back, { $mass } heavier.
notice-unaccounted = { $mass } left the tin at once, which is no portion; it was not counted.
notice-filled-while-taken = The tin became { $mass } heavier while a spoon was in it; what was taken meanwhile was not counted.
notice-zeroed = The scale has set its zero.
notice-found-on-pan = The scale was without power, and { $mass } is on it: that is not counted. Clear the scale and begin that portion anew.
notice-recalled =
    { $portions ->
        [one] The scale has sent again the one portion that it still held.
       *[other] The scale has sent again the { $portions } portions that it still held.
    }
notice-unknown = The scale said something that this program is too old to know.

# Why a portion's mass may be wrong.
doubt-maybe-two = So much was taken at once that it may be two portions.
doubt-straddles-limit = Its uncertainty reaches over a limit, so the verdict could be either.
doubt-taken-off-pan = It was taken while the tin was off the scale.
doubt-hasty = It was weighed in a moment of calm that was too short to be steady.
doubt-touched = The load changed by itself meanwhile, as if something touched the pan.
doubt-maybe-changed = Something came or went afterwards that may or may not belong to it.
doubt-unknown = The scale doubts it for a reason that this program is too old to know.

# Faults: what happened, and what to do.
fault-bridge-timeout = The scale has stopped answering.
fault-bridge-high-rail = The load sensor reads its upper end stop.
fault-bridge-low-rail = The load sensor reads its lower end stop.
fault-bridge-frozen = The load sensor repeats one value and never moves.
fault-bridge-out-of-step = The load sensor's readings came out of step.
fault-overload = There is too much on the pan.
fault-negative-load = The pan is lighter than its zero.
fault-zero-out-of-range = The empty pan is too far from zero.
fault-uncalibrated = This scale has not been calibrated.
fault-probe-open = The probe is unplugged or broken.
fault-probe-short-to-ground = The probe is shorted to ground.
fault-probe-short-to-supply = The probe is shorted to the supply.
fault-probe-silent = The temperature sensor does not answer.
fault-probe-out-of-range = The probe reads outside what it can measure.
fault-portions-lost = Portions were lost: more were made than could be kept.
fault-storage-failed = The scale cannot read or keep its settings.
fault-too-noisy = The scale is too noisy to count.
fault-restless = The load will not come to rest.
fault-unknown = The scale tells a fault that this program is too old to know: look at the scale.

remedy-bridge-timeout = Unplug the scale, count to five, plug it in again; if it stays, check the load cell's cable.
remedy-bridge-rail = Take everything off the pan; if it stays, check the load cell's cable.
remedy-bridge-frozen = Unplug the scale and plug it in again.
remedy-bridge-out-of-step = It restarts by itself and weighs on; if it comes back, look for a loose wire or a pump nearby.
remedy-overload = Take some off.
remedy-negative-load = Clear what lifts or leans on the pan, then zero the empty scale.
remedy-zero-out-of-range = Empty and wipe the pan, look under it, then zero; if it stays, calibrate.
remedy-uncalibrated = Calibrate it with two known weights before you trust it.
remedy-probe-open = Plug the probe in; weighing goes on without it.
remedy-probe-short = Dry the plug and look for a crushed cable; weighing goes on without it.
remedy-probe-silent = Weighing goes on without it; check the sensor board's cable.
remedy-probe-out-of-range = Let the probe come back into its range, or change it.
remedy-portions-lost = Keep the cable in, and count the portions by hand against the list.
remedy-storage-failed = Weighing goes on, but settings are lost at the next power cut.
remedy-too-noisy = Keep phones and hobs away from its wires; if it stays, use a smaller load cell or feed it more voltage.
remedy-restless = Let go of the pan; if it stays, something touches it or the table sways: nothing is counted until it rests.

# How things stand with the instrument, and what to do.
link-none-chosen = No scale is chosen.
link-no-port = There is no port { $port }.
link-not-allowed = This user may not open { $port }.
link-busy = Another program is using { $port }.
link-port-failed = { $port } cannot be used: { $why }.
link-calling = Calling the scale on { $port }.
link-silent = Nothing answers on { $port }.
link-not-ours = Something answers on { $port }, but not as an Evenhand instrument.
link-other-version = The scale on { $port } speaks version { $theirs } of the link, and this program speaks version { $ours }.
link-desktop-at-other-end = What comes from { $port } is what a desktop program sends, or an echo of it.
link-linked = The scale on { $port } is linked.
link-other-instrument = Another scale answers on { $port }: it is { $found }, and the one before was { $known }.
link-lost = The scale on { $port } is gone.
link-scenario-over = The simulated bench has come to its end.
link-no-bench = The simulated bench cannot be set up: { $why }.

link-none-chosen-do = Choose the scale's port, or the simulated bench.
link-no-port-do = Plug the scale in and switch it on, or choose another port.
link-not-allowed-do = Add this user to the group that owns the port (often "dialout"), then log in again.
link-busy-do = Close the other program.
link-port-failed-do = Unplug the scale and plug it in again, or choose another port.
link-calling-do = Wait a moment.
link-silent-do = See that the scale is switched on and that this is its port.
link-not-ours-do = Choose another port: this one belongs to something else.
link-other-version-newer-do = Install a newer version of this program.
link-other-version-older-do = Bring the scale's firmware up to date.
link-desktop-at-other-end-do = Choose the port that the scale is on.
link-other-instrument-do = Plug the first one in again; or, to go on with this one, choose its port again or start again. Nothing is taken from it until then, and it keeps what it counted.
link-lost-do = Plug its cable in again. The scale keeps what it counts meanwhile and sends it then.
link-scenario-over-do = Start it again, or choose another scenario.
link-no-bench-do = Check the scenario's file.
link-looked-for-again = It is looked for again by itself.
link-called-again = It is called again by itself.

# What is wrong at the desktop's end.
trouble-too-fast = Portions come faster than anybody makes them: something is wrong with the scale, and the rest waits in it.
trouble-scale = Something is wrong with the scale: { $why }.
trouble-store = Portions cannot be put on record: { $why }.
trouble-clock-back = This computer's clock was set back by { $by }. Portions keep their order; times before and after may overlap.

portion-clash = the scale sent two different portions under one number; the first one counts
portion-senseless-goal = the scale sent a portion whose target makes no sense
portion-senseless-correction = the scale sent a correction of a portion that it cannot correct
portion-beyond-capacity = the scale sent a portion beyond what it can weigh
portion-senseless-uncertainty = the scale sent a portion whose uncertainty makes no sense
portion-senseless-temperature = the scale sent a portion whose temperature makes no sense
portion-other-instrument = the scale sent a portion that another scale captured

# Why what was asked for was not done.
not-done-no-run = No run is going on.
not-done-store = { $why }.
not-done-refused = The scale did not do it: { $why }.
not-done-no-reply = The scale does not reply: ask again, or unplug it and plug it in.
not-done-link-lost = The link to the scale went before it replied: ask again when it is back.
not-done-too-many = Too much was asked of the scale at once: wait a moment.

refusal-not-stable = the load was moving: wait until it is steady and ask again
refusal-beyond-zero-range = too much is on the pan to call it zero: empty it, or tare instead
refusal-negative-tare = the load is below zero: empty the pan and zero it
refusal-faulty = the scale has a fault that stops weighing
refusal-no-run = no run is going on
refusal-unknown = this scale does not know that command: it is older than the program, or made without it
refusal-running = a run is going on: end it first
refusal-not-calibrating = no calibration is going on: begin one first
refusal-setting = the place is nowhere on land: latitude -90 to 90 degrees, height -500 to 9000 m

goal-target-not-positive = the target must be above zero
goal-tolerance-negative = a tolerance cannot be negative
goal-tolerance-swallows-target = the tolerance below must be smaller than the target, else nothing at all would be on target
goal-beyond-capacity = the target and its tolerance exceed what this scale can weigh

calibration-too-few-points = a calibration needs the empty pan and at least one known weight
calibration-too-many-points = a calibration takes at most sixteen points
calibration-no-zero = the empty pan is missing from the calibration points
calibration-negative-load = a calibration weight cannot be below zero
calibration-not-a-number = a calibration point holds a number that is not finite
calibration-no-span = the reading hardly changed between two weights: check that the weight was on the pan and the load cell is connected
calibration-not-straight = the weights do not fit together: check that each was what you said, and that nothing touches the pan

test-not-stable = the load was moving: wait until it is steady and ask again
test-too-light = the test weight is too light to test this scale: use a heavier one
test-too-heavy = the test weight is heavier than this scale may weigh
test-too-coarse = the test weight is not exact enough for this scale: use a better class
test-another-load = what is on the pan is not that weight: zero the empty pan, put only the weight on, and ask again
