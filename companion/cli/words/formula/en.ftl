# The kitchen's own book: its formulas, pictures, pages and folder.
formula-how-much = --base, --total, --pieces or --of is needed: how much is to be made?
formula-kept = { $name } is in the book: { $path }
formula-out = { $name } is out of the book. Its file is { $file }; `evenhand formula keep` puts it back.
formula-there = { $field }: { $name } is in the book already, as { $path }; rename one of the two
formula-nothing-yet = No formula is in the book yet; `evenhand formula keep FILE` puts one in, `evenhand formula share` finds what good batches have in common.
formula-line = { $name }: water { $water } %, { $stages } made beforehand
formula-line-mixed = { $name }: water { $water } %, { $stages } made beforehand, mixed to { $temperature }
formula-not-understood = not understood: { $why }
formula-no-batch = TITLE: no batch is called { $title }; `evenhand batch list` shows what there is
formula-kept-as = Kept as { $path }.
formula-page = The page of { $name }
formula-page-unknown = NAME: { $name } is no dish, no formula and in no menu; { $there }
formula-page-no-limit = limits: { $name } is not in force; known are { $known }
folder-cannot-be-made = { $path } cannot be made: { $why }
picture-kept = Kept as picture { $picture } of { $of }; the file itself is needed no more.
picture-nothing-yet = No picture is kept yet; `evenhand formula picture NAME FILE` keeps one.
picture-off = Picture { $picture } is taken off; it stays on record and is shown no more.
picture-unreadable = { $path }: it cannot be read: { $why }; nothing was kept
picture-refused = { $path }: { $why }; nothing was kept
picture-unknown = name: { $name } is no dish, no formula and in no menu; add it first, or write the name as it is there
picture-there = picture { $picture } of it is the same; nothing was kept
picture-too-many = { $of } has { $most } pictures, as many as its page has room for; take one off first
book-unreadable = { $path } cannot be read: { $why }
book-refused = { $path }: { $why }
book-twice = { $first } and { $second } are both called { $name }; rename one of the two
book-not-there = formula: { $name } is not in the book; { $there }{ $broken }
book-there = { $any ->
    [none] there is none yet
   *[some] it has { $names }
}
book-broken = ; not understood: { $why }
book-of-book = the book: { $there }{ $broken }
book-is-there = { $name } is in the book already, as { $path }
book-unwritable = { $path } cannot be written: { $why }; nothing was changed
book-nothing = no formula, no menu, no list of goods and no picture is kept yet: there is nothing to write
book-written = { $written } of { $all } files written to { $path }; the others say the same already.
book-not-of-it = { $path } is not of the book as it is now, and was left there.
book-differs = { $path }: the book's { $name } says something else; --force writes over it; nothing was changed
book-other-pictures = { $path }: other pictures of { $of } are on record; --force puts these in their place; nothing was changed
book-formula-is = { $name }: { $against ->
    [new] new
    [changed] changed
   *[same] as it was
}
book-menu-is = menu { $name }: { $against ->
    [new] new
    [changed] changed
   *[same] as it was
}
book-goods-are = list of { $count } goods: { $against ->
    [new] new
    [changed] changed
   *[same] as it was
}
book-pictures-are = pictures of { $name }: { $against ->
    [new] new
    [changed] changed
   *[same] as it was
}
book-not-named = { $path }: no list names it, and it was not read.
folder-twice = { $first } and { $second } are both { $what } and differ; keep one of the two
folder-what = { $what ->
    [formula] the formula { $name }
    [menu] the menu for { $name }
    [daily] the menu for every day from the same date
    [goods] the list of goods
   *[pictures] lists of the pictures of { $name }
}
folder-empty = { $path }: no formula and no menu is in it, no list of goods and no list of pictures; they are expected in its folders formulas, menus, goods and pictures, in files that end in .toml, and tables in .csv
