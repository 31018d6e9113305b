# Writes brine-coolprop.csv: pip install CoolProp==8.0.0, then python coolprop.py > brine-coolprop.csv
from CoolProp.CoolProp import PropsSI

print("# CoolProp 8.0.0, INCOMP::MNA (sodium chloride in water, after Melinder), written by coolprop.py")
print("percent_of_solution,celsius,kg_per_m3,freezing_celsius")
for percent in (1, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22):
    fluid = f"INCOMP::MNA-{percent}%"
    freezing = PropsSI("T_FREEZE", "T", 293.15, "P", 101325, fluid) - 273.15
    for celsius in (0, 4, 10, 15, 20, 25, 30, 40):
        density = PropsSI("D", "T", celsius + 273.15, "P", 101325, fluid)
        print(f"{percent},{celsius},{density:.2f},{freezing:.3f}")
