settings-open = Language
settings-title = Which language?
settings-follows = The screens change at once. What is on record stays as it was written.
settings-not-kept = The choice could not be kept for next time in { $path }: { $why }.
settings-no-thread = The system gives no thread: { $why }.
