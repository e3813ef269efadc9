"""Runs our binary and the peers in turn, round after round, and prints the ratios as Markdown.

Usage: python compare.py OUR_BINARY ROUNDS

A ratio is taken within a round, so that a machine that slows down slows both; the table gives the
median of the rounds and their range.
"""
import json
import os
import platform
import statistics
import subprocess
import sys

HERE = os.path.dirname(os.path.abspath(__file__))
# Peer's line -> our line, and what the goal asks.
PAIRS = [
    ("phreeqpython", "ph", "≥ 60"),
    ("pHcalc", "ph", "≥ 1,000"),
    ("coolprop density, kept state", "density", "≥ 5"),
    ("coolprop density, string call", "density", ""),
    ("coolprop freezing point, kept state", "freezing", "≥ 5"),
    ("coolprop freezing point, string call", "freezing", ""),
]


def lines(command):
    out = subprocess.run(command, check=True, capture_output=True, text=True, cwd=HERE).stdout
    return [json.loads(line) for line in out.splitlines() if line.startswith("{")]


def main():
    binary, rounds = sys.argv[1], int(sys.argv[2])
    ours, peers = {}, {}
    for _ in range(rounds):
        for line in lines([binary, "ph_cases.csv", "ethanol_cases.csv"]):
            ours.setdefault(line["ours"], []).append(line["us_per_call"])
        for script in (["ph_peers.py", "--runs", "1", "--phcalc-cases", "100"], ["coolprop_peers.py", "--runs", "1"]):
            for line in lines([sys.executable, *script]):
                peers.setdefault(line["peer"], []).append(line["median_us_per_call"])
    print(f"{rounds} rounds, {platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}.\n")
    print("| peer | peer, µs a call | ours, µs a call | ratio, median (range) | goal |")
    print("|---|---|---|---|---|")
    for peer, own, goal in PAIRS:
        times = next((v for k, v in peers.items() if k.startswith(peer)), None)
        if times is None:
            continue
        ratios = [p / o for p, o in zip(times, ours[own])]
        print(f"| {peer} | {statistics.median(times):.3g} | {statistics.median(ours[own]):.3g} | "
              f"**{statistics.median(ratios):.3g}** ({min(ratios):.3g} – {max(ratios):.3g}) | {goal} |")


if __name__ == "__main__":
    main()
