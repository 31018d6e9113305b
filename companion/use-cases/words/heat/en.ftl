# Temperatures to be within, rounded to whole degrees.
heat-band = { $low } to { $high } °C ({ $low_fahrenheit } to { $high_fahrenheit } °F)
heat-one-temperature = { $celsius } °C ({ $fahrenheit } °F)
