#!/usr/bin/env python3
"""What a cook sees fits on a terminal of 24 lines and 80 columns, and every command that a screen names can be run.

Every recipe of the demo book is weighed, tended, traced and compared; kinds, brines, conversions, the book and records of
batches are asked for. Of `weigh`: up to six rows to weigh, the whole of it fits; with more of them, or with a brine to mix
first, the cautions stand above, and the last 24 lines hold what to weigh, the verdict is in the first lines, and the last
ones say what to do next. `jars`, `mend` and `chart` are not measured: their tables are as long as what they are asked
for."""

import argparse
import os
import pathlib
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
import unicodedata

LINES = 24
COLUMNS = 80
# Tables that are asked for, a line for each thing: as long as there are things.
TABLES = {
    "ranges": "a line for each kind and method",
    "salts": "a line for each salt",
    "batch adopt small-kraut": "a block for each change that is proposed",
}
# Of a comparison, the rows that fit on a screen with all else.
MOST_ROWS = 8
# Words that stand for something.
PLACEHOLDER = re.compile(r"^[A-Z][A-Z_]+$|…")


def columns(line):
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in line)


class Kitchen:
    """A copy of a book, so that whatever a screen suggests can be done."""

    def __init__(self, program, book, folder):
        self.program = program
        self.book = pathlib.Path(folder) / book.name
        if not self.book.exists():
            shutil.copytree(book, self.book)

    def screen(self, words):
        done = subprocess.run([self.program, *words], cwd=self.book, capture_output=True, encoding="utf-8",
                              check=False, env=dict(os.environ, NO_COLOR="1"), stdin=subprocess.DEVNULL)
        return done.stdout.rstrip("\n").split("\n"), done.returncode


# ---- weigh ----


def rows_below(lines, heading):
    """Rows of a table; what is wrapped counts as a row, for it takes a line."""
    rows = 0
    while re.match(r" {2,}[0-9]", lines[heading + 1 + rows]) or lines[heading + 1 + rows].startswith(" " * 14):
        rows += 1
    return rows


def first_table(lines):
    return next(i for i, line in enumerate(lines) if line.startswith(("MIX FIRST", "WEIGH, in this order")))


def faults_of_weigh(words, lines):
    name = " ".join(words)
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


# ---- The others ----


def questions(program, book):
    """Of the demo book: the words of each question."""
    recipes = sorted(path.stem for path in book.glob("*.jarful") if path.stem != "kitchen")
    for recipe in recipes:
        for units in ([], ["--units", "us"]):
            yield ["weigh", recipe, *units]
        for more in ([], ["--room", "12C"], ["--room", "30C"], ["--units", "us"]):
            yield ["tend", recipe, "--start", "2026-11-25", *more]
        yield ["trace", recipe, "verdict"]
        yield ["trace", recipe, "everything"]
        lines = (book / f"{recipe}.jarful").read_text(encoding="utf-8")
        if re.search(r"^weigh +salt ", lines, re.MULTILINE):
            yield ["trace", recipe, "salt"]
    for one, other in zip(recipes, recipes[1:]):
        yield ["compare", one, other]
    listed = subprocess.run([program, "ranges"], cwd=book, capture_output=True, encoding="utf-8", check=True).stdout
    kinds = sorted(set(re.findall(r"^([a-z][a-z-]+) .*%", listed, re.MULTILINE)))
    for kind in kinds:
        yield ["ranges", kind]
    for words in ("1.5 L at 3.5 %", "2 L of water at 5 %", "--salt 40g at 3.5 %", "--salt 40g in 1 L of water",
                  "1 L from 5 % to 2 %", "1 L from 2 % to 5 %", "40 salometer", "1.036 sg --at 15C",
                  "50 g/L --of water", "1 L at 40 %"):
        yield ["brine", *words.split()]
    for words in ("2 tbsp coarse flake kosher salt", "500 g caraway seed to tbsp",
                  "4 tbsp canning salt per 1 quart water to %", "10 g/lb to %", "68F to C"):
        yield ["convert", *words.split()]
    for words in ("book", "ranges", "salts", "check", "today", "batch list"):
        yield words.split()
    yield ["new", "Fresh kraut", "--kind", "kraut"]


