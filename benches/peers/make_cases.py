"""Write the two lists of cases that both this crate and the peers are timed on.

Usage: python make_cases.py [folder]     ->  ph_cases.csv, ethanol_cases.csv

Fixed seed, so the lists are the same everywhere. Mixtures: one to four of six acids, partly neutralised
with Na or K, sometimes with salt; ionic strength stays below 0.5 mol/kg water.
"""
import csv
import os
import random
import sys

ACIDS = ["citric", "malic", "lactic", "tartaric", "acetic", "phosphoric"]
PROTONS = {"citric": 3, "malic": 2, "lactic": 1, "tartaric": 2, "acetic": 1, "phosphoric": 2}


def ph_cases(rng, n):
    for _ in range(n):
        chosen = rng.sample(ACIDS, rng.randint(1, 4))
        m = {a: round(10**rng.uniform(-3.5, -0.7), 6) if a in chosen else 0.0 for a in ACIDS}
        capacity = sum(m[a]*PROTONS[a] for a in ACIDS)
        base = min(round(rng.choice([0, 0, rng.uniform(0, 0.6)])*capacity, 6), 0.2)
        salt = rng.choice([0, 0, 0, round(10**rng.uniform(-3, -1), 6)])
        k_share = rng.random()
        row = [m[a] for a in ACIDS]
        row += [round(base*(1 - k_share) + salt, 6), round(base*k_share, 6), salt]
        yield row


def ethanol_cases(rng, n):
    for _ in range(n):
        yield [round(rng.uniform(0.05, 0.60), 5), round(rng.uniform(-5, 25), 3)]


if __name__ == "__main__":
    here = sys.argv[1] if len(sys.argv) > 1 else os.path.dirname(os.path.abspath(__file__))
    rng = random.Random(20240531)
    with open(os.path.join(here, "ph_cases.csv"), "w", newline="") as f:
        w = csv.writer(f, lineterminator="\n")
        w.writerow(ACIDS + ["Na", "K", "Cl"])
        w.writerows(ph_cases(rng, 1000))
    with open(os.path.join(here, "ethanol_cases.csv"), "w", newline="") as f:
        w = csv.writer(f, lineterminator="\n")
        w.writerow(["ethanol_mass_fraction", "temp_C"])
        w.writerows(ethanol_cases(rng, 1000))
