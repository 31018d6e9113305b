# What the record, or a file beside it, refuses, for a screen. $name is a file or what was asked for.
record-refused = { $code ->
    [moved] { $name } was moved, replaced or deleted while this program had it open. Close this program and open it again. The scale keeps new portions until then.
    [newer] { $name } was written by a newer version of this program. Nothing was changed. Install the newer version.
    [damaged] { $name } is damaged. Nothing was changed. Put a copy back in its place.
    [read-only] { $name } cannot be written. Let this user write there. What is on record is untouched.
    [full] The disk is full, so nothing more can be put on record. Make room. The scale keeps new portions until then.
    [busy] Another program is writing to { $name }. Wait and try again, or close it.
    [disk] Reading or writing { $name } failed. Check the disk. What is on record is untouched.
    [not-there] { $name } is not on record. Go back and choose again.
    [none] There is no record here yet.
    [input] { $name } cannot be used. Write it anew.
   *[other] The record could not do it ({ $name }). What is on record is untouched. Try again.
}
# Why the system did not read or write a file.
record-why = { $code ->
    [not-there] it is not there
    [denied] this user may not
    [full] the disk is full
   *[other] the system says { $number }
}
record-limits-unreadable = The file { $file } cannot be read: { $why }. Nothing is judged until it can.
record-limits-refused = The file { $file } is not understood. Nothing is judged until it is put right.
