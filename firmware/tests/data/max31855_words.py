"""Writes max31855_words.csv: words as the data sheet's Tables 4 and 5 write
them (Maxim 19-5793, page 10), and what they mean by an independent
implementation of the reference functions.

    pip install thermocouples_reference==0.20 'numpy<2' scipy
    python3 max31855_words.py > max31855_words.csv
"""

from thermocouples_reference import thermocouples

# Page 8, Table 1: microvolts per degree Celsius.
SENSITIVITY = {"K": 41.276, "J": 57.953, "N": 36.256, "S": 9.587, "T": 52.18, "E": 76.373, "R": 10.506}
# Page 10, Table 4, D31 to D18.
HOT = {
    1600.00: "01100100000000",
    1000.00: "00111110100000",
    100.75: "00000110010011",
    25.00: "00000001100100",
    0.00: "00000000000000",
    -0.25: "11111111111111",
    -1.00: "11111111111100",
    -250.00: "11110000011000",
}
# Page 10, Table 5, D15 to D4.
COLD = {
    100.5625: "011001001001",
    25.0000: "000110010000",
    0.0000: "000000000000",
    -0.0625: "111111111111",
    -1.0000: "111111110000",
    -20.0000: "111011000000",
}

print("# words of the MAX31855 and their meaning; written by max31855_words.py")
print("kind,word,cold,hot")
for kind, sensitivity in SENSITIVITY.items():
    reference = thermocouples[kind]
    lowest = {"J": -210, "S": -50, "R": -50}.get(kind, -200)
    for hot, hot_bits in HOT.items():
        for cold, cold_bits in COLD.items():
            word = int(f"{hot_bits}00{cold_bits}0000", 2)
            if word == 0:
                continue
            millivolts = sensitivity * (hot - cold) / 1000 + float(reference.emf_mVC(cold))
            try:
                answer = reference.inverse_CmV(millivolts, Vtol=1e-9)
                answer = f"{answer:.6f}" if answer >= lowest else "out"
            except ValueError:
                answer = "out"
            print(f"{kind},{word:08x},{cold},{answer}")
