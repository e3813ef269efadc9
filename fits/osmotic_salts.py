"""Item 3: osmotic coefficients of NaCl and KCl, -22 to 40 C; effective ones for other sodium and
potassium salts.

Usage: python osmotic_salts.py [folder of reference tables]

NaCl, KCl: Pitzer's equation with the temperature functions printed in pitzer.dat of PHREEQC 3.8
(as shipped in PyPI phreeqc 1.1.1), phi - 1 = -A s/(1+1.2 s) + m (B0 + B1 exp(-2 s)) + m^2 C, s = sqrt m.
Nothing is fitted to freezing points; CRC and Melinder rows are a pure test, the run of the functions
below 0 C is an extrapolation. A_phi(T): debye_huckel.py.
"""
import numpy as np
from common import CITRATE, MOLAR, MW, T0, column, freezing, ln_aw_ice, molality, rows, stats

TR = 298.15
# a0 + a1 (1/T-1/TR) + a2 ln(T/TR) + a3 (T-TR) + a4 (T^2-TR^2) + a5 (1/T^2-1/TR^2)
PITZER = {
    "sodium_chloride": ((7.534e-2, 9598.4, 35.48, -5.8731e-2, 1.798e-5, -5e5),
                        (0.2769, 1.377e4, 46.8, -6.9512e-2, 2e-5, -7.4823e5),
                        (1.48e-3, -120.5, -0.2081, 0, 1.166e-7, 11121)),
    "potassium_chloride": ((0.04808, -758.48, -4.7062, 0.010072, -3.7599e-6, 0),
                           (0.2168, 0, -6.895, 2.262e-2, -9.293e-6, -1e5),
                           (-7.88e-4, 91.27, 0.58643, -1.298e-3, 4.9567e-7, 0))}


def a_phi(T):
    d = T - 298.15
    return 0.391267 + 6.566511e-4*d + 2.93405e-6*d**2 + 2.0635e-8*d**3


def published(a, T):
    return (a[0] + a[1]*(1/T - 1/TR) + a[2]*np.log(T/TR) + a[3]*(T - TR) + a[4]*(T*T - TR*TR)
            + a[5]*(1/T**2 - 1/TR**2))


def short(poly):
    """The same function as a cubic in t (deg C)."""
    return lambda T: np.polyval(poly[::-1], T - T0)


def osmotic(b0, b1, c, m, T):
    s = np.sqrt(m)
    return 1 - a_phi(T)*s/(1 + 1.2*s) + m*(b0(T) + b1(T)*np.exp(-2*s)) + m*m*c(T)


def test(name, funcs, label):
    def ln_aw(m, T):
        return -2*MW*m*osmotic(*funcs, m, T)
    fp = rows("freezing_point.csv", solute=name)
    m = molality(column(fp, "solute_mass_pct")/100, MOLAR[name])
    err = np.array([freezing(lambda T, x=x: ln_aw(x, T)) for x in m]) - column(fp, "freezing_point_C")
    crc = np.array([r["source"] == "crc102" for r in fp])
    print(name, label)
    for lo, hi in ((0, 1), (1, 2.5), (2.5, 6)):
        k = (m > lo) & (m <= hi)
        if k.any():
            stats(f"  freezing CRC {lo}-{hi} m", err[k & crc], 3)
            stats(f"  freezing Melinder {lo}-{hi} m", err[k & ~crc], 3)
    for src in ("phreeqc_pitzer", "aquasol_nacl", "aquasol_kcl"):
        w = rows("water_activity.csv", solute=name, source=src)
        if w:
            e = [np.exp(ln_aw(r["molality_mol_kg"], r["temp_C"] + T0)) - r["water_activity"] for r in w]
            stats(f"  a_w {src}", e, 5)


def other_salts():
    """Mean osmotic coefficient of the whole salt (nu ions) and, for the citrate, the part left to
    each sodium when citric acid is counted as an undissociated solute (Norrish K = -1.9)."""
    for name, nu in (("sodium_hydrogen_carbonate", 2), ("potassium_hydrogen_carbonate", 2), (CITRATE, 4)):
        fp = rows("freezing_point.csv", solute=name)
        m = molality(column(fp, "solute_mass_pct")/100, MOLAR[name])
        T = column(fp, "freezing_point_C") + T0
        la = np.array([ln_aw_ice(x) for x in T])
        phi = -la/(nu*MW*m)
        print(name, "phi per row:", " ".join(f"{a:.2f}m:{b:.3f}" for a, b in zip(m, phi)))

        def stray(value):
            return [freezing(lambda t, x=x: -nu*MW*x*value) for x in m] - (T - T0)
        best = min(np.arange(0.60, 1.0, 0.005), key=lambda p: np.abs(stray(p)).max())
        stats(f"  constant phi {best:.3f}", stray(best), 3)
        if nu == 2:                  # one shared slope b under the Debye-Hueckel term
            for b in (-0.045, -0.051, -0.057):
                e = [freezing(lambda t, x=x: -2*MW*x*(1 - a_phi(t)*x**0.5/(1 + 1.2*x**0.5) + b*x))
                     for x in m] - (T - T0)
                stats(f"  phi = 1 - A s/(1+1.2 s) {b:+} m", e, 3)
        if name == CITRATE:
            x = m*MW/(1 + m*MW)
            acid = np.log(1 - x) - 1.9*x**2
            each = (acid - la)/(3*MW*m)
            print("  phi of each Na with the acid counted by Norrish:",
                  " ".join(f"{b:.3f}" for b in each))
            for p in (0.75, 0.80, 0.85, 0.90, 0.93, 1.0):
                e = [freezing(lambda t, a=a, y=y: a - 3*MW*y*p) for a, y in zip(acid, m)] - (T - T0)
                stats(f"    phi {p}", e, 3)
            # the drink case: below 0.25 mol/kg
            k = m < 0.3
            print("    mean below 0.3 mol/kg", round(float(each[k].mean()), 3))


if __name__ == "__main__":
    grid = np.arange(-22, 41, 1.0)
    for name, sets in PITZER.items():
        test(name, [lambda T, a=a: published(a, T) for a in sets], "published temperature functions")
        polys = []
        for label, a in zip(("B0", "B1", "C"), sets):
            p = np.polyfit(grid, published(a, grid + T0), 3)[::-1]
            p = [float(f"{x:.6g}") for x in p]
            polys.append(p)
            err = np.polyval(p[::-1], grid) - published(a, grid + T0)
            print(f"  {label}(t) = {p}  (cubic in t; departs {np.abs(err).max():.1e})")
        test(name, [short(p) for p in polys], "cubics in t")
    other_salts()
