"""Item 2, second part: volumes and refractions of single ions, additive over salts.

Usage: python ions.py [folder of reference tables]

Only sums over neutral salts are measurable. The split used is the usual one on the hydrogen scale,
V(H+) = 0, with V(Cl-) = 17.9 cm3/mol at 20 C (recalled: 17.83 at 25 C, Millero 1971).
An acid that loses a proton shrinks by V_ION cm3 per mol of charge (electrostriction); that number
comes from trisodium citrate against citric acid.
CaCl2 and MgCl2 rows: CRC Handbook 102nd ed. (same public copy as the tables), 20 C.
"""
import numpy as np
from common import CITRATE, MOLAR, index_from_lorentz, stats
from apparent_volumes import R_WATER, fit_refraction, fit_volume, table

M = {"Na": 22.990, "K": 39.098, "Cl": 35.453, "Ca": 40.078, "Mg": 24.305, "HCO3": 61.017}
CALCIUM_CHLORIDE = [(1, 1006.5, 1.3354), (2, 1014.8, 1.3378), (4, 1031.6, 1.3426), (6, 1048.6, 1.3475),
                    (8, 1065.9, 1.3525), (10, 1083.5, 1.3575), (14, 1119.8, 1.3677), (18, 1157.9, 1.3784),
                    (22, 1197.6, 1.3895), (26, 1238.8, 1.4008)]
MAGNESIUM_CHLORIDE = [(1, 1006.2, 1.3356), (2, 1014.4, 1.3381), (4, 1030.9, 1.3432), (6, 1047.9, 1.3483),
                      (8, 1065.1, 1.3534), (10, 1082.6, 1.3587), (14, 1118.9, 1.3695), (18, 1155.3, 1.3804),
                      (22, 1193.8, 1.3915), (26, 1234.6, 1.4030)]


def salt(name, molar, top=0.26):
    """Straight lines V = V0 + V1 s (cm3/mol) and R = R0 + R1 s for one salt."""
    if isinstance(name, str):
        s, t, rho, n = table(name, 100*top)
    else:
        a = np.array(name)
        s, rho, n = a[:, 0]/100, a[:, 1], a[:, 2]
        t = np.full_like(s, 20.0)
    k = (s <= top + 1e-9)
    s, t, rho, n = s[k], t[k], rho[k], n[k]
    c = fit_volume(s, t, rho, [0, 1])
    ok = np.isfinite(n)
    r, _ = fit_refraction(c, s[ok], n[ok])
    return dict(s=s, rho=rho, n=n, V0=molar*c[0], V1=molar*c[1], R0=molar*r[0], R1=molar*r[1], M=molar)


if __name__ == "__main__":
    salts = {"NaCl": salt("sodium_chloride", 58.443), "KCl": salt("potassium_chloride", 74.551),
             "CaCl2": salt(CALCIUM_CHLORIDE, 110.984), "MgCl2": salt(MAGNESIUM_CHLORIDE, 95.211),
             "NaHCO3": salt("sodium_hydrogen_carbonate", 84.007),
             "KHCO3": salt("potassium_hydrogen_carbonate", 100.115),
             "Na3Cit": salt(CITRATE, MOLAR[CITRATE]), "H3Cit": salt("citric_acid", 192.124)}
    for k, v in salts.items():
        print(f"{k:7s} V = {v['V0']:.2f} + {v['V1']:.2f} s   R = {v['R0']:.3f} + {v['R1']:.3f} s   cm3/mol")

    v_cl = 17.9
    V = {"Cl": v_cl, "Na": salts["NaCl"]["V0"] - v_cl, "K": salts["KCl"]["V0"] - v_cl,
         "Ca": salts["CaCl2"]["V0"] - 2*v_cl, "Mg": salts["MgCl2"]["V0"] - 2*v_cl}
    V["HCO3"] = 0.5*(salts["NaHCO3"]["V0"] - V["Na"] + salts["KHCO3"]["V0"] - V["K"])
    v_ion = (salts["Na3Cit"]["V0"] - salts["H3Cit"]["V0"] - 3*V["Na"])/3
    # the change with salt content is booked on the cation, so chlorides come out as their own lines
    V1 = {c: salts[c + x]["V1"] for c, x in (("Na", "Cl"), ("K", "Cl"), ("Ca", "Cl2"), ("Mg", "Cl2"))}
    R1 = {c: salts[c + x]["R1"] for c, x in (("Na", "Cl"), ("K", "Cl"), ("Ca", "Cl2"), ("Mg", "Cl2"))}
    r_na = (salts["Na3Cit"]["R0"] - salts["H3Cit"]["R0"])/3      # Na in place of an acid's H
    R = {"Na": r_na, "Cl": salts["NaCl"]["R0"] - r_na}
    R["K"] = salts["KCl"]["R0"] - R["Cl"]
    R["Ca"] = salts["CaCl2"]["R0"] - 2*R["Cl"]
    R["Mg"] = salts["MgCl2"]["R0"] - 2*R["Cl"]
    R["HCO3"] = 0.5*(salts["NaHCO3"]["R0"] - R["Na"] + salts["KHCO3"]["R0"] - R["K"])
    print(f"V_ION = {v_ion:.2f} cm3 per mol of acid charge")
    for k in V:
        print(f"  {k:5s} V {V[k]:+.2f} {V1.get(k, 0):+.2f} s cm3/mol"
              f" = {V[k]/M[k]:+.5f} {V1.get(k, 0)/M[k]:+.5f} s cm3/g"
              f"   R {R[k]:.3f} {R1.get(k, 0):+.3f} s = {R[k]/M[k]:.5f} {R1.get(k, 0)/M[k]:+.5f} s cm3/g")

    print("check, 20 C, salt content up to 26 %:")
    parts = {"NaCl": {"Na": 1, "Cl": 1}, "KCl": {"K": 1, "Cl": 1}, "CaCl2": {"Ca": 1, "Cl": 2},
             "MgCl2": {"Mg": 1, "Cl": 2}, "NaHCO3": {"Na": 1, "HCO3": 1}, "KHCO3": {"K": 1, "HCO3": 1},
             "Na3Cit": {"Na": 3}}
    for k, v in salts.items():
        if k == "H3Cit":
            continue
        s = v["s"]
        vol = sum(n*(V[i] + V1.get(i, 0)*s) for i, n in parts[k].items())
        ref = sum(n*(R[i] + R1.get(i, 0)*s) for i, n in parts[k].items())
        if k == "Na3Cit":                            # citric acid minus three protons
            vol = vol + salts["H3Cit"]["V0"] + salts["H3Cit"]["V1"]*s + 3*v_ion
            ref = ref + salts["H3Cit"]["R0"]
        rho = 1000/((1 - s)/0.9982031 + s*vol/v["M"])
        n = index_from_lorentz(rho/1000*((1 - s)*R_WATER + s*ref/v["M"]))
        for top in (0.05, 0.26):
            m = s <= top + 1e-9
            stats(f"  {k} to {100*top:.0f} %: density", (rho - v["rho"])[m], 2)
            stats(f"  {k} to {100*top:.0f} %: index", (n - v["n"])[m], 5)
