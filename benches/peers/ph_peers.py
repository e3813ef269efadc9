"""pH of the same mixtures by phreeqpython and pHcalc: microseconds per call and how they compare.

Usage: python ph_peers.py [cases.csv] [--runs N] [--write results.csv]

cases.csv: columns citric, malic, lactic, tartaric, acetic, phosphoric, Na, K, Cl in mol per kg water.
Prints one JSON line per peer: {peer, median_us_per_call, runs, min, max, cases, mean_pH, ...}.
phreeqpython solves with activity coefficients (its own for H+ and simple ions, Davies for the acid
anions defined here); pHcalc has none (activity = concentration). Only the first does the same job as
the crate; pHcalc is listed because it is the usual small library for this.
"""
import argparse
import csv
import os
import tempfile
from pathlib import Path

import numpy as np
from timing import bench

# thermodynamic pKa at 25 C (section D of the model text)
PKA = {"citric": [3.128, 4.761, 6.396], "malic": [3.459, 5.097], "lactic": [3.86],
       "tartaric": [3.036, 4.366], "acetic": [4.756], "phosphoric": [2.148, 7.198, 12.375]}
# names PHREEQC can use as elements: one upper-case letter and lower-case letters
ELEMENT = {a: a.capitalize() + "x" for a in PKA}


def read_cases(path):
    with open(path, newline="") as f:
        return [{k: float(v) for k, v in row.items()} for row in csv.DictReader(f)]


def acid_definitions():
    """Each acid as an element of its own whose primary species is the fully charged anion."""
    masters, species = ["SOLUTION_MASTER_SPECIES"], ["SOLUTION_SPECIES"]
    for acid, pks in PKA.items():
        n, el = len(pks), ELEMENT[acid]

        def ion(charge, h, el=el):
            name = (f"H{h if h > 1 else ''}" if h else "") + el
            return name + (f"-{charge if charge > 1 else ''}" if charge else "")
        anion = ion(n, 0)
        masters.append(f"{el} {anion} 0 100 100")
        species += [f"{anion} = {anion}", "log_k 0"]
        for h in range(1, n + 1):
            species += [f"{anion} + {h if h > 1 else ''}H+ = {ion(n - h, h)}",
                        f"log_k {sum(pks[n - h:]):.4f}"]
    return "\n".join(masters + species)


def phreeqc_caller():
    """A function case -> pH. The database is the phreeqc.dat that comes with phreeqpython, with the
    acids put before its PHASES: what follows the END of a database is not read."""
    import phreeqpython
    folder = os.path.join(os.path.dirname(phreeqpython.__file__), "database")
    with open(os.path.join(folder, "phreeqc.dat"), encoding="latin-1") as f:
        text = f.read()
    with tempfile.TemporaryDirectory() as tmp:
        path = os.path.join(tmp, "acids.dat")
        with open(path, "w", encoding="latin-1") as f:
            f.write(text.replace("\nPHASES", "\n" + acid_definitions() + "\nPHASES", 1))
        pp = phreeqpython.PhreeqPython(database="acids.dat", database_directory=Path(tmp))

    def call(case):
        content = {"units": "mol/kgw", "temp": 25, "pH": "3 charge"}
        for acid in PKA:
            if case[acid]:
                content[ELEMENT[acid]] = case[acid]
        for salt in ("Na", "K", "Cl"):
            if case[salt]:
                content[salt] = case[salt]
        solution = pp.add_solution(content)
        value = solution.pH
        solution.forget()
        return value
    return call


def phcalc_caller():
    if not hasattr(np, "cumproduct"):        # pHcalc 0.2.0 uses the name numpy 2 removed
        np.cumproduct = np.cumprod
    from pHcalc import Acid, Inert, System

    def call(case):
        parts = [Acid(pKa=pks, charge=0, conc=case[a]) for a, pks in PKA.items() if case[a]]
        net = case["Na"] + case["K"] - case["Cl"]
        if net:
            parts.append(Inert(charge=1 if net > 0 else -1, conc=abs(net)))
        system = System(*parts)
        system.pHsolve(guess_est=True)
        return float(system.pH)
    return call


def main():
    here = os.path.dirname(os.path.abspath(__file__))
    ap = argparse.ArgumentParser()
    ap.add_argument("cases", nargs="?", default=os.path.join(here, "ph_cases.csv"))
    ap.add_argument("--runs", type=int, default=5)
    ap.add_argument("--phcalc-cases", type=int, default=200, help="pHcalc is slow: time only the first N")
    ap.add_argument("--write", help="CSV of case number and pH by each peer")
    args = ap.parse_args()
    cases = read_cases(args.cases)
    out = {}
    for name, make, todo in (("phreeqpython", phreeqc_caller, cases),
                             ("pHcalc", phcalc_caller, cases[:args.phcalc_cases])):
        try:
            call = make()
        except ImportError as missing:
            print(f'{{"peer": "{name}", "skipped": "{missing}"}}')
            continue
        call(cases[0])                        # warm up
        out[name] = bench(name, call, todo, args.runs,
                          lambda r: {"mean_pH": round(float(np.mean(r)), 4)})
    if args.write and out:
        with open(args.write, "w", newline="") as f:
            w = csv.writer(f, lineterminator="\n")
            w.writerow(["case"] + list(out))
            for i in range(len(cases)):
                w.writerow([i] + [round(out[k][i], 5) if i < len(out[k]) else "" for k in out])


if __name__ == "__main__":
    main()
