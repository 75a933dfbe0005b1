#!/usr/bin/env python3
"""Solves a routine with two builds of the program and compares the paths, column by column.

usage: compare_paths.py ROUTINE PROGRAM... -- OTHER-PROGRAM...

sin, exp and the like differ in their last bits between systems, and the step control may then choose other steps, so the paths agree
to the solver's accuracy, not to the byte.
"""

import csv
import math
import os
import subprocess
import sys
import tempfile

# chosen: far below what a figure can be flown to, a thousand times what was seen (2 um, 1e-8 s) after 12 minutes and 36 figures
TOLERANCES = {
    "time_s": 1e-5,
    "x_m": 1e-3,
    "y_m": 1e-3,
    "height_m": 1e-3,
    "airspeed_mps": 1e-4,
    "normal_g": 1e-4,
    "attitude_rad": 1e-4,
}
COLUMNS = [name for name in TOLERANCES if name != "attitude_rad"]
QUATERNION = ("qw", "qx", "qy", "qz")


def solve(program, routine, output):
    done = subprocess.run([*program, "solve", routine, "-o", output], capture_output=True, text=True)
    if done.returncode not in (0, 1):  # 1: solved, with an element not flyable as written
        sys.exit(f"{' '.join(program)} solve: exit {done.returncode}\n{done.stdout[-2000:]}{done.stderr[-2000:]}")
    with open(output, newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def main():
    routine, *rest = sys.argv[1:]
    split = rest.index("--")
    with tempfile.TemporaryDirectory() as folder:
        one = solve(rest[:split], routine, os.path.join(folder, "one.csv"))
        other = solve(rest[split + 1 :], routine, os.path.join(folder, "other.csv"))
    if len(one) != len(other) or len(one) < 1000:
        sys.exit(f"{len(one)} rows against {len(other)}")
    worst = {}
    for a, b in zip(one, other):
        if (a["figure"], a["element"]) != (b["figure"], b["element"]):
            sys.exit(f"at {a['time_s']} s: {a['figure']}, {a['element']} against {b['figure']}, {b['element']}")
        gaps = {name: abs(float(a[name]) - float(b[name])) for name in COLUMNS}
        gaps["attitude_rad"] = 2 * math.dist([float(a[n]) for n in QUATERNION], [float(b[n]) for n in QUATERNION])
        for name, gap in gaps.items():
            worst[name] = max(worst.get(name, 0.0), gap)
    late = [name for name, gap in worst.items() if not gap <= TOLERANCES[name]]
    print(f"{len(one)} rows; largest differences:", ", ".join(f"{name} {gap:.2g}" for name, gap in worst.items()))
    if late:
        sys.exit(f"apart by more than the tolerance: {', '.join(late)}")


if __name__ == "__main__":
    main()
