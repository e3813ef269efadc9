"""Sections 10.5 and 10.6: lactic acid's water activity past 30 %, and solubility polynomials.

Usage: python extensions_lactic_solubility.py [folder of reference tables]
"""
import numpy as np
from common import MOLAR, MW, T0, column, freezing, molality, rows, stats


def lactic():
    fp = rows("freezing_point.csv", solute="lactic_acid")
    pct = column(fp, "solute_mass_pct")
    tf = column(fp, "freezing_point_C")
    m = molality(pct/100, MOLAR["lactic_acid"])
    x = m*MW/(1 + m*MW)
    s = np.r_[np.arange(.02, .90, .02), .92, .95, .98, .99]
    g = molality(s, MOLAR["lactic_acid"])*MW
    xs = g/(1 + g)
    for p, q, n in ((2.64, 0, 1), (2.8, 2, 1), (2.9, 3, 1), (3.0, 4, 1), (3.1, 5, 1), (3.2, 6, 1), (3.3, 8, 1), (3.4, 10, 1),
                    (2.7, 3, 2), (2.7, 10, 2), (2.7, 20, 2), (2.75, 30, 2), (2.8, 40, 2), (2.8, 60, 2)):
        push = lambda v: p*v*v/(1 + q*v)**n if n == 1 else p*v*v/(1 + q*v*v)**1
        e = np.array([freezing(lambda T, v=v: np.log(1 - v) + push(v)) for v in x]) - tf
        ln = np.log(1 - xs) + push(xs)
        aw = np.exp(ln)
        # stable mixing also needs the acid's own activity to rise: same sign by Gibbs-Duhem
        print(f"p {p} q {q} {'x/(1+qx)' if n == 1 else 'x2/(1+qx2)'}: freezing max <=5 {np.abs(e[pct <= 5]).max():.3f} "
              f"<=10 {np.abs(e[(pct <= 10)]).max():.3f} <=20 {np.abs(e).max():.3f}; "
              f"steepest d ln a/dx {np.diff(ln).max():+.4f} monotone {bool((np.diff(aw) < 0).all())}; a_w at 30,40,50,60,70,80,90 %: "
              + " ".join(f"{np.interp(v, s, aw):.3f}" for v in (.3, .4, .5, .6, .7, .8, .9)),
              "gamma at 80 %", round(float(np.interp(.8, s, aw/(1 - xs))), 2))


def poly(name, points, degree, digits=6):
    t = np.array(list(points), float)
    y = np.array(list(points.values()))
    c = [float(f"{v:.{digits}g}") for v in np.polyfit(t, y, degree)[::-1]]
    print(f"{name}, {t.min():g}..{t.max():g} C: {c}")
    stats("   points", np.polyval(c[::-1], t) - y, 2)
    return c


# malic acid, mass %: list printed by a maker (Bartek), computed there from Apelblat 1995 (read)
MALIC = {0: 46.8, 5: 48.9, 10: 51.0, 15: 53.2, 20: 55.5, 25: 57.8, 30: 60.1, 35: 62.4, 40: 64.7, 45: 67.0, 50: 69.2}
# tartaric acid, g per 100 g water (old handbook, recalled: 115 126 139 156 176 at 0..40); 139 at 25 C read
TARTARIC = {0: 115.0, 10: 126.0, 20: 139.0, 30: 156.0, 40: 176.0}
# potassium chloride, g per 100 g water, recalled
KCL = {0: 28.0, 10: 31.2, 20: 34.2, 30: 37.2, 40: 40.1, 50: 42.6, 60: 45.8}
GLUCOSE = {0.5: 35.2, 22.98: 49.37, 28: 52.99, 30: 54.64, 35: 58.02, 40.4: 62.13, 45: 65.71, 50: 70.91}
SALT = {0: 26.28, 10: 26.32, 20: 26.41, 25: 26.45, 30: 26.56, 40: 26.71, 50: 26.89, 60: 27.09}
# maltose, read (Gillis, in a cookery text): mass %
MALTOSE = {0.6: 36.1, 21.0: 44.1, 29.6: 48.0, 34.4: 49.6, 43.5: 55.3, 49.4: 58.3, 54.2: 60.2}
# fructose, mass %, recalled (Bates 1942)
FRUCTOSE = {20: 78.94, 25: 80.29, 30: 81.54, 35: 82.63, 40: 84.34, 45: 85.64, 50: 86.63}


def share(d):
    return {k: 100*v/(100 + v) for k, v in d.items()}


if __name__ == "__main__":
    lactic()
    poly("malic", MALIC, 2)
    k = np.array([273.15, 293.15, 313.15])
    ms = np.exp(-113.096 + 3707.6/k + 18.075*np.log(k))*134.087
    print("   printed equation at 0, 20, 40 C:", (100*ms/(1000 + ms)).round(2))
    poly("tartaric", share(TARTARIC), 2)
    kc = poly("KCl", share(KCL), 2)
    poly("glucose monohydrate", GLUCOSE, 2)
    poly("NaCl", SALT, 2)
    poly("maltose", MALTOSE, 2)
    poly("fructose", FRUCTOSE, 1)
    try:
        from aquasol.solutions import solubility
        for t in (5, 10, 20, 25, 30, 40):
            print("   KCl", t, round(float(np.polyval(kc[::-1], t)), 2), round(100*float(solubility("KCl", T=t, out="w")), 2))
    except Exception as x:
        print("   aquasol:", x)
