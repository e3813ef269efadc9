"""Item 5: enthalpy of liquid water + ethanol + dissolved solids, and of ice.

Usage: python heat.py [folder of reference tables]        (needs iapws and CoolProp)

H_liquid (J, m in kg, n in mol, zero for the pure liquids at 0 C) =
    m_w h_w(t) + m_e h_e(t) + m_solids h_s(t) + n HE,
    HE = H298(x) + C(x) d + D x(1-x) d^2/2,  d = T - 298.15, n and x of water + ethanol
C(x) is the excess heat capacity at 25 C, D x(1-x) its slope with temperature (D = 0 is tested too). It must reach 100 % ethanol, so it is fitted to heat capacities over
the whole range (Melinder to 60 %, Perry above); every second row is also held out once.
"""
import warnings
import numpy as np
from common import ME, MW, T0, column, rows, stats

warnings.simplefilter("ignore")
POWERS = (0.0, 0.5, 1.0, 1.5)


def h298(x):
    """Excess enthalpy at 25 C, J/mol, section B2."""
    return x*(1 - x)*(-22692.8 + 50624.1*x**.5 - 62778.1*x**1.5 + 43870.8*x**2.5 - 11666.8*x**4.5)


def c_old(x):
    return x*(1 - x)*(210.73 - 1179.2*x + 3227.8*x**2 - 3395.4*x**3)


def c_new(c, x):
    return x*(1 - x)*sum(a*x**p for a, p in zip(c, POWERS))


def pure_liquids():
    """h(t) as quartic (water) and cubic (ethanol) polynomials, fitted to h and cp together."""
    from iapws import IAPWS95
    from CoolProp.CoolProp import PropsSI
    t = np.arange(-20, 41, 2.0)
    water = [IAPWS95(T=a + T0, P=0.101325) for a in t]
    zero = IAPWS95(T=T0, P=0.101325).h
    hw, cw = np.array([1000*(w.h - zero) for w in water]), np.array([1000*w.cp for w in water])
    te = np.arange(-40, 46, 5.0)
    he = np.array([PropsSI("H", "T", a + T0, "P", 101325, "Ethanol") for a in te])
    he = he - PropsSI("H", "T", T0, "P", 101325, "Ethanol")
    ce = np.array([PropsSI("C", "T", a + T0, "P", 101325, "Ethanol") for a in te])
    out = []
    for name, x, h, cp, deg in (("water", t, hw, cw, 5), ("ethanol", te, he, ce, 3)):
        k = np.arange(1, deg + 1)
        basis = np.vstack([x[:, None]**k, 10*k*x[:, None]**(k - 1)])   # 10 K of cp weighs as h
        c = np.linalg.lstsq(basis, np.r_[h, 10*cp], rcond=None)[0]
        c = np.array([float(f"{v:.7g}") for v in c])
        print(name, "h(t) J/kg, powers 1..:", c.tolist(), f"valid {x[0]:.0f}..{x[-1]:.0f} C")
        stats("   h, J/kg", (x[:, None]**k)@c - h, 1)
        stats("   cp, J/(kg K)", (k*x[:, None]**(k - 1))@c - cp, 1)
        out.append(c)
    return out


def cp_poly(c, t):
    k = np.arange(1, len(c) + 1)
    return (np.asarray(t, float)[..., None]**(k - 1)*k)@c


def heat_capacities(water, ethanol, with_d):
    rs = [r for r in rows("thermal.csv", property="specific_heat")
          if r["sucrose_mass_pct"] == 0 and 0 < r["ethanol_mass_pct"] < 100
          and r["source"] in ("coolprop_mea", "coolprop_mea2", "perry_2_205")]
    p, t, cp = (column(rs, n) for n in ("ethanol_mass_pct", "temp_C", "value"))
    src = np.array([r["source"] for r in rs])
    p = p/100
    n_w, n_e = (1 - p)/MW, p/ME
    x, n = n_e/(n_w + n_e), n_w + n_e                          # n in mol/kg
    base = (1 - p)*cp_poly(water, t) + p*cp_poly(ethanol, t)
    basis = np.array([x*(1 - x)*x**q for q in POWERS] + [x*(1 - x)*(t - 25)]).T*n[:, None]
    if not with_d:
        basis = basis[:, :-1]
    # Perry's few rows above 60 % must count as much as the many Melinder rows below it
    w = np.where((src == "perry_2_205") & (p > 0.55), 4.0, 1.0)

    def fit(k):
        return np.linalg.lstsq(basis[k]*w[k, None], (cp - base)[k]*w[k], rcond=None)[0]

    c = np.round(fit(np.ones(len(p), bool)), 3)
    print(f"C(x) = x(1-x)({c[0]} + {c[1]} x^.5 + {c[2]} x + {c[3]} x^1.5) J/(mol K), "
          f"D = {c[4] if with_d else 0} J/(mol K2)")
    pred, old = base + basis@c, base + n*c_old(x)
    const = 4200*(1 - p) + 2360*p + n*c_old(x)
    held = np.arange(len(p)) % 2 == 1
    pred_h = base + basis@fit(~held)
    for label, q in ([("new", pred)] if with_d else
                     [("new, D = 0", pred), ("old C(x) and constant cp", const), ("old C(x), new pure cp", old)]):
        for s in ("coolprop_mea", "coolprop_mea2", "perry_2_205"):
            for lo, hi in ((0, .401), (.401, .601), (.601, 1)):
                k = (src == s) & (p > lo) & (p <= hi)
                if k.any():
                    stats(f"   {label}: {s} {100*lo:.0f}-{100*hi:.0f} %, error in %", 100*(q/cp - 1)[k], 2)
    k = held & (src != "perry_2_205")
    stats("   held-out half (Melinder), error in %", 100*(pred_h/cp - 1)[k], 2)
    grid = np.array([.02, .05, .1, .2, .3, .4, .5, .6, .7, .8, .9, .97])
    print("   C(x) at", grid.tolist(), np.round(c_new(c, grid), 2).tolist())
    d2 = 0.5*(c[4] if with_d else 0)*grid*(1 - grid)
    for d in (-45, -25, 0):
        print(f"   HE at {25 + d} C ", np.round(h298(grid) + d*c_new(c, grid) + d*d*d2, 0).tolist())


