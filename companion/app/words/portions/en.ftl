# Reasons to strike a portion out.
reason-fell = Fell or spilled
reason-tasted = Tasted
reason-not-a-portion = Not a portion
reason-wrong-dish = Wrong dish
reason-put-back = Put back
reason-bumped = Pan was bumped
reason-own-hint = or in your own words
reason-own = Reason in your own words

portions-no-run = No run is going on, so there are no portions to show.
portions-title = { $dish }: pick a portion to strike out
portion-corrected = corrected by a later weighing
portion-doubted = { $verdict }. { $doubt }
portion-spoken = Portion { $number }, { $mass }, { $standing }
portion-spoken-struck = Portion { $number }, { $mass }, struck out: { $reason }
strike-what-happens = It stays in the record, marked, and no longer counts.
strike-why = Why should portion { $number } not count?
strike-was-struck = Portion { $number } was struck out: { $reason }.
strike-was-corrected = Portion { $number } does not count: a later weighing took its place.
strike-out = Strike out
strike-count-again = Count it again
portions-newer = { $count ->
    [one] 1 new portion
   *[other] { $count } new portions
}
portions-all-listed = Every portion is listed
