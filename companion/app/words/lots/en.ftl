# Lots: one food through its steps, each against its limit.
lots-heading = Lots
lots-none = No lot is written down yet
lots-how = A lot is a file in the folder “lots” of this kitchen’s data: a title, and for each step its name, when it began and ended, the log that read it and the limit it is held to.
lots-touch = Touch a lot
lots-about = { $mark }, { $steps ->
    [one] one step
   *[other] { $steps } steps
}
lots-about-step = { $mark }: { $step }
lots-page = Page for the inspector
lots-written = The page to print is in { $path }.
lots-not-written = The page cannot be written: { $why }. Nothing was changed.
lots-no-lot = That lot is no longer in the folder. Go back and choose again.
