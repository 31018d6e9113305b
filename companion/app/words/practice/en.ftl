# The practice bench: no real scale, a hand by mouse or finger.
practice-open = Practice bench
practice-about = No scale yet? Pour, spill and lift by mouse or finger. It is kept apart from the kitchen's record.
practice-dish = Practice dish
practice-title = Practice bench: there is no real scale, and nothing here goes on the kitchen's record.
practice-simulated = Simulated bench: there is no real scale, and the cook is made up.
practice-dish-on = Dish on
practice-tin-on = Full tin on
practice-bowl-on = Bowl on
practice-lift-off = Lift off
practice-pour-fast = Pour fast
practice-pour-slowly = Pour slowly
practice-hold = hold it down
practice-spoon-out = Spoon out
practice-spill = Spill
practice-leave-spoon = Leave the spoon in
practice-take-spoon = Take the spoon up
practice-probe-in = Probe into hot food
practice-probe-out = Probe out
practice-end = End practice

# The guided first minutes, one sentence a step.
guide-step = Step { $step } of { $steps }
guide-leave = Leave the guide
guide-open = Show the guide
guide-dish-on = Put the dish on.
guide-first-portion = Pour to 60 g, fast and then slowly, and lift the dish off.
guide-undo = Press "{ $button }": the portion counts no more.
guide-too-much = Put a dish on again, spill too much into it, and lift it off.
guide-stop-run = Press "{ $button }": the run ends.
guide-open-brine = Open "{ $mix }", then "{ $button }".
guide-weigh-brine = Press "{ $button }", then "{ $weigh }".
guide-water-and-salt = Put the bowl on, and pour water and salt until both are on.
guide-ended = That was all: try anything, or end the practice.
