# Las temperaturas entre las que hay que estar, en grados enteros.
heat-band = de { $low } a { $high } °C (de { $low_fahrenheit } a { $high_fahrenheit } °F)
heat-one-temperature = { $celsius } °C ({ $fahrenheit } °F)
