"""Section 10.1: apparent volumes and refractions to the end of the tables.

Usage: python extensions_volumes.py [folder of reference tables]

Same forms as apparent_volumes.py, cubic in s at most. Rows past the CRC table and all rows off
20 C are listed here with their origin (read / recalled).
"""
import numpy as np
from common import column, index_from_lorentz, lorentz, rho_water, rows, stats

R_WATER = 0.206060530


def phi_of(rho, s, t):
    return (1000/rho - 1000*(1 - s)/rho_water(t))/s


def density(c, s, t=20.0, e=(0, 0, 0, 0, 0)):
    d = np.asarray(t, float) - 20
    phi = np.polyval(c[::-1], s) + d*(e[0] + e[1]*s + e[2]*s*s) + d*d*(e[3] + e[4]*s)
    return 1000/(1000*(1 - s)/rho_water(t) + s*phi)


def lsq(basis, y, w):
    return np.linalg.lstsq(basis*w[:, None], y*w, rcond=None)[0]


def volume(s, rho, degree, extra=1.0):
    """phi at 20 C, weighted to density."""
    w = rho**2*s/1000*extra
    return np.round(lsq(np.vander(s, degree + 1, increasing=True), phi_of(rho, s, 20.0), w), 5)


def refraction(c, s, n, degree):
    rho = density(c, s)/1000
    w = rho*s*(index_from_lorentz(lorentz(n) + 1e-7) - n)/1e-7
    basis = np.vander(s, degree + 1, increasing=True)
    r = np.round(lsq(basis, (lorentz(n)/rho - (1 - s)*R_WATER)/s, w), 6)
    return r, index_from_lorentz(rho*((1 - s)*R_WATER + s*(basis@r))) - n


def crc(name):
    rs = [r for r in rows("sucrose_density.csv", solute=name, source="crc102") if r["solute_mass_pct"] > 0]
    return (column(rs, "solute_mass_pct")/100, column(rs, "density_kg_m3"),
            column(rs, "refractive_index_nD20"))


def bands(s, err, cuts, digits, label):
    lo = 0
    for hi in cuts:
        k = (s > lo) & (s <= hi + 1e-9)
        if k.any():
            stats(f"   {label} {100*lo:.0f}-{100*hi:.0f} %", err[k], digits)
        lo = hi


def run(name, degree, r_degree, more=(), more_n=(), cuts=(0.6, 1.0), drop=()):
    s, rho, n = crc(name)
    k = ~np.isin(np.round(s, 4), drop)
    s, rho, n = s[k], rho[k], n[k]
    a = np.array(more).reshape(-1, 2)
    sa, ra = np.r_[s, a[:, 0]], np.r_[rho, a[:, 1]]
    c = volume(sa, ra, degree)
    print(f"{name}: phi {c.tolist()}")
    bands(sa, density(c, sa) - ra, cuts, 3, "density")
    b = np.array(more_n).reshape(-1, 2)
    sn, nn = np.r_[s, b[:, 0]], np.r_[n, b[:, 1]]
    r, err = refraction(c, sn, nn, r_degree)
    print(f"   r {r.tolist()}")
    bands(sn, err, cuts, 6, "index")
    return c, r


def warmth(c, pts, free, label):
    """e0 e1 e2 f0 f1 from changes with temperature; pts = (s, t, rho(t) - rho(20))."""
    s, t, d = np.array(pts, float).T
    d20 = density(c, s)
    rho = d20 + d
    y = phi_of(rho, s, t) - np.polyval(c[::-1], s)
    dt = t - 20
    basis = np.array([dt, dt*s, dt*s*s, dt**2, dt**2*s]).T[:, free]
    e = np.zeros(5)
    e[free] = lsq(basis, y, rho**2*s/1000)
    e = np.array([float(f"{v:.5g}") for v in e])
    err = density(c, s, t, e) - rho
    print(f"   {label}: e0 e1 e2 f0 f1 = {e.tolist()}")
    for lo, hi in ((-21, -1), (-1, 14), (14, 31), (31, 45)):
        k = (t > lo) & (t <= hi)
        if k.any():
            stats(f"      change with t, {lo}..{hi} C", err[k], 2)
    return e


def volk():
    rs = [r for r in rows("sucrose_density.csv", solute="glycerol", source="aquasol_volk")]
    return column(rs, "solute_mass_pct")/100, column(rs, "temp_C"), column(rs, "density_kg_m3")


# pure glycerol, recalled table (0, 10, 20, 30, 40 C)
GLYCEROL = {0: 1272.69, 10: 1266.99, 20: 1261.34, 30: 1255.12, 40: 1248.96}


