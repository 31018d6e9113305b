# Les températures entre lesquelles rester, en degrés entiers.
heat-band = de { $low } à { $high } °C (de { $low_fahrenheit } à { $high_fahrenheit } °F)
heat-one-temperature = { $celsius } °C ({ $fahrenheit } °F)
