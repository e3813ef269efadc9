"""Item 8: solubility in water against temperature, mass % of solute in (solute + water).

Usage: python solubility.py [folder of reference tables]
Polynomials in t (deg C). Points marked R were read (sources in section G9), M are recalled.
"""
import numpy as np
from common import rows, stats

# sucrose: Vavrinecz polynomial as in G9 (recalled); points read at k-mashzavod.narod.ru
VAVRINECZ = (64.397, 0.07251, 0.0020569, -9.035e-6)
SUCROSE_READ = {0: 64.44, 20: 66.74, 40: 70.22, 60: 74.32, 80: 78.74, 100: 82.89}
# lactose (total, alpha/beta equilibrium), g per 100 g solution: first four read (G9), the rest recalled
# (Hudson 1908: 11.9/16.9/21.6/32.4 g per 100 g water at 0/15/25/39 C; 25 C 21.6 -> 17.8 %)
LACTOSE = {0: 10.6, 15: 14.5, 25: 17.8, 39: 24.0, 49: 29.8, 64: 39.7}
# glucose: monohydrate to 50 C, the stable solid (Jackson and Silsbee 1922, recalled)
GLUCOSE = {0.5: 35.2, 22.98: 49.37, 28: 52.99, 30: 54.64, 35: 58.02, 40.4: 62.13, 45: 65.71, 50: 70.91}
# citric acid, anhydrous basis; monohydrate is the solid below 35.8 C (recalled, handbook)
CITRIC = {10: 54.0, 20: 59.2, 25: 61.8, 30: 64.3, 36: 67.5, 40: 68.6, 50: 70.9, 60: 73.5}
# sodium chloride, mass % (recalled handbook values)
SALT = {0: 26.28, 10: 26.32, 20: 26.41, 25: 26.45, 30: 26.56, 40: 26.71, 50: 26.89, 60: 27.09}


def fit(name, points, degree, lo, hi, digits=6):
    t = np.array([k for k in points if lo <= k <= hi], float)
    y = np.array([points[k] for k in t])
    c = np.polyfit(t, y, degree)[::-1]
    c = [float(f"{v:.{digits}g}") for v in c]
    print(f"{name}, {lo}..{hi} C: {c}")
    stats("   points", np.polyval(c[::-1], t) - y, 2)
    return c


if __name__ == "__main__":
    t = np.array(list(SUCROSE_READ), float)
    print("sucrose, Vavrinecz:", VAVRINECZ)
    stats("   against the list read",
          np.polyval(VAVRINECZ[::-1], t) - np.array(list(SUCROSE_READ.values())), 2)
    sat = rows("sucrose_density.csv", solute="sucrose_saturated")
    stats("   against mohos2010_saturated",
          [np.polyval(VAVRINECZ[::-1], r["temp_C"]) - r["solute_mass_pct"] for r in sat], 2)
    fit("glucose monohydrate", GLUCOSE, 2, 0, 50)
    fit("lactose", LACTOSE, 2, 0, 64)
    fit("citric monohydrate", CITRIC, 2, 10, 36)
    fit("citric anhydrous", CITRIC, 1, 36, 60)
    c = fit("NaCl", SALT, 2, 0, 60)
    try:
        from aquasol.solutions import solubility
        for k in (5, 10, 20, 25, 30, 40):
            print(f"   NaCl {k} C: polynomial {np.polyval(c[::-1], k):.2f}, "
                  f"aquasol {100*float(solubility('NaCl', T=k, out='w')):.2f}")
    except ImportError:
        pass
