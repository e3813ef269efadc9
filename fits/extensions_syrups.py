"""Section 10.2: glucose, fructose, maltose, lactose past the end of their tables.

Usage: python extensions_syrups.py [folder of reference tables]

Rule tested: above its top, phi_j(s) = phi_j(top) + phi_sucrose(s) - phi_sucrose(top), the same for r.
Tests: honey (Chataway's table as printed by a refractometer maker, read; White's specific gravities,
recalled), glucose syrup (GOST R 50546 = ISO 1743, table of dry matter against index, read),
invert sugar syrup (recalled).
"""
import numpy as np
from common import index_from_lorentz, rho_sucrose, rho_water, stats

R_WATER = 0.206060530
SUCROSE_R = (0.20670124, -0.00140046, -0.00185602, 0.00062203)
#        phi0     phi1     r0        r1         top phi, top r
SUGARS = {"glucose": (.61844, .02816, .207536, -.003227, .60), "fructose": (.60939, .03069, .204956, -.001911, .48),
          "maltose": (.61398, .02136, .208813, -.003443, .60), "lactose": (.60604, .01551, .207516, .001040, .18)}


def phi_sucrose(s):
    return (1000/rho_sucrose(s) - 1000*(1 - s)/rho_water(20.0))/s


def r_sucrose(s):
    return np.polyval(SUCROSE_R[::-1], s)


def pair(name, s, rule, tops=None):
    """phi and r of a sugar at solids share s: rule = clamp, line or sucrose."""
    if name == "sucrose":
        return phi_sucrose(s), r_sucrose(s)
    p0, p1, r0, r1, top = SUGARS[name]
    top = (tops or {}).get(name, top)
    a = s if rule == "line" else min(s, top)
    phi, r = p0 + p1*a, r0 + r1*a
    if rule == "sucrose" and s > top:
        phi += phi_sucrose(s) - phi_sucrose(top)
        r += r_sucrose(s) - r_sucrose(top)
    return phi, r


def syrup(parts, s, rule, tops=None):
    """density (kg/m3) and index of a syrup; parts = shares of the solids."""
    total = sum(parts.values())
    v, big_r = (1 - s)/rho_water(20.0)*1000, (1 - s)*R_WATER
    for name, w in parts.items():
        phi, r = pair(name, s, rule, tops)
        v += s*w/total*phi
        big_r += s*w/total*r
    rho = 1/v
    return 1000*rho, float(index_from_lorentz(rho*big_r))


CHATAWAY = {13: 1.5044, 14: 1.5018, 15: 1.4992, 16: 1.4966, 19: 1.4890, 20: 1.4865, 21: 1.4840, 22: 1.4815}
WHITE = {13: 1.4457, 14: 1.4404, 15: 1.4350, 16: 1.4295, 17: 1.4237, 18: 1.4171, 19: 1.4101, 20: 1.4027, 21: 1.3950}
HONEY = {"fructose": 38.2, "glucose": 31.3, "maltose": 8.5, "sucrose": 2.0}      # White 1962, recalled
# glucose syrup, dry matter % : index at 20 C (GOST R 50546-93 / ISO 1743, read)
ISO1743 = {10: 1.34852, 20: 1.36534, 30: 1.38352, 40: 1.40319, 50: 1.42452, 60: 1.44767, 64: 1.45748, 68: 1.46762}
# sugars of a 42 DE acid syrup, per 100 of solids (recalled): the higher ones counted as maltose
SYRUP42 = {"glucose": 19, "maltose": 81}
INVERT = {"glucose": 50, "fructose": 50}
# trade sheets of fructose syrups, 20 C, recalled: solids %, kg/m3 (11.23 and 11.55 lb/gal), index
TRADE = {"42 %": ({"fructose": 42, "glucose": 52, "maltose": 6}, .71, 1345.7, 1.4643),
         "55 %": ({"fructose": 55, "glucose": 41, "maltose": 4}, .77, 1384.0, 1.4789)}

if __name__ == "__main__":
    for rule in ("clamp", "line", "sucrose"):
        print(rule)
        e = np.array([(100 - w, syrup(HONEY, 1 - w/100, rule)[1] - n) for w, n in CHATAWAY.items()])
        stats("   honey, index", e[:, 1], 5); print("     ", e.round(5).tolist())
        slope = 0.00258
        print("      as % water:", (e[:, 1]/slope).round(2).tolist())
        e = np.array([(100 - w, syrup(HONEY, 1 - w/100, rule)[0] - 998.2*d) for w, d in WHITE.items()])
        stats("   honey, density", e[:, 1], 2); print("     ", e.round(2).tolist())
        e = [(s, round(syrup(SYRUP42, s/100, rule)[1] - n, 5)) for s, n in ISO1743.items()]
        print("   glucose syrup, index", e)
        print("   glucose syrup 80 %:", syrup(SYRUP42, .80, rule), " invert:",
              [(s, round(syrup(INVERT, s/100, rule)[0], 1), round(syrup(INVERT, s/100, rule)[1], 4)) for s in (60, 70, 75, 77, 80)])
        for name, (parts, s, rho, n) in TRADE.items():
            a, b = syrup(parts, s, rule)
            print(f"   fructose syrup {name} at {100*s:.0f} %: {a - rho:+.2f} kg/m3, {b - n:+.5f}")
