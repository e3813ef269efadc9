"""Item 2: apparent specific volumes and refractions of dissolved substances.

Usage: python apparent_volumes.py [folder of reference tables]

1/rho = (1-s)/rho_w(t) + s phi,  phi = phi0 + phi1 s + phi2 s^2 + (t-20)(e0 + e1 s) + (t-20)^2 f0
L(n) = (rho/1000)[(1-s) r_water + s (r0 + r1 s)], rho computed from phi (not the table's density).
Least squares on density and on index, not on phi and r, so dilute rows do not dominate.
"""
import numpy as np
from common import (CITRATE, column, index_from_lorentz, lorentz, rho_water, rows, stats)

R_WATER = 0.206060530


def density(c, s, t=20.0):
    phi0, phi1, phi2, e0, e1, f0 = c
    d = np.asarray(t, float) - 20
    phi = phi0 + phi1*s + phi2*s**2 + d*(e0 + e1*s) + d**2*f0
    return 1000/(1000*(1 - s)/rho_water(t) + s*phi)


def fit_volume(s, t, rho, free):
    """free: which of the six coefficients may differ from 0. Linear in phi, weighted to density."""
    d = t - 20
    basis = np.array([np.ones_like(s), s, s**2, d, d*s, d**2]).T[:, free]
    target = (1000/rho - 1000*(1 - s)/rho_water(t))/s
    w = rho**2*s/1000
    c = np.zeros(6)
    c[free] = np.linalg.lstsq(basis*w[:, None], target*w, rcond=None)[0]
    return np.array([round(x, k) for x, k in zip(c, (5, 5, 5, 8, 8, 9))])


def fit_refraction(c, s, n, degree=1):
    rho = density(c, s)/1000
    w = rho*s*(index_from_lorentz(lorentz(n) + 1e-7) - n)/1e-7
    target = (lorentz(n)/rho - (1 - s)*R_WATER)/s
    basis = np.vander(s, degree + 1, increasing=True)
    r = np.round(np.linalg.lstsq(basis*w[:, None], target*w, rcond=None)[0], 6)
    err = index_from_lorentz(rho*((1 - s)*R_WATER + s*(basis@r))) - n
    return r, err


def table(solute, top, source="crc102"):
    rs = [r for r in rows("sucrose_density.csv", solute=solute, source=source)
          if 0 < r["solute_mass_pct"] <= top]
    return (column(rs, "solute_mass_pct")/100, column(rs, "temp_C"),
            column(rs, "density_kg_m3"), column(rs, "refractive_index_nD20"))


def one(solute, top, second=False, other=None):
    """Fit one substance. `other` = second source, which also covers other temperatures: the 20 C
    terms come from the 20 C rows of both sources, then the temperature terms from the rest."""
    s, t, rho, n = table(solute, top)
    free = [0, 1] + ([2] if second else [])
    s2, t2, rho2 = (table(solute, top, other) if other else (s[:0], t[:0], rho[:0], None))[:3]
    at20 = t2 == 20
    c = fit_volume(np.r_[s, s2[at20]], np.r_[t, t2[at20]], np.r_[rho, rho2[at20]], free)
    print(f"{solute} to {top} %: phi0..2 {c[:3].tolist()}")
    stats("   density CRC", density(c, s, t) - rho, 3)
    if other:
        off = ~at20
        c_all = add_temperature(c, s2[off], t2[off], rho2[off])
        print(f"   e0 e1 f0 {c_all[3:].tolist()}")
        stats(f"   density {other} t=20", (density(c_all, s2, t2) - rho2)[at20], 3)
        stats(f"   density {other} t!=20", (density(c_all, s2, t2) - rho2)[off], 3)
        half = np.flatnonzero(off)
        c_half = add_temperature(c, s2[half[::2]], t2[half[::2]], rho2[half[::2]])
        stats(f"   density {other} t!=20, held-out half",
              (density(c_half, s2, t2) - rho2)[half[1::2]], 3)
        c = c_all
    elif len(s) > 12:
        odd = np.arange(len(s)) % 2 == 1
        c_half = fit_volume(s[~odd], t[~odd], rho[~odd], free)
        stats("   density CRC held-out half", (density(c_half, s, t) - rho)[odd], 3)
    k = np.isfinite(n)
    r, err = fit_refraction(c, s[k], n[k])
    print("   r0 r1", r.tolist())
    stats("   index CRC", err, 6)
    return c


