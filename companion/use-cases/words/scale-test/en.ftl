# What a test with a known weight found. Masses come with their unit.
found-too-little = { $known } reads { $indicated }: { $error } too little, known to { $uncertainty } (k = 2). It may be { $limit } out in service (OIML R 76-1, 3.5.2).
found-too-much = { $known } reads { $indicated }: { $error } too much, known to { $uncertainty } (k = 2). It may be { $limit } out in service (OIML R 76-1, 3.5.2).
found-pass = Pass. { $found }
found-doubtful = Not certain. { $found } Try it again: the uncertainty reaches over the limit.
found-fail = Fail. { $found } Calibrate it before service.
also-try-portion = Try { $mass } too: about the lightest portion. A scale may be right at half its capacity and wrong there.
also-try-heavy = Try { $mass } too: about half the capacity. It shows what the span has done.
also-try-both = Try { $portion } too, about the lightest portion, and { $heavy }, about half the capacity.
