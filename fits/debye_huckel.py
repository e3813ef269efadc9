"""Debye-Hueckel slope A of water on the molal scale, -20 to 60 C (items 3 and 7).

Usage: python debye_huckel.py

From IAPWS R8-97 (dielectric constant) and IAPWS-95 density as run in the iapws package; below 0 C
both are extrapolated into the supercooled liquid, which IAPWS R8-97 allows down to 238 K.
A10 is for log10 of an activity coefficient, A_phi = A10 ln(10)/3 for Pitzer's osmotic equation.
"""
import numpy as np
from common import stats

E, NA, KB, EPS0 = 1.602176634e-19, 6.02214076e23, 1.380649e-23, 8.8541878128e-12


def slopes():
    from iapws import IAPWS95
    from iapws._iapws import _Dielectric
    t = np.arange(-20, 61, 5.0)
    out = []
    for c in t:
        T = c + 273.15
        rho = IAPWS95(T=T, P=0.101325).rho
        eps = _Dielectric(rho, T)
        a_phi = (2*np.pi*NA*rho)**0.5*(E**2/(4*np.pi*EPS0*eps*KB*T))**1.5/3
        out.append((rho, eps, 3*a_phi/np.log(10), a_phi))
    return t, np.array(out)


if __name__ == "__main__":
    t, v = slopes()
    for c, (rho, eps, a, ap) in zip(t, v):
        print(f"{c:6.1f} rho {rho:8.3f} eps {eps:7.3f} A10 {a:.5f} A_phi {ap:.5f}")
    d = t - 25
    for name, y in (("A10", v[:, 2]), ("A_phi", v[:, 3])):
        y25 = y[t == 25][0]
        c = np.linalg.lstsq(np.array([d, d**2, d**3]).T, y - y25, rcond=None)[0]
        print(name, f"{y25:.6f} + {c[0]:.6e} d + {c[1]:.5e} d^2 + {c[2]:.4e} d^3, d = t-25")
        stats("  cubic against IAPWS", y25 + c[0]*d + c[1]*d**2 + c[2]*d**3 - y, 6)
