# What is typed on the screens of the kitchen's own book.
book-typed = { $name }: “{ $text }” cannot be used: { $expected }
book-typed-nothing = { $name } is not said: { $expected }
book-not-said = not said
book-on-scale = On the scale: { $mass }
book-no-worker = The record does not answer any more. Close the program and open it again.
book-field = { $field ->
    [slab-mass] Slab weighs
    [slab-ends] Ends put aside
    [piece-mass] A piece weighs
    [piece-count] Or so many pieces
    [plate-name] Name
    [plate-price] The guest pays
    [part-name] Name
    [part-weight] Served of it
    [part-cost] Costs as bought
    [part-yield] Can be served of it
    [part-waste] Thrown out of that
    [formula-name] Name
    [work] How it is done
    [at-opening] Ready at opening
    [in-at] Went in at
    [out-at] Came out at
    [ends-at] Dough comes to
    [ingredient] Ingredient
    [percent] Per cent of the base
    [water-in] Water in it
    [stage] Stage
    [takes] Goes into the stage
    [starter] Starter
    [hydration] Water of the starter
    [base] By the base, all
    [total] By all of it
    [pieces] Pieces
    [each] Each weighs
    [lost] Lost in dividing
    [of-mass] So much there is
    [step] Step of the scale
    [flour-at] Flour is at
    [before-at] Made beforehand, at
    [dough-at] Dough wanted at
    [coldest] Coldest water
    [room] Room, by rule
    [friction] Friction, by rule
    [water-at] Water was at
    [ice] Of it ice
    [came-out-at] Dough came out at
    [freeze-as] Kept as
    [mark] Least good mark
    [cut] Cut
    [cut-mass] Weight
    [thickness] Thickest part
    [meat-water] Water in it
    [bath-water] Water of the bath
    [bath-salt] Salt of the bath
    [sauce-name] Sauce or paste
    [sauce-mass] How much of it
    [sauce-salt] Salt on its label
    [sauce-water] Water on its label
    [held-at] How warm it lies
    [core] Core to come to
    [lasting] Told for after
    [out-mass] Weight, drained
    [bath-after] Bath now, salt
    [bath-mass] Bath now, weight
    [in-piece] Or salt by a meter
   *[within] Give or take
}
book-entry = { $field ->
    [slab-mass] What does the slab weigh?
    [slab-ends] What do the ends weigh that are put aside?
    [piece-mass] What is a piece to weigh?
    [piece-count] How many pieces is it to give?
    [plate-name] What is the plate called?
    [plate-price] What does the guest pay?
    [part-name] What is put on the plate?
    [part-weight] How much of it is served?
    [part-cost] What does it cost as bought?
    [part-yield] How much of what is bought can be served?
    [part-waste] How much of that is thrown out all the same?
    [formula-name] What is it called?
    [work] How is it done? One sentence
    [at-opening] How many portions stand ready?
    [in-at] At what time did it go in?
    [out-at] At what time did it come out?
    [ends-at] How warm is the dough to be when mixed?
    [ingredient] Which ingredient?
    [percent] How much of it, of the base?
    [water-in] How much of it is water?
    [stage] What is made beforehand?
    [takes] How much goes into the stage, of the whole base?
    [starter] How much ripe starter, of the whole base?
    [hydration] How much water has the starter, of its flour?
    [base] How much of the base in all, stages included?
    [total] How much of everything together?
    [pieces] How many pieces?
    [each] What does each weigh when divided?
    [lost] How much is lost before it is divided?
    [of-mass] How much is there of it?
    [step] What is the smallest step of the scale?
    [flour-at] How warm is the flour?
    [before-at] How warm is what was made beforehand?
    [dough-at] How warm is the dough to be?
    [coldest] How cold is the coldest water at hand?
    [room] How warm is the room?
    [friction] What friction do you reckon with?
    [water-at] How warm was the water?
    [ice] How much of the water was ice?
    [came-out-at] How warm did the dough come out?
    [freeze-as] Under which name is it kept?
    [mark] From which mark on is a batch good? 1 to 9
    [cut] What goes in? Batches of one name are told together
    [cut-mass] What does all of it weigh?
    [thickness] How thick is one piece where it is thickest?
    [meat-water] How much of it is water?
    [bath-water] How much water is in the bath?
    [bath-salt] How much salt is in the bath?
    [sauce-name] Which sauce or paste?
    [sauce-mass] How much of it goes in?
    [sauce-salt] How much of it is salt, by its label?
    [sauce-water] How much of it is water, by its label?
    [held-at] How warm are piece and bath?
    [core] How much salt is its core to come to?
    [lasting] After how many hours is it to be told?
    [out-mass] What does all of it weigh, drained?
    [bath-after] How strong is the stirred bath now?
    [bath-mass] What does the bath weigh now?
    [in-piece] How much salt is in the piece, by a meter?
   *[within] Within how many percentage points was it read?
}
# What is asked for of one thing of several, such as a dish.
book-entry-about = { $about }: { $caption }
book-entry-hint = { $field ->
    [slab-mass] Touch what is on the scale, or type.
    [slab-ends] Nothing, where none are put aside.
    [plate-price] Nothing, to have no price.
    [part-yield] Nothing, where all of it.
    [part-waste] Nothing, where none of it.
    [in-at] Nothing, where it is now. The day is chosen beside it.
    [out-at] Nothing, where it is now. The day is chosen beside it.
    [friction] Only used until a dough was measured.
    [takes] Nothing, where none of it.
    [starter] Nothing, where there is none.
    [cut-mass] Touch what is on the scale, or type.
    [thickness] A long round one: its diameter.
    [sauce-salt] Where the label gives sodium: 2.5 times that.
    [sauce-water] Nothing, where nobody knows.
    [core] Per cent of its raw weight. Nothing to leave it open.
    [lasting] Nothing to leave it open.
    [out-mass] The same pieces, without their vessel.
    [bath-after] Per cent of the whole brine, by weight of a known vessel or a meter.
    [in-piece] All of it minced. Per cent of what came out.
   *[other] {""}
}
book-expected = { $field ->
    [cut-pieces] write a count from 1 to 500
    [money] write an amount and its currency, such as 26 EUR
    [cost] write an amount, its currency and the mass it buys, such as 2.40 EUR/kg
    [yield] write per cent above 0 and at most 100, such as 75
    [waste] write per cent from 0 to below 100, such as 10
    [share] write per cent of the base, above 0, such as 70
    [water-in] write per cent from 0 to 100
    [hydration] write per cent of its flour, from 30 to 300
    [pieces] write a count from 1 to 10000
    [lost] write per cent from 0 to below 50
    [mark] write a mark from 1 to 9
    [degrees] write degrees, such as 12
    [words] write a short name of one line
    [sentence] write one sentence of at most 200 letters
    [portions] write a count from 0 to 10000
    [time] write a time of day, such as 9:30
    [mass] write a weight above zero, in grams or with its unit, such as 250 or 1.2kg
    [mass-or-none] write a weight of zero or more, in grams or with its unit, such as 250 or 1.2kg
    [thickness] write millimetres above zero, such as 30
    [meat-water] write per cent from 20 to 90, such as 75
    [sauce-salt] write per cent above 0 and at most 50, such as 16
    [sauce-water] write per cent that with the salt comes to at most 100, or nothing
    [temperature] write a temperature, such as 4 or 39degF
    [core] write per cent of the raw weight, such as 1.6
    [lasting] write a time above zero, such as 5 for hours or 90min
    [strength] write per cent of the whole brine from 0 to 26.395, which is saturation at 60 °F
    [within] write percentage points above 0, such as 0.2
   *[percent] write per cent, such as 1.8
}
# A time of day and its day.
book-now = now
book-today = today
book-yesterday = yesterday
book-moment = { $problem ->
    [to-come] { $value } is still to come. Choose the day first, or write a time that has passed.
    [skipped] { $value } does not exist: the clocks are put forward over it.
    [twice] { $value } happens twice, as the clocks are put back. Write its offset behind it, such as 2:10+02:00.
   *[other] { $value } is no time of day. Write hours and minutes, such as 9:30.
}
