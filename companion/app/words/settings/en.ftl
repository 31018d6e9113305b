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
