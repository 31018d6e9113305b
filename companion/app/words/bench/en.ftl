# The connection, where the instrument's own words do not say it.
link-unplugged = No scale is connected. Plug its cable into this computer.
link-quiet = The scale has gone quiet. See that it has power and that its cable sits well.
link-first-reading = The scale is linked; its first reading is on the way.
scale-busy = The scale is still busy with what was asked before. Try again in a moment.
scale-not-chosen = No scale is chosen. Say where it is first.

# What the large figure is.
mass-no-reading = No reading
mass-cannot-weigh = Cannot weigh
mass-in-the-dish = In the dish
mass-taken-out = Taken out
mass-on-the-pan = On the pan
mass-net = Net
mass-captured = No. { $number }, counted
mass-struck = No. { $number }, struck out
mass-steady = steady
mass-moving = moving
mass-spoken-unknown = Mass not known
mass-spoken = { $mass } grams
mass-spoken-verdict = { $mass } grams, { $verdict }

# What to do next, at the dish.
prompt-add = Add food
prompt-take-out = Take some out
prompt-lift-off = Lift the dish off
prompt-hands-off = Hands off
prompt-dish-on = Put an empty dish on
prompt-hold-still = Hold still
prompt-fill = Fill, then lift off
prompt-tin-on = Put the tin on
prompt-take = Take a portion
prompt-tin-back = Put the tin back

# A few words for the probe's faults.
probe-unplugged = unplugged
probe-shorted = shorted
probe-no-answer = no answer
probe-out-of-range = out of range

# The run and its figures.
run-begun-elsewhere = A run begun elsewhere
run-count = Portions
run-mean = Mean
run-spread = Spread
run-today = Today
run-today-spread = spread { $mass }
run-in-doubt = In doubt
run-in-doubt-of = { $doubted } of { $count }
run-with-all = with all { $mass }
run-today-doubted = { $doubted } in doubt; without, spread { $mass }
tin-left = Left in the tin
tin-and-food = Tin and food
tin-portions-between = { $fewest } to { $most } portions
idle-start = Start portioning at once
idle-last-run = Last run, { $dish }: { $figures }.
idle-today = Today: { $figures }.
idle-today-doubted = Today: { $doubted } of { $figures } in doubt.
idle-none = No portions yet today.
figures-mean = { $portions }, mean { $mean }
figures-mean-spread = { $portions }, mean { $mean }, spread { $spread }
figures-in-doubt = { $doubted } of { $portions } in doubt; without them mean { $mean }, spread { $spread }; with them { $all }, { $allspread }

# Buttons.
button-undo-last = Undo last
button-put-back = Put back
undone = No. { $number } undone: { $mass }. It counts no more.
button-strike-out = Strike out
button-change-goal = Change goal
button-stop-run = Stop run
button-choose-dish = Choose a dish
button-find-scale = Find the scale
button-tare-off = Tare off
button-tare = Tare
button-zero = Zero
far-controls = Show the controls

# The verdict on the portion made last, the way to the target, the strip.
last-portion = Last, no. { $number }: { $verdict }
approach-nothing = Approach to { $goal }, nothing yet
approach = Approach to { $goal }: { $verdict }, { $distance }
strip-first = The first portion goes here
strip-summary = Portions in order: { $on } on, { $short } short, { $heavy } heavy, { $struck } struck out

# How long the scoops are out of the cold.
melt-seconds = { $seconds } s
melt-minutes = { $minutes } min
melt-left = { $time } left
melt-over = over by { $time }
melt-out = Out of the cold
melt-back = Back into the cold
melt-spoken = Out of the cold { $out }, { $stands }. Back in?
melt-rate = { $rate } ± { $within }/min
melt-losing = On the pan: { $lost } lost so far, { $rate } ± { $within } a minute.
