"""Shared pieces for the fitting scripts: tables, densities, the ice line, small helpers.

Published formulas are repeated here so that every script stands alone:
OIML R 22 (ethanol-water), PTB/ICUMSA (sucrose), Kell 1975 (water).
"""
import csv
import os
import sys

import numpy as np
from scipy.optimize import brentq

R = 8.314462618            # J/(mol K)
MW = 0.0180153             # kg/mol water
ME = 0.046068              # kg/mol ethanol
T0 = 273.15

# g/mol; the citrate rows are named "dihydrate" in the source but are on an anhydrous basis
CITRATE = "trisodium_citrate_dihydrate_as_listed"
MOLAR = {"sucrose": 342.297, "glucose": 180.156, "fructose": 180.156, "maltose": 342.297,
         "lactose": 342.297, "glycerol": 92.094, "citric_acid": 192.124, "lactic_acid": 90.078,
         "acetic_acid": 60.052, "sodium_chloride": 58.443, "potassium_chloride": 74.551,
         "sodium_hydrogen_carbonate": 84.007, "potassium_hydrogen_carbonate": 100.115,
         CITRATE: 258.07, "mannitol": 182.172, "phosphoric_acid": 97.995, "ethanol": 46.068}


def tables_dir():
    """Folder of the reference tables: first argument, else where the crate keeps its copy."""
    here = os.path.dirname(os.path.abspath(__file__))
    return sys.argv[1] if len(sys.argv) > 1 else os.path.join(
        here, "..", "crates", "pomace-matter", "tests", "reference")


def rows(file, **want):
    """Rows of a table whose columns equal (or are among) the wanted values; numbers as floats."""
    out = []
    with open(os.path.join(tables_dir(), file), newline="") as f:
        for r in csv.DictReader(f):
            if all(r[k] in (v if isinstance(v, (list, tuple)) else [v]) for k, v in want.items()):
                for k, v in r.items():
                    try:
                        r[k] = float(v)
                    except (TypeError, ValueError):
                        pass
                out.append(r)
    return out


def column(rs, name):
    """A column as floats, blank cells as NaN."""
    return np.array([r[name] if r[name] != "" else np.nan for r in rs], float)


def stats(label, err, digits=5):
    """Print and return number of rows, largest, rms and mean error."""
    err = np.asarray(err, float)
    err = err[np.isfinite(err)]
    if len(err) == 0:
        s = f"{label}: no rows"
    else:
        s = (f"{label}: n={len(err)} max {np.max(np.abs(err)):.{digits}f} "
             f"rms {np.sqrt(np.mean(err**2)):.{digits}f} mean {np.mean(err):+.{digits}f}")
    print(s)
    return s


def rho_water(t):
    """Kell 1975, kg/m3."""
    t = np.asarray(t, float)
    return (999.83952 + 16.952577*t - 7.9905127e-3*t**2 - 46.241757e-6*t**3 + 105.84601e-9*t**4
            - 281.03006e-12*t**5) / (1 + 16.887236e-3*t)


_SUCROSE = [[385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890],
            [-46.2720, -7.1720, 1.1597, 5.1126, 17.5254],
            [59.7712, 7.2491, 12.3630, -35.4791],
            [-47.2207, -21.6977, 27.6301],
            [18.3184, 12.3081]]


def rho_sucrose(s, t=20.0):
    """PTB/ICUMSA sucrose density, s mass fraction, kg/m3."""
    s = np.asarray(s, float)
    tau = (np.asarray(t, float) - 20)/100
    return rho_water(t) + sum(tau**i*sum(b*s**(k + 1) for k, b in enumerate(bs))
                              for i, bs in enumerate(_SUCROSE))


# OIML R 22 coefficients: A (powers of p), B (powers of t-20), C1..C5
_A = [998.20123, -192.9769495, 389.1238958, -1668.103923, 13522.15441, -88292.78388, 306287.4042,
       -613838.1234, 747017.2998, -547846.1354, 223446.0334, -39032.85426]
_B = [-0.20618513, -0.0052682542, 3.6130013e-05, -3.8957702e-07, 7.169354e-09, -9.9739231e-11]
_C1 = [0.1693443461530087, -10.46914743455169, 71.96353469546523, -704.7478054272792,
       3924.090430035045, -12101.64659068747, 22486.46550400788, -26055.62982188164, 18523.73922069467,
       -7420.201433430137, 1285.617841998974]
_C2 = [-0.0119301300505701, 0.2517399633803461, -2.170575700536993, 13.53034988843029,
       -50.29988758547014, 109.635566657757, -142.2753946421155, 108.043594285623, -44.14153236817392,
       7.442971530188783]
_C3 = [-0.0006802995733503803, 0.01876837790289664, -0.2002561813734156, 1.02299296671922,
       -2.895696483903638, 4.810060584300675, -4.672147440794683, 2.458043105903461, -0.5411227621436812]
_C4 = [4.075376675622027e-06, -8.76305857347111e-06, 6.515031360099368e-06, -1.51578483698721e-06]
_C5 = [-2.788074354782409e-08, 1.345612883493354e-08]


def rho_ethanol(p, t=20.0):
    """OIML R 22, p mass fraction, kg/m3."""
    p = np.asarray(p, float)
    d = np.asarray(t, float) - 20
    rho = sum(a*p**k for k, a in enumerate(_A)) + sum(b*d**(k + 1) for k, b in enumerate(_B))
    for i, c in enumerate((_C1, _C2, _C3, _C4, _C5)):
        rho = rho + d**(i + 1)*sum(x*p**(k + 1) for k, x in enumerate(c))
    return rho


def lorentz(n):
    """Lorentz-Lorenz function of the refractive index."""
    n2 = np.asarray(n, float)**2
    return (n2 - 1)/(n2 + 2)


def index_from_lorentz(big_l):
    """Inverse of lorentz()."""
    return np.sqrt((1 + 2*big_l)/(1 - big_l))


def ln_aw_ice(T):
    """Ice line of section B1."""
    dh, dc = 6009.5, 37.9
    return -(dh - dc*T0)/R*(1/T - 1/T0) + dc/R*np.log(T/T0)


def freezing(ln_aw):
    """Freezing point (deg C) of a liquid whose ln a_w(T) is given."""
    return brentq(lambda T: ln_aw(T) - ln_aw_ice(T), 205.0, 273.3, xtol=1e-8) - T0


def molality(s, molar):
    """mol/kg water from mass fraction and g/mol."""
    return s/(1 - s)*1000/molar
