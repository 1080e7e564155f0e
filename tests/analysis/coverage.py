#!/usr/bin/env python3
"""Sums up gcovr's table of files by room, and lists the files in which most lines were never run.

    coverage.py FILES.csv [LEAST]

The status is 1 if less than LEAST percent (95) of the engine's lines were run.
"""

import collections
import csv
import sys


def main():
    rows = list(csv.DictReader(open(sys.argv[1], encoding="utf-8")))
    least = float(sys.argv[2]) if len(sys.argv) > 2 else 95.0
    rooms = collections.defaultdict(lambda: [0, 0, 0, 0])
    for row in rows:
        parts = row["filename"].split("/")
        room = "/".join(parts[:2]) if parts[0] == "engine" else parts[0]
        figures = [int(row[name]) for name in
                   ("line_covered", "line_total", "branch_covered", "branch_total")]
        for name in {room, parts[0]}:
            rooms[name] = [a + b for a, b in zip(rooms[name], figures)]
        row["missed"] = figures[1] - figures[0]
    print(f"{'':18}{'lines':>8}{'run':>9}{'branches':>11}{'taken':>9}")
    for room in sorted(rooms):
        lines, of_lines, branches, of_branches = rooms[room]
        print(f"{room:18}{of_lines:>8}{share(lines, of_lines):>9}"
              f"{of_branches:>11}{share(branches, of_branches):>9}")
    print("\nMost lines that no test ran:")
    for row in sorted(rows, key=lambda r: -r["missed"])[:15]:
        print(f"{row['missed']:>6}  {row['filename']}")
    engine = rooms["engine"]
    return 0 if 100 * engine[0] >= least * engine[1] else 1


def share(part, whole):
    return f"{100 * part / whole:.1f} %" if whole else "-"


if __name__ == "__main__":
    sys.exit(main())
