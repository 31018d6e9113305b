# Doughs mixed, and pieces in a bath.
dough-mixed = batch { $number }: { $rose }
dough-other-batch = --batch: { $number } is titled { $title }, the dough { $formula }; name the batch that it is, or leave --batch out
dough-untitled-batch = --batch: { $number } has no title, the dough is { $formula }; name the batch that it is, or leave --batch out
uptake-not-in-bath = BATCH: nothing of batch { $number } was weighed into a bath; `evenhand brine in` does that
