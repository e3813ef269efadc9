"""Section 10.4: CaCl2 and MgCl2, and mixtures of Na, K, Ca, Mg chlorides.

Usage: python extensions_chlorides.py [folder of reference tables]     (needs CoolProp, phreeqpython)

Pitzer 2:1: phi - 1 = -2 A s/(1+1.2 s) + (4/3) m (B0 + B1 e^(-2s) + B2 e^(-a2 s)) + (4 sqrt2/3) m^2 C,
s = sqrt(3 m), C = C^phi; B's and C as printed in PHREEQC's pitzer.dat (phreeqc 1.1.1).
ln a_w = -3 M_w m phi.
"""
import numpy as np
from scipy.optimize import brentq
from common import MW, T0, ln_aw_ice, stats
from osmotic_salts import PITZER, a_phi, osmotic, published, short

DIVALENT = {
    "CaCl2": ((.3159, 0, 0, -3.27e-4, 1.4e-7, 0), (1.614, 0, 0, 7.63e-3, -8.19e-7, 0),
              (-1.13, 0, 0, -.0476, 0, 0), (1.4e-4, -57, -.098, -7.83e-4, 7.18e-7, 0), 110.984),
    "MgCl2": ((.351, 0, 0, -9.32e-4, 5.94e-7, 0), (1.65, 0, 0, -1.09e-2, 2.6e-5, 0),
              (0, 0, 0, 0, 0, 0), (.00651, 0, 0, -2.5e-4, 2.418e-7, 0), 95.211)}
A2 = 12.0


def phi21(f, m, T, a2=A2):
    s = np.sqrt(3*m)
    b = f[0](T) + f[1](T)*np.exp(-2*s) + f[2](T)*np.exp(-a2*s)
    return 1 - 2*a_phi(T)*s/(1 + 1.2*s) + 4/3*m*b + 4*2**.5/3*m*m*f[3](T)


def freeze(f, m):
    g = lambda T: -3*MW*m*phi21(f, m, T) - ln_aw_ice(T)
    return brentq(g, 200.0, 273.5) - T0


