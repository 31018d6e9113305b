# Formulas: made and changed by touch, scaled, their dough's water, and what good batches share.
formula-heading = Formulas
formula-none = None is in the book yet
formula-new = A new one
formula-new-heading = A new formula
formula-from-trials = From trials
formula-about = Water { $water } of the base, { $total } in all, stages made beforehand: { $stages }
formula-of-base = { $name }, base
formula-beforehand = made beforehand
formula-add = + ingredient
formula-add-detail = per cent of the base
formula-add-stage = + stage
formula-add-stage-detail = starter, soaker
formula-in-stages = { $base } of the base is in what is made beforehand.
formula-is-kept = This is how it stands in the book.
formula-not-kept = This is not in the book yet.
formula-not-yet = It cannot be kept yet.
formula-amounts = How much
formula-water = Dough water
formula-keep = Into the book
formula-counts = Counts as
formula-counts-base = base
formula-counts-other = not base
formula-touch-for-base = touch for base
formula-line-about = Per cents are of the base: the flours of a dough, which come to 100 together, stages included. What is not base counts by the water in it.
formula-drop = Take it out
formula-stage-heading = Beforehand: { $name }
formula-stage-about = What of the whole formula goes into this stage, in per cent of the whole base. A starter is flour and water of the formula, too.
formula-starter-flour = Flour of the starter
formula-takes-none = none
formula-how-much = How much to make
formula-all-of = All there is of
formula-water-prompt = The water, so that the dough comes out right
formula-mixed = It came out so
formula-trials-heading = Batches of which title?
formula-no-trials = No batch has a title yet
formula-trials-prompt = What the good ones share
formula-choose-base = Touch what the shares are to be of: the flours of a dough, the beans of a milk.
formula-freeze = Freeze it into the book
formula-no-base = Nothing is chosen that the shares are of. Touch the flours first.
formula-usual = { $name ->
    [flour] flour
    [water] water
   *[salt] salt
}
formula-is-there = { $name } is in the book already: { $path }. Choose another name.