# Of a kitchen with batches that go wrong in every way: tests/golden/cli/cellar.
BATCHES = tuple(words + " --today 2026-11-25" for words in (
    "today", "batch list", "batch show 2026-10-01", "batch show 2026-11-01", "batch show 2026-11-20",
    "batch compare 2026-10-01 2026-11-20")) + ("batch adopt small-kraut",)


def differing(lines):
    """Rows of amounts that differ: of two recipes of other kinds, all that both have."""
    return sum(bool(re.match(r"  [a-z_]+ .*( new| gone|[+−][0-9.]+.*)$", line)) for line in lines)


def named_commands(lines):
    """What a screen says to type: in backticks, behind "Next:", "More:" and "·"."""
    text = " ".join(line.strip() for line in lines)
    found = re.findall(r"`(jarful [^`]*)`", text)
    found += re.findall(r"(?:Next: |· )(jarful [^·`(]*?)(?= (?:says|shows|writes|lists)\b| ·|$)", text)
    return [words for words in found if not any(PLACEHOLDER.search(word) for word in words.split())]


def faults_of_names(kitchen, words, lines):
    name = " ".join(words)
    for command in named_commands(lines):
        if kitchen.screen(shlex.split(command)[1:])[1] == 2:
            yield f"{name}: what it names cannot be run: {command}"
    more = next((i for i, line in enumerate(lines) if line.startswith("More: ")), None)
    if more is None:
        return
    text = " ".join(line.strip() for line in lines[more:])
    if "--full" in text:
        full, status = kitchen.screen([*words, "--full"])
        if status == 2 or len(full) <= len(lines):
            yield f"{name}: --full has no more than the screen"
    for option in re.findall(r"· (-o [a-z.]+)", text):
        if kitchen.screen([*words, *option.split(), "--force"])[1] == 2:
            yield f"{name}: what it names cannot be run: {option}"


def faults(kitchen, words, lines):
    name = " ".join(words)
    for line in lines:
        if columns(line) > COLUMNS:
            yield f"{name}: {columns(line)} columns: {line}"
    if words[0] == "weigh":
        yield from faults_of_weigh(words, lines)
    elif words[0] == "compare" and len(lines) - differing(lines) > LINES - MOST_ROWS:
        yield f"{name}: {len(lines)} lines beside the {differing(lines)} that differ"
    elif words[0] != "compare" and name not in TABLES and len(lines) > LINES:
        yield f"{name}: {len(lines)} lines"
    if words[0] == "tend" and not any(line.startswith("Next: ") for line in lines[-4:]):
        yield f"{name}: the last lines do not say what is next"
    yield from faults_of_names(kitchen, words, lines)


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--jarful", required=True, help="the program")
    options = parser.parse_args()
    program = str(pathlib.Path(options.jarful).resolve())
    here = pathlib.Path(__file__).resolve().parent
    book = here.parents[1] / "recipes"
    found = []
    screens = 0
    with tempfile.TemporaryDirectory() as folder:
        demo = Kitchen(program, book, folder)
        cellar = Kitchen(program, here / "cli/cellar", folder)
        asked = [(demo, words) for words in questions(program, book)]
        asked += [(cellar, words.split()) for words in BATCHES]
        for kitchen, words in asked:
            lines, status = kitchen.screen(words)
            if status == 2:
                found.append(f"{' '.join(words)}: not done")
                continue
            screens += 1
            found += faults(kitchen, words, lines)
    print("\n".join(found) if found else f"{screens} screens, each in {LINES} lines of {COLUMNS} columns")
    return 1 if found or screens < 100 else 0


sys.exit(main())
