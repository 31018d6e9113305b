settings-open = Language
settings-title = Which language?
settings-follows = The screens change at once. What is on record stays as it was written.
settings-not-kept = The choice could not be kept for next time in { $path }: { $why }.
settings-no-thread = The system gives no thread: { $why }.

# What is heard. A tone is a verdict in a word, counted or not counted.
sound-title = Tones at the bench
sound-no-player = This computer plays no tones: it has none of the players pw-play, paplay and aplay.
sound-off = Off
sound-low = Low
sound-middle = Middle
sound-loud = Loud
sound-taps = Taps on the way to the target
sound-spoken = Speak each portion
sound-no-speaker = No speech is installed here
sound-captured = counted
sound-refused = not counted
sound-try = Try the tone: { $tone }

# What is kept, its copies, how figures and times are told.
kept-open = What is kept, backup
kept-title = What is kept
kept-what = Every weighing with its time and dish, readings of the probe, batches, menus, and the name of the cook where one was said. It lies in { $folder }.
kept-who = Nothing is sent anywhere. Whoever uses this computer under this account sees all of it; other accounts see none of the record.
kept-copies = Backup
kept-back-up = Back up now
kept-back-up-into = Back up now into { $folder }
kept-on-drive = On a drive of its own: { $folder }
kept-on-this-computer = On this computer, lost together with it: { $folder }
kept-last = Last backup: { $at }. It was read back whole when it was made.
kept-none-yet = No backup lies there yet.
kept-busy = The backup is being made and read back.
kept-backed-up = Backed up and read back, { $count ->
    [one] one portion
   *[other] { $count } portions
}: { $path }
kept-backed-up-findings = Backed up to { $path }, but a look at every row found something that does not agree in the record itself.
kept-not-backed-up = Not backed up to { $path }: { $why }
kept-told = Figures and times
kept-figures = Figures by the language: { $example }
kept-zone = Times of day by this computer's time zone: { $zone }