def add_temperature(c, s, t, rho):
    """Temperature terms e0, e1, f0 with the 20 C terms held."""
    d = t - 20
    w = rho**2*s/1000
    target = (1000/rho - 1000*(1 - s)/rho_water(t))/s - (c[0] + c[1]*s + c[2]*s**2)
    e = np.linalg.lstsq(np.array([d, d*s, d**2]).T*w[:, None], target*w, rcond=None)[0]
    return np.r_[c[:3], round(e[0], 7), round(e[1], 7), round(e[2], 9)]


def glycerol_cold(c):
    """The published glycerol equation covers 15-30 C only, and its curvature must not be carried
    below 0 C. Below 15 C use Melinder's tables as fitted in CoolProp (good to about 1 kg/m3), as
    differences from their own 20 C value."""
    try:
        from CoolProp.CoolProp import PropsSI
    except ImportError:
        print("   CoolProp not installed: cold terms skipped")
        return
    pts = []
    for tag in ("MGL", "MGL2"):
        for s in (0.20, 0.25, 0.30, 0.40, 0.50):
            fluid = f"INCOMP::{tag}[{s}]"
            start = PropsSI("T_freeze", "T", 293.15, "P", 101325, fluid) - 273.15
            base = PropsSI("D", "T", 293.15, "P", 101325, fluid)
            for t in (-20, -15, -10, -5, 0, 10, 30):
                if t > start + 1:
                    rho = PropsSI("D", "T", t + 273.15, "P", 101325, fluid)
                    pts.append((s, t, rho - base + float(density(c, s))))
    s, t, rho = np.array(pts).T
    s2, t2, rho2, _ = table("glycerol", 60, "aquasol_volk")
    off = t2 != 20
    c_all = add_temperature(c, np.r_[s, s2[off]], np.r_[t, t2[off]], np.r_[rho, rho2[off]])
    print("   with cold data: e0 e1 f0", c_all[3:].tolist())
    stats("   change with t, Melinder t<0", (density(c_all, s, t) - rho)[t < 0], 2)
    stats("   change with t, Melinder t>=0", (density(c_all, s, t) - rho)[t >= 0], 2)
    stats("   density aquasol_volk t!=20", (density(c_all, s2, t2) - rho2)[off], 2)


def potassium_chloride_temperature(c):
    """No KCl rows off 20 C in the tables; take Al Ghafri et al. 2012 (J. Chem. Eng. Data 57, 1288)
    as programmed in aquasol, 10-40 C, if that package is installed."""
    try:
        from aquasol.solutions import density as published
    except ImportError:
        print("   aquasol not installed: KCl temperature terms skipped")
        return
    s, t = (x.ravel() for x in np.meshgrid([.02, .05, .10, .15, .20], [10, 15, 20, 25, 30, 40.]))
    rho = np.array([float(published("KCl", w=a, T=b)) for a, b in zip(s, t)])
    # only the change with temperature is used: shift each s to the 20 C value of the fit
    at20 = {a: r for a, b, r in zip(s, t, rho) if b == 20}
    shift = np.array([density(c, a) - at20[a] for a in s])
    off = t != 20
    c_all = add_temperature(c, s[off], t[off], (rho + shift)[off])
    print("   KCl e0 e1 f0", c_all[3:].tolist())
    stats("   density Al Ghafri, shifted to CRC at 20 C", density(c_all, s, t) - rho - shift, 3)
    print(f"   (largest shift at 20 C {np.abs(shift).max():.2f} kg/m3)")


if __name__ == "__main__":
    for second in (False, True):
        print("with" if second else "without", "phi2", "="*50)
        one("sodium_chloride", 26, second, "aquasol_nacl")
        glycerol_cold(one("glycerol", 60, second, "aquasol_volk"))
        potassium_chloride_temperature(one("potassium_chloride", 24, second))
        for name, top in (("glucose", 60), ("fructose", 48), ("maltose", 60), ("lactose", 18),
                          ("citric_acid", 30), ("lactic_acid", 60), ("acetic_acid", 62),
                          ("sodium_hydrogen_carbonate", 6), ("mannitol", 15),
                          ("phosphoric_acid", 40), ("potassium_hydrogen_carbonate", 24),
                          (CITRATE, 36)):
            one(name, top, second)
