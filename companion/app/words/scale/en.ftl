# Choosing where the scale is.
scale-title = Where is the scale?
scale-look-again = Look again
scale-no-port = This computer has no serial port at the moment. Plug the scale in, switch it on, and look again.
scale-simulated = Or try it on a simulated bench:

# Trying and calibrating it with known weights.
weights-try = Try it with weights
weights-calibrate = Calibrate it
weights-title-try = Try the scale with known weights
weights-title-calibrate = Calibrate the scale
weights-begin = Begin
weights-which-try = Which weights have you? One near half the capacity, one near a portion.
weights-which-calibrate = Which weights have you? One near capacity, one near half.
weights-class = Their class (OIML R 111-1), as stamped on them or on their box:
weights-run-going-on = A run is going on: stop it first.
weights-wait = Wait: not steady yet
weights-empty = It is empty
weights-on = It is on
weights-give-up = Give up
weights-step = Step { $step } of { $steps }
weights-put-on = Put on { $mass }
weights-empty-pan = Empty the pan
weights-nothing-on = Nothing on the pan, nothing leaning on it.
weights-in-the-middle = In the middle of the pan, and nothing else. Hands off.
weights-again = Again
weights-kept-old = The scale keeps its old calibration.

# What was made. Masses come with their unit.
calibration-made = Calibrated with { $points } points. At { $heaviest } it is known to { $uncertainty }.
