"""Section 10.3: liquid water -20..100 C, ethanol -40..78 C, solids 0..80 C.

Usage: python extensions_heat.py [folder of reference tables]      (needs iapws and CoolProp)
"""
import warnings
import numpy as np
from common import T0

warnings.simplefilter("ignore")


def fit(t, h, cp, degree):
    """h(t) without a constant; 10 K of cp weighs as h (as heat.py)."""
    k = np.arange(1, degree + 1)
    basis = np.vstack([t[:, None]**k, 10*k*t[:, None]**(k - 1)])
    scale = np.abs(basis).max(0)
    c = np.linalg.lstsq(basis/scale, np.r_[h, 10*cp], rcond=None)[0]/scale
    return np.array([float(f"{v:.8g}") for v in c])


def errors(c, t, h, cp):
    k = np.arange(1, len(c) + 1)
    return (t[:, None]**k)@c - h, (k*t[:, None]**(k - 1))@c - cp


if __name__ == "__main__":
    from iapws import IAPWS95
    from iapws._iapws import _Ice
    from CoolProp.CoolProp import PropsSI
    t = np.arange(-20, 100, 2.0)
    zero = IAPWS95(T=T0, P=.101325).h
    water = [IAPWS95(T=a + T0, P=.101325) for a in t]
    h, cp = np.array([1000*(w.h - zero) for w in water]), np.array([1000*w.cp for w in water])
    for degree in (6, 7, 8, 9):
        c = fit(t, h, cp, degree)
        eh, ec = errors(c, t, h, cp)
        print("water", degree, c.tolist(), f"h {np.abs(eh).max():.1f} J/kg, cp {np.abs(ec).max():.2f}, "
              f"from 0 C {np.abs(ec[t >= 0]).max():.2f}")
        k = np.arange(1, degree + 1)
        t2 = t[t <= 0]
        fus = (t2[:, None]**k)@c - (-333423 + 2096.13*t2 + 3.6533*t2**2)
        ref = np.array([1000*(IAPWS95(T=a + T0, P=.101325).h - _Ice(a + T0, .101325)["h"]) for a in t2])
        print("    heat of fusion to -20 C, max %", round(100*np.abs(fus/ref - 1).max(), 4))
        if degree == 7:
            best = c
    te = np.arange(-40, 78.1, 2.0)
    he = np.array([PropsSI("H", "T", a + T0, "P", 101325, "Ethanol") for a in te])
    he -= PropsSI("H", "T", T0, "P", 101325, "Ethanol")
    ce = np.array([PropsSI("C", "T", a + T0, "P", 101325, "Ethanol") for a in te])
    for degree in (3, 4, 5):
        c = fit(te, he, ce, degree)
        eh, ec = errors(c, te, he, ce)
        print("ethanol", degree, c.tolist(), f"h {np.abs(eh).max():.1f}, cp {100*np.abs(ec/ce).max():.3f} %")
    # sucrose solutions: 4184 - 2971 w + 460 w + 7.5 w t (Bubnik/Llano, as in the tables), 0..80 C
    s, a = (x.ravel() for x in np.meshgrid(np.arange(.1, .71, .1), np.arange(0, 81, 10.0)))
    k = np.arange(1, 8)
    cw = (k*a[:, None]**(k - 1))@best
    pub = 4184 - 2511*s + 7.5*s*a
    y = pub - (1 - s)*cw
    z = np.linalg.lstsq(np.array([s, s*a]).T, y, rcond=None)[0].round(2)
    print("solids, fitted 0..80 C: cp =", z.tolist())
    for c0, c1 in ((1645, 8.84), (1673, 7.5), tuple(z)):
        e = 100*(((1 - s)*cw + s*(c0 + c1*a))/pub - 1)
        print("   ", c0, c1, "max %", {str(b): round(float(np.abs(e[m]).max()), 2) for b, m in
              (("<=25 C, <=60 %", (a <= 25) & (s < .61)), ("<=25, 70 %", (a <= 25) & (s > .61)), (">25, <=60", (a > 25) & (s < .61)), (">25, 70", (a > 25) & (s > .61)))})