if __name__ == "__main__":
    from CoolProp.CoolProp import PropsSI
    grid = np.arange(-22, 41, 1.0)
    from phreeqpython import PhreeqPython
    pp = PhreeqPython(database="pitzer.dat")

    def phreeqc(ions, t):
        """ln a_w of a solution of ions, mol/kg water."""
        body = "".join(f"  {k} {v}\n" for k, v in ions.items() if v)
        pp.ip.run_string(f"SOLUTION 1\n  temp {t}\n  units mol/kgw\n  pH 7\n{body}"
                         "SELECTED_OUTPUT 1\n -reset false\nUSER_PUNCH 1\n -headings law\n"
                         '10 PUNCH LOG10(ACT("H2O"))\nEND\n')
        out = pp.ip.get_selected_output_array()
        return float(out[-1][-1])*np.log(10)

    for name, sets in DIVALENT.items():
        full = [lambda T, a=a: published(a, T) for a in sets[:4]]
        polys = []
        for label, a in zip(("B0", "B1", "B2", "C"), sets):
            y = published(a, grid + T0)
            p = np.polyfit(grid, y, 3)[::-1] if np.ptp(y) > 0 else np.array([y[0], 0, 0, 0])
            p = [float(f"{x:.6g}") for x in p]
            polys.append(p)
            print(name, label, p, f"departs {np.abs(np.polyval(p[::-1], grid) - y).max():.1e}")
        f = [short(p) for p in polys]
        for tag, fluid in (("CaCl2", "MCA"), ("CaCl2", "MCA2"), ("MgCl2", "MMG"), ("MgCl2", "MMG2")):
            if tag != name:
                continue
            out = []
            for w in np.arange(.01, .2501, .01):
                try:
                    tf = PropsSI("T_freeze", "T", 293.15, "P", 101325, f"INCOMP::{fluid}[{w}]") - T0
                except ValueError:
                    continue
                m = w/(1 - w)*1000/sets[4]
                try:
                    out.append((w, round(tf, 2), round(freeze(full, m) - tf, 2), round(freeze(f, m) - tf, 2)))
                except ValueError:
                    out.append((w, tf, None, None))
            print(fluid, [(round(100*float(a)), b, c, d) for a, b, c, d in out])
            m = np.array([float(a) for a, *_ in out])
            m = m/(1 - m)*1000/sets[4]
            if name == "CaCl2":
                tf = np.array([b for _, b, *_ in out])
                for k in (0, -5e-6, -7.5e-6, -1e-5, -1.25e-5):
                    g = [lambda T, k=k: f[0](T) + k*(T - 298.15)**2, f[1], lambda T: 0*T, f[3]]
                    e = np.array([freeze(g, x) for x in m]) - tf
                    w = m*sets[4]/(1000 + m*sets[4])
                    print("   B0 + k (t-25)^2, no B2, k =", k, "max to 10, 20, 25 %:",
                          [round(float(np.abs(e[w < b]).max()), 3) for b in (.105, .205, .255)])
        # against phreeqc itself, 25 C and 0 and 40
        ion = {"CaCl2": "Ca", "MgCl2": "Mg"}[name]
        for t in (0, 25, 40):
            row = []
            for m in (.05, .2, .5, 1, 2):
                a = -phreeqc({ion: m, "Cl": 2*m}, t)/(3*MW*m)
                row.append((m, round(a, 4), round(phi21(full, m, t + T0) - a, 4),
                            round(phi21([f[0], f[1], lambda T: 0*T, f[3]], m, t + T0) - a, 4)))
            print("   phi phreeqc, ours - it, ours without B2:", t, row)

    # ---- mixtures
    one = {k: [short(np.polyfit(grid, published(a, grid + T0), 3)[::-1]) for a in PITZER[n]]
           for k, n in (("Na", "sodium_chloride"), ("K", "potassium_chloride"))}
    two = {k: [short(np.polyfit(grid, published(a, grid + T0), 3)[::-1]) for a in DIVALENT[n][:4]]
           for k, n in (("Ca", "CaCl2"), ("Mg", "MgCl2"))}
    for k in two:
        two[k][2] = lambda T: 0*T

    def phi(k, strength, T):
        return osmotic(*one[k], strength, T) if k in one else phi21(two[k], strength/3, T)

    def rules(mix, T):
        z = {k: 1 if k in one else 2 for k in mix}
        charge = sum(z[k]*m for k, m in mix.items())
        strength = sum((z[k]**2 + z[k])/2*m for k, m in mix.items())
        salts = {k: (1 + z[k])*m for k, m in mix.items()}
        nu = sum(salts.values())
        # A: each salt's own phi at the common ionic strength
        a = sum(n*phi(k, strength, T) for k, n in salts.items())
        # B: each salt's own phi at the common charge (chloride molality)
        b = sum(n*phi(k, charge if z[k] == 1 else 1.5*charge, T) for k, n in salts.items())
        # C: osmoles of each pure salt at the common ionic strength, weighed by its share of it
        c = sum((z[k]**2 + z[k])/2*m/strength*(1 + z[k])*strength/((z[k]**2 + z[k])/2)*phi(k, strength, T)
                for k, m in mix.items())
        # D: as the present code: everything by its 1:1 partner at the chloride molality
        d = sum(n*phi("K" if k == "K" else "Na", charge, T) for k, n in salts.items())
        # E: excess osmoles per ionic strength: sum m + charge-weighted excess
        e = nu + sum(z[k]*m/charge*(phi(k, strength, T) - 1) for k, m in mix.items())*nu
        # F: excess at the common ionic strength, charge-weighted, per charge of each pure salt
        f = nu
        for k, m in mix.items():
            mk = strength/((z[k]**2 + z[k])/2)                  # molality of the pure salt there
            f += (z[k]**2 + z[k])/2*m/strength*(1 + z[k])*mk*(phi(k, strength, T) - 1)
        # G: Patwardhan-Kumar/McKay-Perring like: per charge squared, excess at I over charge
        g = nu
        for k, m in mix.items():
            ek = z[k]*strength/((z[k]**2 + z[k])/2)             # charge of the pure salt at that strength
            g += z[k]*m/charge*(1 + z[k])/z[k]*ek*(phi(k, strength, T) - 1)*charge/ek
        return {"A common I": a, "B common charge": b, "D now": d, "E": e}

    for label, mix in (("sea-like", {"Na": .48, "K": .01, "Ca": .01, "Mg": .055}),
                       ("brine", {"Na": 1., "K": .5, "Ca": .5, "Mg": .5}),
                       ("Na+Ca 1+1", {"Na": 1., "Ca": 1.}), ("K+Mg", {"K": 1., "Mg": .5}),
                       ("juice-like", {"Na": .01, "K": .05, "Ca": .005, "Mg": .005})):
        for t in (0, 25):
            charge = sum((1 if k in one else 2)*m for k, m in mix.items())
            la = phreeqc({**mix, "Cl": charge}, t)
            ref = -la/MW
            print(label, t, f"osmoles {ref:.4f}", {k: f"{v - ref:+.4f} ({100*(v/ref - 1):+.2f} %, {-1.86*(v - ref):+.3f} K)"
                                                   for k, v in rules(mix, t + T0).items()})
