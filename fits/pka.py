"""Item 7: pKa against temperature, and the pH of the primary standards 0-60 C.

Usage: python pka.py [folder of reference tables]

pK(T) = pK25 + A (1/T - 1/T25) + C (T - T25): the Harned-Robinson form A/T - D + C T, shifted so that
it equals section D's constant at 25 C exactly. A and C marked recalled are from memory of Robinson
and Stokes, Electrolyte Solutions, appendix 12.1; citric is fitted here to Bates and Pinching 1949
(recalled), malic to the table (Serjeant and Dempsey 1979).
"""
import numpy as np
from scipy.optimize import brentq
from common import column, rows, stats

T25 = 298.15
PK25 = {"acetic": [4.756], "lactic": [3.86], "tartaric": [3.036, 4.366], "carbonic": [6.351, 10.329],
        "phosphoric": [2.148, 7.198, 12.375], "phthalic": [2.950, 5.408], "water": [13.995],
        "citric": [3.128, 4.761, 6.396], "malic": [3.459, 5.097]}
RECALLED = {("acetic", 1): (1170.48, 3.1649, 0.013399), ("lactic", 1): (1286.49, 4.8607, 0.014776),
            ("tartaric", 1): (1525.59, 6.6558, 0.015336), ("tartaric", 2): (1765.35, 7.3015, 0.019276),
            ("carbonic", 1): (3404.71, 14.8435, 0.032786), ("carbonic", 2): (2902.39, 6.4980, 0.02379),
            ("phosphoric", 1): (799.31, 4.5535, 0.013486), ("phosphoric", 2): (1979.5, 5.3541, 0.01984),
            ("phthalic", 2): (2175.83, 9.55095, 0.025694), ("water", 1): (4470.99, 6.0875, 0.01706)}
CITRIC = [[3.220, 3.200, 3.176, 3.160, 3.142, 3.128, 3.116, 3.109, 3.099, 3.097, 3.095],
          [4.837, 4.813, 4.797, 4.782, 4.769, 4.761, 4.755, 4.751, 4.750, 4.754, 4.757],
          [6.393, 6.386, 6.383, 6.384, 6.388, 6.396, 6.406, 6.423, 6.439, 6.462, 6.484]]


def shifted(pk25, ac, T):
    return pk25 + ac[0]*(1/T - 1/T25) + ac[1]*(T - T25)


def fit_shift(T, pk, pk25):
    basis = np.array([1/T - 1/T25, T - T25]).T
    return np.linalg.lstsq(basis, pk - pk25, rcond=None)[0]


def constants():
    """(acid, step) -> (A, C)."""
    out = {k: (v[0], v[2]) for k, v in RECALLED.items()}
    for k, (a, d, c) in RECALLED.items():
        here = a/T25 - d + c*T25
        print(f"  {k[0]} {k[1]}: recalled formula at 25 C {here:.4f}, section D {PK25[k[0]][k[1] - 1]}, "
              f"shift {PK25[k[0]][k[1] - 1] - here:+.4f}; dH {2.302585*8.314462618*(a - c*T25**2)/1000:+.2f} kJ/mol")
    T = np.arange(0, 51, 5) + 273.15
    for i, values in enumerate(CITRIC):
        ac = fit_shift(T, np.array(values), PK25["citric"][i])
        out["citric", i + 1] = (round(ac[0], 2), round(ac[1], 6))
        stats(f"  citric {i + 1} A {ac[0]:.2f} C {ac[1]:.6f}",
              shifted(PK25["citric"][i], out["citric", i + 1], T) - values, 4)
    for i in (1, 2):
        r = rows("acid_pka.csv", acid="malic", dissociation_step=str(i), source="iupac_serjeant")
        t, pk = column(r, "temp_C") + 273.15, column(r, "pKa")
        ac = fit_shift(t, pk, PK25["malic"][i - 1])
        out["malic", i] = (round(ac[0], 2), round(ac[1], 6))
        stats(f"  malic {i} A {ac[0]:.2f} C {ac[1]:.6f}", shifted(PK25["malic"][i - 1], out["malic", i], t) - pk, 4)
    # phthalic 1 and phosphoric 3: no temperature function known here; van 't Hoff with a heat
    out["phthalic", 1] = (-2670/8.314462618/2.302585, 0.0)      # dH -2.67 kJ/mol, recalled
    out["phosphoric", 3] = (14700/8.314462618/2.302585, 0.0)    # dH +14.7 kJ/mol, recalled
    print("  check of reaction heats with minteq_v4 (kJ/mol):")
    for r in rows("acid_pka.csv", source="minteq_v4"):
        name = r["acid"].replace("tartaric_L", "tartaric")
        key = (name, int(r["dissociation_step"]))
        if key in out:
            a, c = out[key]
            print(f"    {key}: here {2.302585*8.314462618*(a - c*T25**2)/1000:+.2f}, "
                  f"table {r['dissociation_enthalpy_kJ_mol']:+.2f}")
    return out


