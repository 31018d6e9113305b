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
formula-last-bowl = final mix
formula-made-for = { $name } goes whole into it.
formula-goes-into = Goes into
formula-goes-into-heading = What does { $name } go into?
formula-goes-into-about = A stage goes whole into one place: into the final mix, or into another stage, such as a starter's second build. What goes into a stage is made before it.
formula-how = How it is done
formula-how-none = Nothing is written yet
formula-how-count =
    { $count ->
        [0] not said
        [one] one sentence
       *[other] { $count } sentences
    }
formula-add-work = + sentence
formula-work-heading = Sentence { $nth } of { $of }
formula-work-touch = Touch it to write it anew
formula-earlier = Earlier
formula-later = Later
formula-limits = Limits that apply
formula-limits-touch = Touch what it is held to
formula-limits-count =
    { $count ->
        [0] none
        [one] one limit
       *[other] { $count } limits
    }
formula-limits-none = No limit is chosen. Those that are stand on the page for whoever takes over, with their figures and sources.
formula-limit-not-in-force = { $name }: no limit of that name is in force. Touch it to leave it out, or write it into the kitchen's limits file.
formula-not-in-force = not in force
formula-beside = Under another name it is kept beside “{ $name }”, which stays.
formula-remove = Out of the book
formula-remove-heading = Take “{ $name }” out of the book?
formula-remove-it = Yes, take “{ $name }” out of the book
formula-remove-about = Its batches and doughs stay on record. Its file is not deleted: it is put into the folder “taken-out” beside the others.
formula-remove-leave = Leave it in the book
formula-removed = “{ $name }” is out of the book. Its file is { $path }.
