# A formula of the kitchen's own book. Masses and temperatures come with their unit,
# shares in per cent of the base.
book-stage = { $name } (made beforehand), { $total }
book-last-bowl = final mix, { $total }
book-line = { $mass } { $name } ({ $percent } %)
book-starter = starter
book-sum = { $total } in all, { $base } of it the base; water { $hydration } % of the base.
book-pieces =
    { $count ->
        [one] For one piece of { $each }.
       *[other] For { $count } pieces of { $each }.
    }
book-too-coarse = { $name }: too little for steps of { $step }. What is weighed is { $off } % off. Use a finer scale or make more at once.

# The water of a dough.
dough-water = Water at { $at }.
dough-ice = { $ice } of ice and { $water } of water at { $coldest }.
dough-too-cold = Water would have to be at { $at }, hotter than { $warmest }, which yeast does not bear. Warm the flour or the room.
dough-too-warm = Even with all of the water as ice the dough comes out too warm. Cool the flour or what was made beforehand.
dough-rise =
    { $doughs ->
        [one] Mixing and the room added { $kelvin } degrees to the one dough that was measured.
       *[other] Mixing and the room add { $kelvin } degrees, from the last { $doughs } doughs that were measured.
    }
dough-give-or-take = Eight doughs in ten come out within { $kelvin } degrees of what is wanted.
dough-few =
    { $more ->
        [one] How far off it may be is not known before one more dough is measured.
       *[other] How far off it may be is not known before { $more } more doughs are measured.
    }
dough-by-rule = Water at { $at }, by the trade's arithmetic with the friction that was said. It leaves out how much there is of each thing: measure this dough when it is mixed, and the next will be known better.
dough-by-rule-ice = The trade's arithmetic comes to { $at }, which is ice: how much of it is not known before a dough is measured. Use the coldest water there is, and measure the dough.
dough-not-known-yet = Not known yet: no dough of this name was measured. Measure flour, water and dough of the next one; until then say the room's temperature and a friction to reckon with.
dough-rose = Mixing and the room added { $kelvin } degrees.

# What the good batches of a thing share. Shares in per cent of the base.
trials-count =
    { $count ->
        [one] One batch, { $good } of it marked { $mark } or better.
       *[other] { $count } batches, { $good } of them marked { $mark } or better.
    }
trials-left-out =
    { $count ->
        [one] One batch is left out: it has nothing of the base, or something without a name.
       *[other] { $count } batches are left out: they have nothing of the base, or something without a name.
    }
trials-shared = { $name } { $mean } %, give or take { $spread } (in { $batches } of { $good })
trials-shared-once = { $name } { $mean } % (in { $batches } of { $good })
trials-more-better = More { $name } went with a better mark. Chance alone looks like this { $chance } times in a hundred.
trials-less-better = Less { $name } went with a better mark. Chance alone looks like this { $chance } times in a hundred.
trials-nothing = Nothing that was varied stands out from chance in the marks.
trials-not-known-yet =
    { $more ->
        [one] What changes the mark is not known yet: one more batch with a mark is needed.
       *[other] What changes the mark is not known yet: { $more } more batches with a mark are needed.
    }
trials-next = To learn more, try { $name } at { $to } % instead of { $from } % and leave the rest as it is. Nothing says that it will be better.

# A file of the book, for a screen.
book-unreadable = { $path } cannot be read: { $why }.
book-file-line = { $file }: line { $line } is not understood: { $value }
book-file-refused = { $file }: { $why }
book-twice = { $first } and { $second } are both called “{ $name }”. Rename one of the two.
book-not-there = “{ $name }” is not in the book. Go back and choose again.
book-is-there = “{ $name }” is in the book already, as { $file }. Choose another name.
book-unwritable = { $path } cannot be written: { $why }. Nothing was changed.
# The page for whoever takes a dish over.
takeover-portion = A portion is { $target }; from { $from } to { $to } is on.
takeover-formula = What to weigh
takeover-ends-at = Mixed, it is to be at { $at }.
takeover-how = How
takeover-steps = By when, for { $day }
takeover-step-done = done: { $step }
takeover-limits = Limits that apply
takeover-watch = What to watch
takeover-nothing = Nothing in the record stands apart from chance.
takeover-heavy = Portions are usually { $mean } % too heavy ({ $from } to { $to }, over { $of } services).
takeover-light = Portions are usually { $mean } % too light ({ $from } to { $to }, over { $of } services).
takeover-too-warm = Too warm when mixed: { $count } of the last { $of } doughs.
takeover-too-cold = Too cold when mixed: { $count } of the last { $of } doughs.
takeover-more = Usually { $mean } % more { $name } goes in than the formula says ({ $from } to { $to }, over { $of } batches).
takeover-less = Usually { $mean } % less { $name } goes in than the formula says ({ $from } to { $to }, over { $of } batches).
takeover-tasted = { $day }, mark { $mark }: { $note }
takeover-looked-at = Looked at: services { $services }, doughs { $doughs }, batches { $batches }. Ranges hold 96 times in a hundred.
takeover-pictures = Pictures
takeover-picture = Picture { $number } ({ $width } by { $height } pixels)
takeover-picture-of = Picture { $number }: { $caption } ({ $width } by { $height } pixels)
takeover-picture-broken = Picture { $number } can no longer be read. Take it off and give it again.
takeover-foot = { $name }, page { $nth } of { $of }

# The picture of batches by what came out of them.
yields-lost = went in and did not come out
yields-figures = in > out, over { $of }, and the mark

# Why a formula or its dough cannot be: { $value } was there.
book-refused = { $field ->
    [base] Base: it comes to { $value }. What the shares are of comes to 100 % together: the flours of a dough, stages included.
    [formula] Name: { $value } is none. Write a short name of one line.
    [ingredients] Ingredients: { $value }. A formula has 2 to 40.
    [stage] Stage: { $value } does not go. A stage takes ingredients of the formula, each once, and no more than there is.
    [percent] { $name }: { $value } is no share. Write per cent of the base above 0.
    [mark] Mark: { $value } is reached by none of these batches. Taste more of them, or ask for less.
    [dough] Dough's temperature: { $value }. Say how warm the dough is to be, from 0 to 60 °C.
    [before] What was made beforehand: { $value }. Say how warm it is, from −30 to 60 °C.
    [warm] { $name }: { $value } is nothing that goes into a dough. Write a temperature from −30 to 60 °C, of water from 0 to 100 °C.
    [ice] Ice: { $value } cannot be. It is at most all of the water.
   *[other] { $name }: { $value } cannot be used.
}
book-refused-name = { $field ->
    [flour] Flour
   *[water] Water
}