def a10(t):
    """Debye-Huckel slope, molal, log10; debye_huckel.py, shifted to section D's 0.509 at 25 C."""
    d = t - 25
    return 0.509 + 8.555399e-4*d + 3.82272e-6*d**2 + 2.6885e-8*d**3


def ph(acids, sid, salt, t, ac, neutral=0.1):
    """Sections D and G7: acids = {name: molality}, sid in eq/kg. Nested solve, clarity before speed."""
    T, A = t + 273.15, a10(t)
    pk = {n: [shifted(PK25[n][i], ac[n, i + 1], T) for i in range(len(PK25[n]))] for n in list(acids) + ["water"]}

    def at(p, ionic):
        s = np.sqrt(ionic)
        ll = A*(s/(1 + s) - 0.3*ionic)
        mh, moh = 10**(-p + ll), 10**(p - pk["water"][0] + ll)
        charge, z2 = mh - moh + sid, mh + moh + abs(sid)
        for n, m in acids.items():
            j = np.arange(len(pk[n]) + 1)
            lw = np.log(10)*(-np.r_[0, np.cumsum(pk[n])] + j*p + neutral*ionic*(j > 0) + j*j*ll)
            w = np.exp(lw - lw.max())
            w /= w.sum()
            charge -= m*(w@j)
            z2 += m*(w@j**2)
        return charge, 0.5*z2 + salt

    def balance(p):
        ionic = salt + abs(sid) + 0.02
        for _ in range(80):
            new = at(p, ionic)[1]
            if abs(new - ionic) < 1e-13:
                break
            ionic = min(new, 3.0)
        return at(p, ionic)[0]
    return brentq(balance, -1.5, 15, xtol=1e-12)


STANDARDS = {"KH2 citrate": ({"citric": 0.05}, 0.05), "KH phthalate": ({"phthalic": 0.05}, 0.05),
             "KH2PO4": ({"phosphoric": 0.05}, 0.075), "KH tartrate": ({"tartaric": 0.0341}, 0.0341),
             "NaHCO3": ({"carbonic": 0.05}, 0.075)}
# further primary standards at other temperatures, recalled from the NBS/NIST tables (Bates)
RECALLED_PH = {"KH phthalate": {0: 4.003, 10: 3.998, 20: 4.002, 30: 4.015, 40: 4.035, 50: 4.060},
               "KH2PO4": {0: 6.984, 10: 6.923, 20: 6.881, 30: 6.853, 40: 6.838, 50: 6.833},
               "NaHCO3": {0: 10.317, 10: 10.179, 20: 10.062, 30: 9.966, 40: 9.889, 50: 9.828},
               "KH tartrate": {35: 3.549, 40: 3.547, 50: 3.549}}


def standards(ac):
    tab = rows("ph_standards.csv")
    for neutral in (0.1, 0.0):
        print(f"pH of standards, neutral-acid term {neutral}")
        group = {}
        for r in tab:
            name = next(k for k in STANDARDS if k in r["solution"])
            acids, sid = STANDARDS[name]
            e = ph(acids, sid, 0.0, r["temp_C"], ac, neutral) - r["pH"]
            group.setdefault((name, r["source"], r["temp_C"] == 25), []).append((r["temp_C"], e))
        for (name, src, at25), v in group.items():
            if src != "phreeqc_run":
                print(f"  {name:13s} {src:22s} {'25 C' if at25 else 'other t'}: "
                      + ", ".join(f"{t:.0f} C {e:+.3f}" for t, e in v))
        for name, v in RECALLED_PH.items():
            acids, sid = STANDARDS[name]
            print(f"  {name:13s} recalled NBS           : "
                  + ", ".join(f"{t} C {ph(acids, sid, 0.0, t, ac, neutral) - p:+.3f}" for t, p in v.items()))
        other = [e for (n, s, a), v in group.items() if not a and s != "phreeqc_run" for _, e in v]
        stats("  table rows off 25 C", other, 3)


if __name__ == "__main__":
    table = constants()
    print("(acid, step): A (K), C (1/K)")
    for k, v in table.items():
        print(f"  {k[0]} {k[1]}: pK25 {PK25[k[0]][k[1] - 1]}  A {v[0]:.3f}  C {v[1]:.6f}")
    standards(table)
