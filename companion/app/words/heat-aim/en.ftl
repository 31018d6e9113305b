# What a temperature log is watched for: a band, or a limit.
aim-title = What is { $name } watched for?
aim-title-unnamed = What is the log watched for?
aim-band = A band to be in
aim-limit = Or a limit to keep

# Read out, of the buttons that move an end of the band by some degrees.
aim-lower-end = Lower end { $step }
aim-upper-end = Upper end { $step }