def sucrose(water):
    rs = [r for r in rows("thermal.csv", property="specific_heat", source="bubnik_llano_eval")
          if r["sucrose_mass_pct"] > 0]
    s, t, cp = (column(rs, n) for n in ("sucrose_mass_pct", "temp_C", "value"))
    s = s/100
    y = cp - (1 - s)*cp_poly(water, t)
    a = np.linalg.lstsq(np.array([s, s*t]).T, y, rcond=None)[0]
    a = np.round(a, [0, 2][0])
    a1 = np.round(np.linalg.lstsq((s*t)[:, None], y - s*a[0], rcond=None)[0][0], 2)
    print(f"sucrose: apparent cp of solids = {a[0]:.0f} + {a1} t J/(kg K)")
    pred = (1 - s)*cp_poly(water, t) + s*(a[0] + a1*t)
    for lo, hi in ((0, .6), (.6, .8)):
        k = (s > lo) & (s <= hi)
        stats(f"   {100*lo:.0f}-{100*hi:.0f} %, error in %", 100*(pred/cp - 1)[k], 2)


def ice(water):
    from iapws import IAPWS95
    from iapws._iapws import _Ice
    zero = IAPWS95(T=T0, P=0.101325).h
    t = np.arange(-40, 0.5, 2.0)
    h = np.array([1000*(_Ice(a + T0, 0.101325)["h"] - zero) for a in t])
    cp = np.array([1000*_Ice(a + T0, 0.101325)["cp"] for a in t])
    c = np.polyfit(t, h, 2)[::-1]
    c = np.array([round(c[0], 0), round(c[1], 2), round(c[2], 4)])
    print(f"ice h(t) = {c[0]:.0f} + {c[1]} t + {c[2]} t^2 J/kg, -40..0 C")
    stats("   h, J/kg", c[0] + c[1]*t + c[2]*t**2 - h, 1)
    stats("   cp IAPWS, error in %", 100*((c[1] + 2*c[2]*t)/cp - 1), 3)
    tab = rows("thermal.csv", property="ice_specific_heat")
    tt = column(tab, "temp_C")
    stats("   cp table, error in %", 100*((c[1] + 2*c[2]*tt)/column(tab, "value") - 1), 3)
    tab = rows("thermal.csv", property="heat_of_fusion_ice_to_supercooled_water_at_T")
    tt = column(tab, "temp_C")
    k = np.arange(1, len(water) + 1)
    fus = (tt[:, None]**k)@water - (c[0] + c[1]*tt + c[2]*tt**2)
    stats("   heat of fusion table, error in %", 100*(fus/1000/column(tab, "value") - 1), 3)
    t2 = np.arange(-20, 0.5, 1.0)
    ref = np.array([IAPWS95(T=a + T0, P=0.101325).h - _Ice(a + T0, 0.101325)["h"] for a in t2])*1000
    fus = (t2[:, None]**k)@water - (c[0] + c[1]*t2 + c[2]*t2**2)
    stats("   heat of fusion IAPWS to -20 C, error in %", 100*(fus/ref - 1), 3)


if __name__ == "__main__":
    w, e = pure_liquids()
    heat_capacities(w, e, False)
    heat_capacities(w, e, True)
    sucrose(w)
    ice(w)
    wt = rows("thermal.csv", property="specific_heat", source="coolprop_heos_water")
    stats("water cp table, error in %", 100*(cp_poly(w, column(wt, "temp_C"))/column(wt, "value") - 1), 3)
    et = rows("thermal.csv", property="specific_heat", source="coolprop_heos_ethanol")
    stats("ethanol cp table, error in %", 100*(cp_poly(e, column(et, "temp_C"))/column(et, "value") - 1), 3)
    et = rows("thermal.csv", property="specific_heat", source="perry_2_205", ethanol_mass_pct="100")
    stats("ethanol cp Perry, error in %", 100*(cp_poly(e, column(et, "temp_C"))/column(et, "value") - 1), 2)
