"""Salt going into a slab or a cylinder out of a stirred bath of limited size, by the method of
lines: nothing of Crank's series is in it. Prints data/salt-diffusion.csv.

    python3 -m pip install scipy==1.17.1
    python3 salt_diffusion.py > salt-diffusion.csv

Lengths are of half the thickness (or the radius), times are Fourier numbers D t / l^2,
concentrations are of what bath and piece come to in the end. alpha is the bath's water over
the piece's.
"""

import numpy as np
from scipy.integrate import solve_ivp

CELLS = 400


def course(cylinder, alpha, times):
    # Cells finer towards the surface, where the bath is.
    edges = 1.0 - (1.0 - np.linspace(0.0, 1.0, CELLS + 1)) ** 2
    middles = (edges[1:] + edges[:-1]) / 2.0
    power = 2 if cylinder else 1
    volumes = edges[1:] ** power - edges[:-1] ** power
    faces = power * edges[1:] ** (power - 1)
    apart = np.append(np.diff(middles), 1.0 - middles[-1])

    def change(_, state):
        inside, bath = state[:-1], state[-1]
        flux = faces * (np.append(inside[1:], bath) - inside) / apart
        into = (flux - np.append(0.0, flux[:-1])) / volumes
        return np.append(into, -flux[-1] / alpha)

    start = np.append(np.zeros(CELLS), (1.0 + alpha) / alpha)
    found = solve_ivp(change, (0.0, max(times)), start, method="BDF", t_eval=times, rtol=1e-9, atol=1e-11)
    for at, state in zip(found.t, found.y.T):
        yield at, float(np.dot(state[:-1], volumes)), float(state[0])


print("shape,alpha,fourier_number,taken_up,core")
for shape in ("slab", "cylinder"):
    for alpha in (0.2, 1.0, 3.0, 20.0):
        for at, taken, core in course(shape == "cylinder", alpha, [0.005, 0.02, 0.1, 0.3, 0.8]):
            print(f"{shape},{alpha},{at},{taken:.6f},{core:.6f}")
