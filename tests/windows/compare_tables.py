#!/usr/bin/env python3
"""Two CSV files hold the same: words equal, numbers as near as other last bits of sin and exp let them be.

usage: compare_tables.py ONE OTHER
"""

import csv
import sys

# chosen: far finer than any of these numbers is known, far coarser than the last bits
ABSOLUTE, RELATIVE = 2e-3, 1e-6


def number(text):
    try:
        return float(text)
    except ValueError:
        return None


def main():
    with open(sys.argv[1], newline="", encoding="utf-8") as one, open(sys.argv[2], newline="", encoding="utf-8") as other:
        rows, others = list(csv.reader(one)), list(csv.reader(other))
    if len(rows) != len(others) or len(rows) < 10:
        sys.exit(f"{len(rows)} rows against {len(others)}")
    worst = 0.0
    for line, (a_row, b_row) in enumerate(zip(rows, others), 1):
        if len(a_row) != len(b_row):
            sys.exit(f"line {line}: {len(a_row)} columns against {len(b_row)}")
        for name, a, b in zip(rows[0], a_row, b_row):
            x, y = number(a), number(b)
            if x is None or y is None:
                if a != b:
                    sys.exit(f"line {line}, {name}: {a} against {b}")
                continue
            worst = max(worst, abs(x - y))
            if not abs(x - y) <= ABSOLUTE + RELATIVE * abs(x):
                sys.exit(f"line {line}, {name}: {a} against {b}")
    print(f"{sys.argv[2]}: {len(rows)} rows, numbers apart by at most {worst:.2g}")


if __name__ == "__main__":
    main()
