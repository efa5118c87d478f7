#!/usr/bin/python3
"""Input impedance and resonances of bores by integrating the lossy horn equation.

A check of server/src/acoustics by a general-purpose library and another method: no sections, no matrices, no mean radii.
Pressure p and volume flow U along the axis obey

    dp/dx = -Zv(x) U        Zv = (j w rho / S) / (1 - F(kv a))
    dU/dx = -Yt(x) p        Yt = (j w S / rho c^2) (1 + (gamma - 1) F(kt a))

with S = pi a^2, F(z) = 2 J1(z) / (z J0(z)), kv = sqrt(-j w rho / mu), kt = sqrt(Pr) kv (C. Zwikker & C. W. Kosten, Sound
Absorbing Materials, 1949), and a = a(x) the radius at that very place: the boundary layers are thin against the distance over
which a flute's bore changes, so that each place has the layers of the tube of its radius. scipy integrates from the foot to the
mouth (DOP853) for all frequencies at once.

Where the bore steps, the pressure jumps by the inertance of the near field: static mode matching, ../fem/step.py. Foot: rigid, or open without wall and flange, with the reflection of H. Levine & J. Schwinger, Phys. Rev. 73 (1948) 383, their
integrals by quadrature. Air: A. Chaigne & J. Kergomard, Acoustics of Musical Instruments, 2016, chapter 5.

Writes horn.json beside the other tables. Needs numpy and scipy (Debian: python3-scipy).
"""

import json
import pathlib
import sys

import numpy as np
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq
from scipy.special import ive, jv, kve, yv

sys.path.append(str(pathlib.Path(__file__).parent.parent / "fem"))
from step import step  # noqa: E402

FREQUENCIES = [110.0, 220.0, 350.0, 440.0, 587.0, 784.0, 1047.0, 1397.0, 1865.0, 2489.0, 3000.0]
RESONANCES = 4

CASES = [  # bore: [place, diameter], mm; two stations at one place are a step
    {"name": "cylinder, stopped", "bore": [[0, 15], [300, 15]], "foot": "stopped"},
    {"name": "cylinder, open", "bore": [[0, 19], [350, 19]], "foot": "open"},
    {"name": "narrow cylinder, stopped", "bore": [[0, 5], [150, 5]], "foot": "stopped"},
    {"name": "step, stopped", "bore": [[0, 19], [140, 19], [140, 14], [300, 14]], "foot": "stopped"},
    {"name": "cone, open", "bore": [[0, 19], [300, 12]], "foot": "open"},
    {"name": "cone, stopped, without losses", "bore": [[0, 19], [300, 12]], "foot": "stopped", "losses": False},
    {"name": "widening cone, stopped", "bore": [[0, 8], [400, 24]], "foot": "stopped"},
    {"name": "flute-like taper, open", "bore": [[0, 18.6], [120, 18.4], [300, 15.6], [520, 11.6]], "foot": "open"},
    {
        "name": "tapered head, many stations, open",
        "bore": [[0, 17.1], [60, 18.2], [150, 19], [420, 19], [420, 18.4], [520, 18.4], [560, 19.4], [600, 20.6]],
        "foot": "open",
    },
]
TEMPERATURES = [20.0, 30.0]


def air(celsius):
    ratio = (celsius + 273.15) / 273.15
    viscosity = 1.708e-5 * (1 + 0.0029 * celsius)
    conductivity = 5.77e-3 * 4.184 * (1 + 0.0033 * celsius)
    return {
        "soundSpeed": 331.45 * np.sqrt(ratio),
        "density": 1.2929 / ratio,
        "viscosity": viscosity,
        "heatCapacityRatio": 1.402,
        "prandtl": viscosity * 240 * 4.184 / conductivity,
    }


def layer(z):
    return 2 * jv(1, z) / (z * jv(0, z))


def levine_schwinger(ka):
    """Reflection of an unflanged end; the integrals with x = ka sin(t) where they end at ka."""
    modulus = quad(lambda t: np.arctan2(jv(1, ka * np.sin(t)), -yv(1, ka * np.sin(t))) / np.sin(t), 0, np.pi / 2)[0]
    near = quad(
        lambda t: np.log(np.pi * jv(1, ka * np.sin(t)) * np.hypot(jv(1, ka * np.sin(t)), yv(1, ka * np.sin(t))))
        / np.sin(t),
        0,
        np.pi / 2,
    )[0]
    far = lambda x: np.log(1 / (2 * ive(1, x) * kve(1, x))) / (x * np.hypot(x, ka))
    rest = quad(far, 0, 1)[0] + quad(far, 1, np.inf)[0]
    length = near / (np.pi * ka) + rest / np.pi
    return -np.exp(-2 * modulus / np.pi) * np.exp(-2j * ka * length)


