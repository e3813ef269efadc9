"""Item 4: water activity of dissolved non-electrolytes and acids.

Usage: python norrish.py [folder of reference tables]

ln a_N = ln x_w - (sum_j sqrt(k_j) x_j)^2 + sum_j p_j x_j^2 + sum_j q_j x_j^3      (k >= 0, p >= 0)

One substance at a time: u(x) = ln a_w(ice, T_f) - ln x_w is fitted by -k x^2 (or +p x^2) + q x^3.
Weights are those of the freezing point (error of ln a_w over 0.0097 K^-1), so the rounding of the
table (0.005 K) is the natural unit. q is used only where it clearly pays.
A free acid is also partly dissociated: m_H extra particles, ln a_w -= M_w m_H, with m_H from its
first pKa and Davies activity coefficients. In a buffered drink m_H is about 0.003 mol/kg (0.005 K).
"""
import numpy as np
from scipy.optimize import brentq, least_squares
from common import MOLAR, MW, T0, column, freezing, ln_aw_ice, molality, rows, stats

PKA1 = {"citric_acid": 3.128, "lactic_acid": 3.86, "acetic_acid": 4.756, "phosphoric_acid": 2.148}


def mole_fraction(m):
    return m*MW/(1 + m*MW)


def protons(m, pka):
    """Free H+ (mol/kg) of a plain acid solution at molality m."""
    if pka is None:
        return 0.0

    def f(h):
        s = np.sqrt(min(h, 0.5))
        log_g2 = -2*0.495*(s/(1 + s) - 0.3*min(h, 0.5))       # product of the two ions
        return h*h*10**log_g2 - 10**-pka*(m - h)
    return brentq(f, 0.0, m)


def freezing_rows(name, top=100.0, source=None):
    fp = [r for r in rows("freezing_point.csv", solute=name)
          if r["solute_mass_pct"] <= top and (source is None or r["source"] in source)]
    pct = column(fp, "solute_mass_pct")
    return pct, molality(pct/100, MOLAR[name]), column(fp, "freezing_point_C")


def curve(c, m, h):
    """Freezing point for coefficients c = (second, third order) at molality m."""
    x = mole_fraction(m)
    la = np.log(1 - x) + c[0]*x**2 + c[1]*x**3 - MW*h
    return freezing(lambda T: la)


def fit(name, top, cubic, dissociate):
    pct, m, tf = freezing_rows(name, top)
    h = np.array([protons(a, PKA1.get(name) if dissociate else None) for a in m])
    x = mole_fraction(m)
    u = np.array([ln_aw_ice(t + T0) for t in tf]) - np.log(1 - x) + MW*h
    basis = np.array([x**2, x**3]).T[:, :2 if cubic else 1]
    c = np.zeros(2)
    c[:basis.shape[1]] = np.linalg.lstsq(basis, u, rcond=None)[0]
    return np.round(c, 3), h


def report(name, c, label, dissociate=False, bands=(5, 10, 22, 40)):
    pct, m, tf = freezing_rows(name)
    h = np.array([protons(a, PKA1.get(name) if dissociate else None) for a in m])
    err = np.array([curve(c, a, b) for a, b in zip(m, h)]) - tf
    text, lo = [], 0
    for hi in bands:
        k = (pct > lo) & (pct <= hi)
        if k.any():
            text.append(f"{lo}-{hi} %: {np.abs(err[k]).max():.3f}")
        lo = hi
    print(f"{name:16s} {label:34s} c2 {c[0]:8.3f} c3 {c[1]:8.3f}   max K " + ", ".join(text))


# ---- glycerol, with temperature -------------------------------------------------------------

