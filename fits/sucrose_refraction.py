"""Item 1: specific refractions (cm3/g, Lorentz-Lorenz) of sucrose r(s) and of water+ethanol r_E(p).

Usage: python sucrose_refraction.py [folder of reference tables]

Sucrose is fitted to the ICUMSA 1974 index scale (recalled; it is a smooth curve with five
decimals) and then tested on the CRC rows, which take no part in the fit. The CRC rows have four
decimals only, so errors up to 5e-5 there are rounding.
"""
import numpy as np
from common import (column, index_from_lorentz, lorentz, rho_ethanol, rho_sucrose, rows, stats)

N_WATER = 1.33299            # ICUMSA, 20 C, sodium D
ICUMSA = {5: 1.34026, 10: 1.34782, 15: 1.35568, 20: 1.36384, 25: 1.37233, 30: 1.38115,
          35: 1.39032, 40: 1.39986, 50: 1.42009, 60: 1.44193, 65: 1.45348, 70: 1.46546,
          75: 1.47787, 80: 1.49071, 85: 1.50398}      # recalled
R_WATER = lorentz(N_WATER)/(rho_ethanol(0.0)/1000)    # pinned: pure water must come out exactly


def index_slope(n):
    """dn/dL, so that least squares weighs errors of n and not of r."""
    return (index_from_lorentz(lorentz(n) + 1e-7) - n)/1e-7


def sucrose(degree):
    s = np.array(list(ICUMSA))/100
    n = np.array(list(ICUMSA.values()))
    rho = rho_sucrose(s)/1000
    weight = index_slope(n)*rho*s
    target = (lorentz(n)/rho - (1 - s)*R_WATER)/s
    basis = np.vander(s, degree + 1, increasing=True)
    c = np.linalg.lstsq(basis*weight[:, None], target*weight, rcond=None)[0]
    c = np.round(c, 8)

    def index(q):
        q = np.asarray(q, float)
        return index_from_lorentz(rho_sucrose(q)/1000*((1 - q)*R_WATER + q*np.polyval(c[::-1], q)))

    print("sucrose r, degree", degree, [f"{x:.8f}" for x in c])
    stats("  ICUMSA 5-85 % (fitted, recalled)", index(s) - n, 6)
    # leave every second ICUMSA row out: does the form predict, or only interpolate?
    cc = np.linalg.lstsq((basis*weight[:, None])[::2], (target*weight)[::2], rcond=None)[0]
    pred = index_from_lorentz(rho*((1 - s)*R_WATER + s*(basis@cc)))
    stats("  ICUMSA, every second row held out", (pred - n)[1::2], 6)
    crc = rows("sucrose_density.csv", solute="sucrose", source="crc102")
    stats("  CRC 102 (not fitted)", index(column(crc, "solute_mass_pct")/100)
          - column(crc, "refractive_index_nD20"), 6)


def ethanol(degree):
    """r_E(p) = R_WATER + sum e_k p^k, Huber-weighted with a knee of 1e-4 in the index: the CRC
    rows at 96, 98 and 100 % do not lie on one smooth curve with the rest (the step 98-100 % is
    -0.0016, the steps before it -0.0006), and no smooth form can meet all three."""
    crc = [r for r in rows("ethanol_water_density.csv", source="crc102")
           if r["refractive_index_nD20"] != ""]
    p, n = column(crc, "ethanol_mass_pct")/100, column(crc, "refractive_index_nD20")
    rho = rho_ethanol(p)/1000
    weight = index_slope(n)*rho
    basis = np.array([p**k for k in range(1, degree + 1)]).T
    target = lorentz(n)/rho - R_WATER

    def fit(mask):
        huber = np.ones(mask.sum())
        for _ in range(50):
            wt = weight[mask]*np.sqrt(huber)
            c = np.linalg.lstsq(basis[mask]*wt[:, None], target[mask]*wt, rcond=None)[0]
            e = np.abs(weight[mask]*(basis[mask]@c - target[mask]))
            huber = np.minimum(1.0, 1e-4/np.maximum(e, 1e-12))
        return c

    c = np.round(fit(p > 0), 8)
    err = index_from_lorentz(rho*(R_WATER + basis@c)) - n
    print("water+ethanol r_E, degree", degree, [f"{x:.8f}" for x in c])
    stats("  CRC p<=0.4", err[p <= 0.401], 6)
    stats("  CRC 0.4<p<=0.94", err[(p > 0.401) & (p < 0.95)], 6)
    stats("  CRC all", err, 6)
    print("  96, 98, 100 %:", [f"{x:+.6f}" for x in err[p > 0.95]])
    held = (np.arange(len(p)) % 3 == 1) & (p < 0.95)
    stats("  every third row held out (p<0.95)",
          (index_from_lorentz(rho*(R_WATER + basis@fit(~held))) - n)[held], 6)
    grid = np.linspace(0, 1, 201)
    slope = sum(k*c[k - 1]*grid**(k - 1) for k in range(1, degree + 1))
    print(f"  slope of r_E between {slope.min():.4f} and {slope.max():.4f} (positive = monotone)")


if __name__ == "__main__":
    print(f"r_E(0) = {R_WATER:.9f}")
    for deg in (2, 3):
        sucrose(deg)
    for deg in (4, 5, 6):
        ethanol(deg)
