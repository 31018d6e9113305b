# Why a command could not be carried out.
output-closed = the output was closed
output-failed = the output cannot be written: { $why }
period-reversed = --from is not before --to; swap them
place-belongs-after = --port and --simulated belong after the command: evenhand portion --port PATH
no-passing-folder = no folder for passing files can be made: { $why }
answered-as-empty = There is no store in { $folder }: this is answered as if nothing were on record.
scale-simulated = The scale is simulated: what it makes is kept in { $folder }, to be read with --data.
no-serial-port = this computer has no serial port now; plug the scale in
no-screens = this build has no screens; use a command, which `evenhand help` lists
no-picture = this build has no screens and draws no picture
# What was typed in.
needed = { $field } is needed; write it with its unit, such as { $field } { $example }
goal-senseless = --target and --tolerance: { $why }
mode-needed = --adding or --taking is needed: is food added to an empty dish, or taken from a full tin?
unit-unknown = --unit: { $value } is not a unit of mass; write g, kg, oz or lb
scenario-unreadable = the scenario { $path } cannot be read: { $why }
scenario-refused = { $field }: { $why }
scenario-unknown = { $field }: { $why }; write a file's path, or one of { $names }
# Files that are written.
file-failed = { $field }: { $path } cannot be written: { $why }; nothing was changed
file-there = { $field }: { $path } is there already; choose another name, or --force to write over it
file-refused = { $field }: { $path } is { $what ->
    [store] part of the store
    [database] a database, or belongs to one
    [folder] a folder
   *[no-file] no plain file
}; choose another name; nothing was changed
page-failed = the page cannot be made: { $why }
# Why the store does not do as asked.
store-no-place = this system names no folder for data; say where with --data DIR
store-folder = the data folder { $path } cannot be used: { $why }; choose another with --data DIR
store-none = there is no store in { $folder }; see whether the folder after --data is the one meant: nothing was made there
store-moved = { $path } was moved, replaced or deleted, or its log was, while this program had it open; close this program and open it again; the scale keeps new portions until then
store-after-restore = { $path } was to be put back and { $why }; { $there ->
    [yes] what was there lies in { $aside }
   *[no] nothing was there before
}
store-newer = { $path } was written by a newer version of this program (layout { $found }, this one knows up to { $known }); nothing was changed; install the newer version, or choose another folder with --data DIR
store-not-ours = { $path } is some other program's database; nothing was changed; choose another folder with --data DIR
store-damaged = { $path } is damaged or no database ({ $why }); nothing was changed; put a copy back in its place, or choose another folder with --data DIR
store-backup = { $path } cannot be used as a backup: { $why }; nothing was changed
store-read-only = { $path } cannot be written; let this user write there, or choose another folder with --data DIR; what is on record is untouched
store-full = the disk is full, so nothing more can be put on record in { $path }; make room; what is on record is untouched, and the scale keeps new portions until then
store-busy = another program is busy writing to { $path }; close it, or wait and try again
store-made-up-night = what is kept here is a made-up night; it is never gathered with a kitchen's record
store-gathering = another program gathers this record now; try again when it is done
store-journal = { $path } cannot be used: { $why }; what is on record is untouched
store-disk = reading or writing { $path } failed ({ $why }); check the disk; what is on record is untouched
store-senseless = { $path } holds a { $what ->
    [time] time
    [mode] mode
    [goal] goal
    [currency] currency
   *[other] { $what }
} that makes no sense; put a copy back in its place
store-sql = { $path } could not be used as asked: { $why } (code { $code }); what is on record is untouched; `evenhand check` reads all of it, and the code tells those who made this program what to look for
why-parts = its parts do not fit together
why-begins = it does not begin as one
why-part-of-store = it is part of the store itself; choose another
why-store-itself = it is the store itself, not a copy of it
why-no-such-file = there is no such file
why-there-already = there is a file of that name already; choose another
why-rule = what was to be written breaks a rule that the record keeps
why-kind = a value is of another kind than the record keeps
why-too-large = a value is too large to be kept
why-memory = this computer has no memory left for it
why-interrupted = it was interrupted before it was done
why-disk = the disk that it lies on cannot keep a store; choose a folder on this computer
why-lacks = it lacks a part that this program looks for
why-figure = a figure in it is of another kind than this program writes
# What is not on record.
unknown-dish = there is no dish { $name }; { $any ->
    [none] none is on record yet; add one with `evenhand dish add`
   *[some] known are { $known }
}
unknown-vessel = there is no vessel { $name }; { $any ->
    [none] none is on record yet; fill one with `evenhand brine vessel fill`
   *[some] known are { $known }
}
unknown-heat-log = there is no heat log { $name }; { $any ->
    [none] none is on record yet; `evenhand heat watch` begins one
   *[some] known are { $known }
}
unknown-tin = there is no tin { $tin }; list them with `evenhand tin list`
tin-of-other-dish = tin { $tin } holds { $holds }, not { $asked }; open or choose a tin of { $asked }
name-taken = there is a dish { $name } already; choose another name
orders-reversed = the last order of { $day } would be before its first one; give both times again, the first order first
unknown-yield-line = there is no line { $line } of a yield that could be struck out; list them with `evenhand yield show`
unknown-picture = there is no picture { $picture } that could be taken off; list them with `evenhand formula pictures`
unknown-batch = there is no batch { $batch }; list them with `evenhand batch list`
heat-overlaps = another reading of this log is on record at { $at }, within the stretch to be added; keep the two under different names
unknown-heat-correction = there is no correction { $number } in force; `evenhand heat log --name NAME --json` lists them
unknown-portion = there is no portion { $portion } on record; `evenhand export` lists them with their ids
struck-already = portion { $portion } is struck out already
not-struck = portion { $portion } is not struck out
unknown-order = there is no order { $number } on record; `evenhand prep orders` lists them
order-is-so = order { $number } is { $is ->
    [taken-back] taken back
   *[put-down] put down
} already
nothing-to-undo = there is no portion to undo
log-backward = the time { $at } goes back behind { $before }: expected times that only go on
log-twice = the time { $at } stands twice with different temperatures
log-absurd = { $celsius } degC at { $at } is outside -100 to 1400 degC, which no kitchen probe reads
typed = { $why }
