"""Density and freezing point of ethanol-water by CoolProp INCOMP::MEA: microseconds per call.

Usage: python coolprop_peers.py [cases.csv] [--runs N]

cases.csv: columns ethanol_mass_fraction, temp_C. Two ways are timed: the string interface, which a
script would use, and a kept AbstractState, which is the fast way. Prints one JSON line per peer.
MEA covers mass fractions to 0.60; cases below the freezing point are counted and left out of density.
"""
import argparse
import csv
import os

from timing import bench

P = 101325.0


def main():
    import CoolProp
    from CoolProp.CoolProp import PropsSI
    here = os.path.dirname(os.path.abspath(__file__))
    ap = argparse.ArgumentParser()
    ap.add_argument("cases", nargs="?", default=os.path.join(here, "ethanol_cases.csv"))
    ap.add_argument("--runs", type=int, default=7)
    args = ap.parse_args()
    with open(args.cases, newline="") as f:
        cases = [(float(r["ethanol_mass_fraction"]), float(r["temp_C"]) + 273.15) for r in csv.DictReader(f)]
    state = CoolProp.AbstractState("INCOMP", "MEA")

    def freezing(c):
        state.set_mass_fractions([c[0]])
        return state.keyed_output(CoolProp.iT_freeze)

    def density(c):
        state.set_mass_fractions([c[0]])
        state.update(CoolProp.PT_INPUTS, P, c[1])
        return state.rhomass()

    def density_string(c):
        return PropsSI("D", "T", c[1], "P", P, f"INCOMP::MEA[{c[0]}]")

    def freezing_string(c):
        return PropsSI("T_freeze", "T", c[1], "P", P, f"INCOMP::MEA[{c[0]}]")

    liquid = [c for c in cases if c[1] > freezing(c) + 0.05]
    extra = {"left_out_frozen": len(cases) - len(liquid)}
    bench("coolprop density, kept state", density, liquid, args.runs, lambda _: extra)
    bench("coolprop density, string call", density_string, liquid, args.runs, lambda _: extra)
    bench("coolprop freezing point, kept state", freezing, cases, args.runs)
    bench("coolprop freezing point, string call", freezing_string, liquid, args.runs, lambda _: extra)


if __name__ == "__main__":
    main()
