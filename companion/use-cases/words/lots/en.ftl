# One food through all its steps, each held against its limit, on a sheet.
lots-as-on-record = As on record at { $at }: { $outcome }.
lots-no-limit-held = no step is held to a limit
lots-batch = batch { $number }: { $title }
lots-no-title = no title
lots-not-named = not named
lots-not-ready = not ready: { $why }
lots-between = On the way to the next step, not watched: { $gap }.
lots-gap = { $from } to { $to } ({ $lasting })
lots-going-on = going on
lots-step = { $mark } – { $step }, { $from } to { $to }
lots-mark = { $outcome ->
    [kept] within
    [broken] OVER
    [running] so far
    [cannot-tell] cannot tell
    [too-close] TOO CLOSE
    [noted] note
   *[no-limit] no limit
}
lots-limit = Limit { $name }: { $demand }.
lots-held-to-none = Held to no limit: nothing is judged.
lots-read-by = Read by: { $log }.
lots-read-by-nothing = Read by nothing.
lots-found = { $mark }: { $found }
lots-not-read = Not read: { $gap }.
lots-corrections = Corrections in force: { $count }; what was measured stays on record.
lots-limit-from = Limit from { $source }.
lots-page = { $title }, page { $nth } of { $of }

# Why a lot is not judged.
lots-unreadable = the lot file cannot be read: { $why }
lots-field = step '{ $step }': { $why }
lots-empty = { $what ->
    [title] title is empty, expected a name
   *[name] name is empty, expected a name
}
lots-no-steps = the lot has no steps, expected at least one [[step]]
lots-backward = step '{ $step }' ends before it begins
lots-open = step '{ $step }' has no end; only the last step may go on
lots-overlaps = step '{ $step }' begins before '{ $before }' ended
lots-no-log = step '{ $step }' is held to a limit that a thermometer answers, and names no log
lots-unknown-limit = step '{ $step }': there is no limit '{ $limit }' in force; known are { $known }
lots-file-unreadable = { $path } cannot be read: { $why }
lots-none-there = No lot is in the folder { $folder } of this kitchen’s data.
