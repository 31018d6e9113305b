"""Writes thermocouple_emf.csv: the ITS-90 reference functions by an independent
implementation, the PyPI package thermocouples_reference 0.20 (numpy < 2).

    pip install thermocouples_reference==0.20 'numpy<2'
    python3 thermocouple_emf.py > thermocouple_emf.csv
"""

from thermocouples_reference import thermocouples

print("# ITS-90 reference functions, cold junction at 0 degC; written by thermocouple_emf.py")
print("kind,celsius,millivolts")
for kind in "KTJNESRB":
    reference = thermocouples[kind]
    low, high = reference.func.minT, reference.func.maxT
    ends = {edge for low_edge, high_edge, *_ in reference.func.table for edge in (low_edge, high_edge)}
    # Every ten degrees, every degree that a kitchen uses most, and every edge.
    steps = {float(t) for t in range(int(low), int(high) + 1, 10)}
    kitchen = {float(t) for t in range(-20, 121, 4)} if kind in "KT" else set()
    for celsius in sorted(steps | kitchen | ends):
        if low <= celsius <= high:
            print(f"{kind},{celsius:g},{float(reference.emf_mVC(celsius)):.9f}")