def glycerol():
    """One constant does not do: k falls with content and with temperature. Form used:
    k(x, t) = (k0 + k1 (25 - t))/(1 + b x), from freezing points (CRC, Melinder) and water activities at
    5-25 C, each weighted by its own doubt. In a mixture put sqrt(k(x_j, t)) x_j into the sum."""
    pts = []                                                  # x, t, ln a_w - ln x_w, doubt, group
    for src, doubt in (("crc102", 0.0001), ("coolprop_mgl", 0.003), ("coolprop_mgl2", 0.003)):
        _, m, tf = freezing_rows("glycerol", 100, [src])
        for a, t in zip(m, tf):
            x = mole_fraction(a)
            pts.append((x, t, ln_aw_ice(t + T0) - np.log(1 - x), doubt + 0.003*x, src))
    for src, doubt in (("aquasol_zhang2022", 0.003), ("norrish_K_recalled", 0.003)):
        for r in rows("water_activity.csv", solute="glycerol", source=src):
            x = mole_fraction(molality(r["solute_mass_pct"]/100, MOLAR["glycerol"]))
            pts.append((x, r["temp_C"], np.log(r["water_activity"]) - np.log(1 - x), doubt, src))
    x, t, u, sd, src = (np.array(a) for a in zip(*pts))
    def model(c, x, t):
        return -(c[0] + c[1]*(25 - t))*x**2/(1 + c[2]*x)

    def resid(c, k):
        return ((model(c, x, t) - u)/sd)[k]

    everything = np.ones(len(x), bool)
    # held out: both Melinder fits and every zhang row; only CRC and the recalled 25 C constant used
    small = np.isin(src, ["crc102", "norrish_K_recalled"])
    for label, k in (("all rows", everything), ("CRC + recalled 25 C constant only", small)):
        c = np.round(least_squares(resid, [1.2, 0.03, 1.0], loss="soft_l1", args=(k,)).x, 4)
        print(f"glycerol, {label}: k = ({c[0]:.4f} + {c[1]:.4f} (25-t))/(1 + {c[2]:.4f} x)")
        for s in ("crc102", "coolprop_mgl", "coolprop_mgl2"):
            k = src == s
            tf = [freezing(lambda T, a=a: np.log(1 - a) + model(c, a, T - T0)) for a in x[k]]
            e = np.array(tf) - t[k]
            stats(f"   freezing {s} <=30 %", e[x[k] < 0.078], 3)
            stats(f"   freezing {s} 30-40 %", e[(x[k] >= 0.078) & (x[k] < 0.12)], 3)
            stats(f"   freezing {s} 40-60 %", e[x[k] >= 0.12], 3)
        for s in ("aquasol_zhang2022", "norrish_K_recalled"):
            k = src == s
            e = np.exp(np.log(1 - x[k]) + model(c, x[k], t[k])) - np.exp(np.log(1 - x[k]) + u[k])
            stats(f"   a_w {s}", e, 4)
            print("     ", "; ".join(f"x {a:.3f} {b:.0f} C {d:+.4f}" for a, b, d in zip(x[k], t[k], e)))


if __name__ == "__main__":
    glycerol()
    print()
    for name, top in (("acetic_acid", 36), ("lactic_acid", 20), ("citric_acid", 22),
                      ("phosphoric_acid", 40), ("maltose", 42), ("mannitol", 15), ("lactose", 8),
                      ("sucrose", 42), ("glucose", 30), ("fructose", 25)):
        for dis in ((False, True) if name in PKA1 else (False,)):
            for cubic in (False, True):
                c, _ = fit(name, top, cubic, dis)
                report(name, c, f"{'cubic' if cubic else 'square'}{', with m_H' if dis else ''}", dis)
    report("maltose", (-4.54, 0), "recalled 25 C constant")
    report("mannitol", (-0.91, 0), "recalled 25 C constant")
    report("mannitol", (-1.65, 0), "sorbitol, recalled 25 C constant")
    report("citric_acid", (-6.17, 0), "recalled 25 C constant")
    report("citric_acid", (-1.9, 0), "old constant")
    report("citric_acid", (-1.9, 0), "old constant, with m_H", True)
    report("lactic_acid", (-1.59, 0), "recalled 25 C constant")
