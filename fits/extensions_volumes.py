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


if __name__ == "__main__":
    for d in (2, 3):
        for rd in (1, 2, 3):
            run("glycerol", d, rd, more=[(1.0, 1260.76)], more_n=[(1.0, 1.4740)])
    for d in (1, 2, 3):
        run("lactic_acid", d, min(d, 2)); run("lactic_acid", d, 3)
    for d in (2, 3):
        for rd in (1, 2, 3):
            run("acetic_acid", d, rd)
    for d in (2, 3):
        for rd in (1, 2):
            run("phosphoric_acid", d, rd, more=[(.5, 1335), (.7, 1526), (.75, 1579), (.85, 1689)], cuts=(.4, .9), more_n=[(.85, 1.4330)])