def impedance(case, a, frequencies):
    """Pressure over flow at the mouth, Pa s/m^3."""
    f = np.atleast_1d(np.asarray(frequencies, float))
    omega = 2 * np.pi * f
    c, rho, g = a["soundSpeed"], a["density"], a["heatCapacityRatio"] - 1
    bore = np.array(case["bore"], float) * [1e-3, 0.5e-3]
    kv = np.sqrt(-1j * omega * rho / a["viscosity"])
    kt = np.sqrt(a["prandtl"]) * kv
    lossy = case.get("losses", True)
    unit = rho * c / (np.pi * bore[0, 1] ** 2)
    n = len(f)

    def slope(x, y, x1, r1, x2, r2):
        r = r1 + (r2 - r1) * (x - x1) / (x2 - x1)
        area = np.pi * r * r
        fv, ft = (layer(kv * r), layer(kt * r)) if lossy else (0, 0)
        z = 1j * omega * rho / area / (1 - fv)
        yt = 1j * omega * area / (rho * c * c) * (1 + g * ft)
        return np.concatenate([-z / unit * y[n:], -yt * unit * y[:n]])

    end = bore[-1, 1]
    if case["foot"] == "stopped":
        y = np.concatenate([np.ones(n), np.zeros(n)]).astype(complex)
    else:
        r = np.array([levine_schwinger(w / c * end) for w in omega])
        y = np.concatenate([(1 + r) / (1 - r) * rho * c / (np.pi * end**2) / unit, np.ones(n)])
    for (x1, r1), (x2, r2) in reversed(list(zip(bore[:-1], bore[1:]))):
        if x2 > x1:
            run = solve_ivp(slope, (x2, x1), y, "DOP853", args=(x1, r1, x2, r2), rtol=1e-11, atol=1e-12)
            y = run.y[:, -1]
        elif r1 != r2:  # a step: the inertance of its near field, by mode matching
            narrow = min(r1, r2)
            added = step(narrow / max(r1, r2)) * narrow
            y = np.concatenate([y[:n] + 1j * omega * rho * added / (np.pi * narrow**2) / unit * y[n:], y[n:]])
    return unit * y[:n] / y[n:]


def resonances(case, a):
    """Frequencies at which the reactance at the mouth rises through zero, from the lowest."""
    length = case["bore"][-1][0] * 1e-3
    grid = np.arange(0.3, 2.2 * (RESONANCES + 1), 0.05) * a["soundSpeed"] / (4 * length)
    x = impedance(case, a, grid).imag
    found = [
        brentq(lambda f: impedance(case, a, f)[0].imag, grid[i], grid[i + 1], xtol=1e-8, rtol=1e-12)
        for i in range(len(grid) - 1)
        if x[i] < 0 <= x[i + 1]
    ]
    return found[:RESONANCES]


def digits(value):
    return float(f"{value:.10g}")


def worked_out(case, celsius):
    a = air(celsius)
    z = impedance(case, a, FREQUENCIES)
    return {
        "name": case["name"],
        "bore": case["bore"],
        "foot": case["foot"],
        "losses": case.get("losses", True),
        "celsius": celsius,
        "air": {name: digits(value) for name, value in a.items()},
        "impedance": [[f, digits(each.real), digits(each.imag)] for f, each in zip(FREQUENCIES, z)],
        "resonances": [digits(f) for f in resonances(case, a)],
    }


def main():
    table = {
        "about": (
            "Input impedance and resonances of bores by integrating the lossy horn equation with scipy (horn/horn.py: the "
            "equations, their sources and the air). bore: [place, diameter] in mm; foot stopped, or open without wall and "
            "flange (Levine & Schwinger 1948). impedance: [Hz, real, imaginary] in Pa s/m^3 at place 0; resonances: Hz at "
            "which its imaginary part rises through zero. SI units elsewhere."
        ),
        "cases": [worked_out(case, celsius) for case in CASES for celsius in TEMPERATURES],
    }
    path = pathlib.Path(__file__).resolve().parent.parent / "horn.json"
    path.write_text(json.dumps(table, indent=1) + "\n")


if __name__ == "__main__":
    main()
