"""Item 6: freezing of water + ethanol (section B2), old and new excess enthalpy.

Usage: python ethanol_freezing.py [folder of reference tables]

ln a_E(b,T) = -M_w b Phi(b) + (Hw/R)(1/T - 1/T_L(b)): Phi is a monotone cubic through values taken from
the freezing knots, so on the liquidus the enthalpy cancels; it matters off it (a_w at 20 C, drinks
whose sugar pulls the freezing point below that of the spirit).
"""
import numpy as np
from scipy.interpolate import PchipInterpolator
from common import MW, R, T0, column, freezing, ln_aw_ice, molality, rows, stats
from heat import POWERS, c_old, h298

KNOTS = {4: 1.65, 8: 3.47, 12: 5.56, 16: 8.01, 20: 10.92, 24: 14.47, 28: 18.43, 32: 22.44, 36: 25.98,
         40: 29.26, 44: 32.68, 50: 37.67, 56: 42.06, 60: 44.93, 64: 47.52, 68: 49.52}
C_NEW = {"D=0": ((332.475, -975.511, 1066.037, -383.695), 0.0),
         "with D": ((280.266, -588.292, 304.055, 60.176), 0.409)}


def excess(x, T, which):
    d = T - 298.15
    if which == "old":
        return h298(x) + c_old(x)*d
    c, dd = C_NEW[which]
    return h298(x) + x*(1 - x)*(sum(a*x**p for a, p in zip(c, POWERS))*d + dd*d*d/2)


def partial_water(x, T, which, cap=0.36):
    """Partial molar excess enthalpy of water, H - x dH/dx."""
    x = np.minimum(x, cap)
    e = 1e-5
    return excess(x, T, which) - x*(excess(x + e, T, which) - excess(x - e, T, which))/(2*e)


def model(which, knots=KNOTS, cap=0.36):
    w = np.array(list(knots))/100
    b = molality(w, 46.068)
    tl = T0 - np.array(list(knots.values()))
    phi = np.array([-ln_aw_ice(T) for T in tl])/(MW*b)
    f_phi = PchipInterpolator(np.r_[0, b], np.r_[1.0, phi])

    def ln_aw(bb, T):
        base = -MW*bb*float(f_phi(bb))
        # liquidus of this molality: ln a_w(ice, T_L) = base by construction
        t_l = freezing(lambda _: base) + T0
        x = bb*MW/(1 + bb*MW)
        return base + partial_water(x, 0.5*(T + t_l), which, cap)/R*(1/T - 1/t_l)
    return ln_aw


if __name__ == "__main__":
    fp = rows("freezing_point.csv", solute="ethanol")
    pct, tf = column(fp, "solute_mass_pct"), column(fp, "freezing_point_C")
    src = np.array([r["source"] for r in fp])
    ln_aw = model("old")
    pred = np.array([freezing(lambda T, b=b: ln_aw(b, T)) for b in molality(pct/100, 46.068)])
    held = ~np.isin(pct, list(KNOTS))
    for lo, hi in ((0, 20), (20, 60), (60, 70)):
        k = (src == "crc102") & (pct > lo) & (pct <= hi)
        stats(f"CRC {lo}-{hi} %, knots", (pred - tf)[k & ~held], 3)
        stats(f"CRC {lo}-{hi} %, not knots", (pred - tf)[k & held], 3)
    for s in ("coolprop_mea", "coolprop_mea2"):
        stats(f"{s} to 60 %", (pred - tf)[src == s], 3)

    print("leave one knot out, error at that knot (K):")
    for k in list(KNOTS)[1:-1]:
        rest = {a: b for a, b in KNOTS.items() if a != k}
        f = model("old", rest)
        print(f"  {k} %: {freezing(lambda T: f(float(molality(k/100, 46.068)), T)) + KNOTS[k]:+.3f}", end="")
    print()

    print("what the new excess enthalpy changes:")
    print("  mass %   Hw at 0 C old/D=0/D   a_w(20 C) old/D=0/D   "
          "freezing with 1 mol/kg of ideal solute added, old/D=0/D")
    for p in (10, 20, 30, 33.3, 40, 50, 60):
        b = float(molality(p/100, 46.068))
        x = b*MW/(1 + b*MW)
        cells = [[], [], []]
        for which in ("old", "D=0", "with D"):
            f = model(which)
            cells[0].append(f"{partial_water(x, 273.15, which):7.1f}")
            cells[1].append(f"{np.exp(f(b, 293.15)):.4f}")
            cells[2].append(f"{freezing(lambda T: f(b, T) - MW*1.0):.3f}")
        print(f"  {p:5.1f}   " + "   ".join("/".join(c) for c in cells))
    print("  cap on x (0.36) lifted, new with D, 50/60 %:", end=" ")
    for p in (50, 60):
        b = float(molality(p/100, 46.068))
        f = model("with D", cap=0.99)
        print(f"a_w {np.exp(f(b, 293.15)):.4f}, T {freezing(lambda T: f(b, T) - MW):.3f};", end=" ")
    print()
