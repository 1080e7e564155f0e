#!/usr/bin/env python3
"""What a cook sees at the scale fits on a terminal of 24 lines: every recipe of the demo book is weighed, with and
without words, and the screen is measured. Up to six rows to weigh, the whole of it fits; with more of them, or with a
brine to mix first, the cautions stand above, and the last 24 lines hold what to weigh, the verdict is in the first lines, and the last ones
say what to do next. No line is wider than 80 columns."""

import argparse
import os
import pathlib
import re
import subprocess
import sys
import unicodedata

LINES = 24
COLUMNS = 80


def columns(line):
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in line)


def screen(program, book, words):
    done = subprocess.run([program, *words], cwd=book, capture_output=True, encoding="utf-8", check=False,
                          env=dict(os.environ, NO_COLOR="1"), stdin=subprocess.DEVNULL)
    return done.stdout.rstrip("\n").split("\n"), done.returncode


def rows_below(lines, heading):
    """Rows of a table; what is wrapped counts as a row, for it takes a line."""
    rows = 0
    while re.match(r" {2,}[0-9]", lines[heading + 1 + rows]) or lines[heading + 1 + rows].startswith(" " * 14):
        rows += 1
    return rows


def first_table(lines):
    return next(i for i, line in enumerate(lines) if line.startswith(("MIX FIRST", "WEIGH, in this order")))


def faults(words, lines):
    name = " ".join(words)
    for line in lines:
        if columns(line) > COLUMNS:
            yield f"{name}: {columns(line)} columns: {line}"
    heads = [i for i, line in enumerate(lines) if line.startswith("WEIGH, in this order")]
    if len(heads) != 1:
        yield f"{name}: {len(heads)} headings over what to weigh"
        return
    rows = rows_below(lines, heads[0]) + sum(rows_below(lines, i) for i, line in enumerate(lines)
                                             if line.startswith("MIX FIRST"))
    if rows == 0:
        yield f"{name}: nothing to weigh"
    if not any("SALT" in line for line in lines[:4]):
        yield f"{name}: no verdict in the first four lines"
    if not any("SAFETY" in line for line in lines):
        yield f"{name}: no cautions"
    if not any(line.startswith("Next: ") for line in lines[-4:]):
        yield f"{name}: the last lines do not say what is next"
    few = rows <= 6 and not any(line.startswith("MIX FIRST") for line in lines)
    if few and len(lines) > LINES:
        yield f"{name}: {len(lines)} lines for {rows} rows to weigh"
    if not few and first_table(lines) < len(lines) - LINES:
        yield f"{name}: what to weigh begins {len(lines) - first_table(lines)} lines from the end"


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--jarful", required=True, help="the program")
    options = parser.parse_args()
    program = str(pathlib.Path(options.jarful).resolve())
    book = pathlib.Path(__file__).resolve().parents[2] / "recipes"
    found = []
    screens = 0
    for recipe in sorted(book.glob("*.jarful")):
        if recipe.stem == "kitchen":
            continue
        for words in ([], ["--units", "us"]):
            lines, status = screen(program, book, ["weigh", recipe.stem, *words])
            if status == 2:
                found.append(f"weigh {recipe.stem}: not done")
                continue
            screens += 1
            found += faults(["weigh", recipe.stem, *words], lines)
    print("\n".join(found) if found else f"{screens} screens, each in {LINES} lines of {COLUMNS} columns")
    return 1 if found or screens == 0 else 0


sys.exit(main())