def glycerol():
    from CoolProp.CoolProp import PropsSI
    s2, t2, r2 = volk()
    k = (t2 == 20)
    s, rho, _ = crc("glycerol")
    c = volume(np.r_[s, s2[k]], np.r_[rho, r2[k]], 2)
    print(f"glycerol, CRC and Volk at 20 C: phi {c.tolist()}")
    bands(s, density(c, s) - rho, (.6, 1), 3, "density CRC")
    bands(s2[k], (density(c, s2) - r2)[k], (.6, 1), 3, "density Volk 20 C")
    s, rho, n = crc("glycerol")
    for d in (2, 3):
        r, err = refraction(c, np.r_[s, 1.0], np.r_[n, 1.4740], d)
        print(f"   r {r.tolist()}")
        bands(np.r_[s, 1.0], err, (.6, .97, 1), 6, "index")
    try:
        from aquasol.solutions import density as published
        grid = [(a, b) for a in np.arange(.1, 1.01, .1) for b in (15, 25, 30)]
        pts = [(a, b, float(published("glycerol", w=a, T=b)) - float(published("glycerol", w=a, T=20)))
               for a, b in grid]
    except ImportError:
        at20 = {a: b for a, b in zip(s2[k], r2[k])}
        pts = [(a, b, d - at20[a]) for a, b, d in zip(s2, t2, r2) if b != 20 and a in at20]
    for tag in ("MGL", "MGL2"):
        for a in (.2, .3, .4, .5, .6):
            fluid = f"INCOMP::{tag}[{a}]"
            try:
                start = PropsSI("T_freeze", "T", 293.15, "P", 101325, fluid) - 273.15
                base = PropsSI("D", "T", 293.15, "P", 101325, fluid)
                for t in (-20, -10, 0, 10, 30, 40):
                    if t > start + 1:
                        pts.append((a, t, PropsSI("D", "T", t + 273.15, "P", 101325, fluid) - base))
            except ValueError:
                pass
    pts += [(1.0, t, d - GLYCEROL[20]) for t, d in GLYCEROL.items() if t != 20]
    for free in ([0, 1, 3], [0, 1, 3, 4], [0, 1, 2, 3, 4]):
        e = warmth(c, pts, free, "all")
        stats("   Volk rows, 5-60 %", (density(c, s2, t2, e) - r2)[(s2 < .61) & ~k], 2)
        stats("   Volk rows, 70-100 %", (density(c, s2, t2, e) - r2)[(s2 > .61) & ~k], 2)


# Perry's table of aqueous acetic acid, g/cm3, recalled: 0, 10, 20, 30, 40 C
ACETIC = {0.01: (1.0016, 1.0013, .9996, .9971, .9934), 0.10: (1.0177, 1.0159, 1.0125, None, 1.0041),
          0.50: (1.0729, 1.0654, 1.0575, 1.0492, 1.0408)}


def acetic():
    s, rho, n = crc("acetic_acid")
    k = s < .905
    c = volume(s[k], rho[k], 3)
    print(f"acetic acid to 90 %: phi {c.tolist()}")
    bands(s, density(c, s) - rho, (.62, .9, .95, 1), 3, "density CRC")
    k = s < .885
    r, _ = refraction(c, s[k], n[k], 2)
    err = index_from_lorentz(density(c, s)/1000*((1 - s)*R_WATER + s*np.polyval(r[::-1], s))) - n
    print(f"   r {r.tolist()}")
    bands(s, err, (.62, .88, .92, 1), 6, "index CRC")
    pts = []
    for a, row in ACETIC.items():
        pts += [(a, t, 1000*(v - row[2])) for t, v in zip((0, 10, 20, 30, 40), row) if v and t != 20]
    try:        # pure acid: DIPPR/Perry 8th ed. equation as in the chemicals/thermo packages
        from thermo import VolumeLiquid
        v = VolumeLiquid(CASRN="64-19-7")
        at = lambda t: 60.052e-3/v.calculate(273.15 + t, "DIPPR_PERRY_8E")
        pts += [(1.0, t, at(t) - at(20)) for t in (25, 30, 35, 40)]
    except ImportError:
        pts += [(1.0, t, d) for t, d in ((25, -5.06), (30, -10.15), (40, -20.47))]
    for free in ([0, 1], [0, 1, 3], [0, 1, 2], [0, 1, 2, 3]):
        e = warmth(c, pts, free, "recalled Perry + pure acid")
        print("      expansion de per s:", [round(float(e[0] + e[1]*x + e[2]*x*x), 6) for x in (0, .1, .5, 1)])


def phosphoric():
    c, r = run("phosphoric_acid", 3, 2, more=[(.5, 1335), (.7, 1526), (.75, 1579), (.85, 1689)],
               cuts=(.4, .9), more_n=[(.85, 1.4330)])
    # change 20 -> 25 C: 10 and 30 % and 85 % (registration dossier and encyclopaedia, read)
    d = lambda a, v: v - float(density(c, a))
    print("   read at 25 C minus 20 C fit:", d(.10, 1051.7), d(.30, 1179.4), d(.85, 1684.5))
    try:        # Laliberte 2009 as in the thermo package: 16-81 C, to 85 %
        from thermo.electrochem import Laliberte_density
        at = lambda a, b: float(Laliberte_density(273.15 + b, [a], ["7664-38-2"]))
    except ImportError:
        return
    for a in (.05, .1, .2, .3, .4, .5, .6, .7, .85):
        print("   Laliberte", a, [round(at(a, b), 1) for b in (0, 10, 20, 30, 40)], round(float(density(c, a)), 1))
    pts = [(a, b, at(a, b) - at(a, 20)) for a in (.05, .1, .2, .3, .4, .5, .6, .7, .8, .85) for b in (15, 25, 30, 35, 40)]
    for free in ([0], [0, 1], [0, 1, 3]):
        warmth(c, pts, free, "Laliberte 15-40 C")


def lactic():
    c, r = run("lactic_acid", 2, 2, cuts=(.6, .8))
    print("   88, 90, 100 %:", density(c, np.array([.88, .9, 1.0])).round(1))


if __name__ == "__main__":
    glycerol()
    lactic()
    acetic()
    phosphoric()
