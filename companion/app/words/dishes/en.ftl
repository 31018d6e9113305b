# Choosing a dish.
dishes-title = What are you portioning?
dishes-new = New dish
dishes-none = No dish is known yet. Press New dish and give the first one a name.
dish-line = { $goal }, { $mode }

# Naming one.
naming-field = Name of the dish

# Setting up a run, or its goal.
setup-adding = Into dishes
setup-adding-how = Put a dish on, fill it, lift it off
setup-taking = Out of a tin
setup-taking-how = Set the tin on, spoon out of it
setup-start = Start
setup-goal-title = { $dish }: from the next portion on
setup-use-goal = Use this goal
setup-target = Target
setup-tolerance = Tolerance
setup-step = { $what } { $by }
setup-tin-none = Tin not entered
setup-tin-none-open = No tin is open
setup-tin-open = Open tin: { $left } left
setup-tin-new = New tin
setup-tin-food = Food in the new tin
setup-cannot-be = This cannot be: { $why }.
setup-on-target = On target from { $from } to { $to }.
setup-waiting = Waiting for the scale: it must be connected first.
