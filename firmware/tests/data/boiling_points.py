"""Writes boiling_points.csv: the boiling point of water against height in the
ICAO standard atmosphere, by implementations of others: ambiance 1.3 (ICAO Doc
7488) for the pressure, CoolProp (IAPWS-95) for the boiling point.

    pip install ambiance CoolProp
    python3 boiling_points.py > boiling_points.csv
"""

from ambiance import Atmosphere
from CoolProp.CoolProp import PropsSI

print("# Boiling point of water; height is geopotential; written by boiling_points.py")
print("metres,pascals,celsius")
for metres in range(-400, 5001, 200):
    pressure = float(Atmosphere(Atmosphere.geop2geom_height(metres)).pressure[0])
    celsius = PropsSI("T", "P", pressure, "Q", 0, "Water") - 273.15
    print(f"{metres},{pressure:.1f},{celsius:.4f}")
