# Copies of the store, looks at every row, tables that come in and go out, the made-up night.
backup-database = FILE: { $path } is a database, or belongs to one; choose another name
backup-written = { $count ->
    [one] { $count } portion
   *[other] { $count } portions
} written to { $path } and read back, row by row.
restore-done = { $count ->
    [one] { $count } portion
   *[other] { $count } portions
} put back from { $path } and read back, row by row.
restore-aside = What was there before lies in { $path }.
check-sound = { $path } is sound: { $count ->
    [one] { $count } portion
   *[other] { $count } portions
} read, each as it was written.
check-not-sound = { $path } is not as it was written; put a backup back with `evenhand restore FILE`, which keeps this one beside it
check-nothing-found = No number is missing and no row was changed.
chain-none = Scale { $scale } makes no chain of its portions: whether one was changed together with its checksum is not known. An instrument whose firmware makes one would tell.
chain-linked = Scale { $scale }: { $count ->
    [one] { $count } portion
   *[other] { $count } portions
} in its chain{ $agrees ->
    [yes] , and none contradicts the one before it
   *[no] ; what does not agree is named above
}.
chain-unlinked = { $linked } Of { $count ->
    [one] { $count } portion
   *[other] { $count } portions
} outside the chain it is not known whether one was changed together with its checksum.
found-structure = the file's structure is damaged ({ $why })
found-orphan = a row of { $table } belongs to one that is not there
found-portion-changed = portion { $id } does not read as it was written
found-strike-changed = a strike of portion { $id } does not read as it was written
found-not-as-made = portion { $id } is not as the scale made it, by what the next one, { $next }, carries of it
found-unlinked = portion { $id } carries nothing of the one before it, as those before it do
found-misplaced = portion { $id } stands at the wrong place in its scale's chain
found-missing-before = { $count ->
    [one] { $count } portion made before portion { $id } is not here
   *[other] { $count } portions made before portion { $id } are not here
}: lost, or recorded on another computer or by an older program
found-given-up = the scale itself had no place for { $count ->
    [one] { $count } portion
   *[other] { $count } portions
} made before portion { $id }
found-begun-again = the scale began its chain anew with portion { $id }: its memory was lost, or could not be read
found-begun-again-often = the scale began its chain anew with portion { $id }, and { $times } times before: its memory was lost, or could not be read
found-forked = portions { $one } and { $other } both follow portion { $id }: the scale's memory could not keep the first, or it is not the scale's own
found-missing-one = portion { $id } is not here: lost, or recorded on another computer
found-missing-some = portions { $first } to { $last } are not here: lost, or recorded on another computer
found-senseless-correction = portion { $id } is linked with one that it cannot correct
found-picture-changed = picture { $id } does not read as it was written
found-wrong-sum = the sum kept of { $dish } for the 32 days from { $from } is not that of the portions
found-wrong-sum-elsewhere = the sum kept of runs begun elsewhere for the 32 days from { $from } is not that of the portions
export-written = { $count ->
    [one] { $count } portion
   *[other] { $count } portions
} written to { $path }.
import-unread = FILE: { $file } cannot be read: { $why }
import-refused = FILE: { $file }: { $why }
import-done = { $count ->
    [one] { $count } portion
   *[other] { $count } portions
} added, { $already } on record already.
import-bad-lines = FILE: { $count ->
    [one] { $count } line
   *[other] { $count } lines
} of { $all } cannot be used, so nothing was brought in{ $lines }
import-bad-line = line { $line }: { $why }
import-line-refused = { $reason ->
    [too-long] is longer than { $values } bytes; write each row on one line
    [not-utf8] is not UTF-8 text; save the table as UTF-8
    [never-closed] has a quotation mark that is never closed, or a value over two lines; write each row on one line
    [too-many] has { $values } values and the table has { $headings } headings, so they would stand in the wrong columns; put a value with a separator in it, such as "30,1", in quotes
   *[no-row] cannot be read as a row of a table
}
import-file-refused = { $reason ->
    [table] the file cannot be read as a table: { $what }
    [not-utf8] the file is UTF-16; save the table as UTF-8
    [read] the file cannot be read: { $what }
    [no-heading] there is no heading { $what }; the file has { $there }
   *[two-headings] two columns have the heading { $what }; give one of them another name
}
import-more = and { $count } more
import-odd = { $count ->
    [one] { $count } weight
   *[other] { $count } weights
} far from the others of the same dish:
import-odd-line = line { $line }: { $words }, { $deviations } standard deviations { $side ->
    [below] below
   *[above] above
}
import-not-compared = { $count ->
    [one] { $count } weight
   *[other] { $count } weights
} of dishes beyond the first thousand: whether they lie far from the others is not known.
import-would = { $count ->
    [one] { $count } portion
   *[other] { $count } portions
} would be brought in; nothing was.
import-weighing = { $mass } of { $target }
read-as = Read with a { $separator ->
    [comma] comma
    [semicolon] semicolon
   *[tab] tab
} between values{ $commas }{ $mark ->
    [yes] , after a byte order mark
   *[no] {""}
}.
read-as-commas = , { $count ->
    [one] { $count } { $what ->
        [weight] weight
       *[number] number
    }
   *[other] { $count } { $what ->
        [weight] weights
       *[number] numbers
    }
} with a decimal comma
demo-not-empty = the folder holds portions already, and a made-up night does not belong among them; choose an empty one with --data DIR
demo-senseless = the made-up night does not hold together: { $why }
demo-made = A made-up night at Saltmarsh, { $night }, ten services before it, and the day after up to now: { $count ->
    [one] { $count } portion
   *[other] { $count } portions
}, in { $folder }.
demo-there = The made-up night of { $night } is in { $folder } already.
demo-look = Look at it with: evenhand service show --data "{ $folder }"
simulate-flash = --flash: { $why }
simulate-truth = --truth: { $path } cannot be written: { $why }
simulate-no-terminal = no pseudo-terminal can be opened: { $why }
simulate-failed = the simulated bench failed: { $why }
gather-done = { $others ->
    [0] No other desktop has told anything yet
    [one] { $others } journal of another desktop
   *[other] { $others } journals of other desktops
}: { $taken } lines taken, { $told } told.
gather-not-whole = { $file } is not whole yet: what is missing is taken the next time.
gather-newer = { $file } is by a newer version of this program and was not read; install that version here.
gather-waiting = { $count ->
    [one] { $count } line speaks of something that has not come yet; it is
   *[other] { $count } lines speak of something that has not come yet; they are
} kept until it does.
gather-clashes = { $count ->
    [one] { $count } line came under the identity of another; both are kept, and the one that was here counts here
   *[other] { $count } lines came under the identity of others; all are kept, and those that were here count here
}: `evenhand gather --overruled` lists them.
gather-set-aside = Batch { $batch }: { $count ->
    [one] { $count } line makes
   *[other] { $count } lines make
} no sense beside what another desktop added at the same time, and { $count ->
    [one] does
   *[other] do
} not count; on record all the same. Look through this batch.
gather-renumbered = This record was copied or put back from a copy: this desktop has a new number and a new journal.
gather-file-written = { $file } was changed at another desktop and is written here.
gather-none-overruled = No two desktops said anything differently.
gather-overruled = { $kind ->
    [setting] The setting { $key }
    [dish] The name of the dish that was first { $key }
    [plain_file] The file { $key }
    [prep_menu] A menu { $key }
    [goods_list] A list of goods
    [service-first_order] The first order of { $key }
    [service-last_order] The last order of { $key }
    [heat_reading] A reading of { $key }
    [portion] Portion { $key }
   *[other] { $kind } { $key }
}: what desktop { $desk } said at { $at } does not count, since another saying does. It is kept: `evenhand gather --overruled`.
gather-file = { $path } cannot be used: { $why }
