#!/usr/bin/env python3
"""What jarful.hpp says is what the command line says with --json and --full, byte for byte, with the same status:
every recipe of the demo book weighed and checked, some lists appraised, and some conversions."""

import argparse
import json
import pathlib
import subprocess
import sys
import tempfile

BOOK = pathlib.Path(__file__).resolve().parents[2] / "recipes"
LISTS = BOOK.parent / "tests/corpus/apart/lists.jsonl"


def run(program, words):
    done = subprocess.run([program, *words], cwd=BOOK, capture_output=True, check=False)
    return done.returncode, done.stdout


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--jarful", required=True)
    parser.add_argument("--library", required=True)
    options = parser.parse_args()
    options.jarful, options.library = (pathlib.Path(one).resolve() for one in (options.jarful, options.library))
    with tempfile.TemporaryDirectory() as place:
        return compare(options, place)


def compare(options, place):
    asked = []
    for path in sorted(BOOK.glob("*.jarful")):
        name = path.stem
        asked.append((["check", name], ["check", ".", name]))
        if name != "kitchen":
            for words in ([], ["cabbage=1.84kg"], ["salt=24g"], ["jar=tall"], ["cabbage=much"]):
                asked.append((["weigh", name, *words], ["weigh", ".", name, *words]))
    for line in LISTS.read_text("utf-8").split("\n")[:40]:
        one = json.loads(line)
        path = pathlib.Path(place) / (one["id"] + ".txt")
        path.write_text(one["text"], "utf-8")
        for words in ([], ["cabbage=1.84kg"]):
            asked.append((["appraise", str(path), *words],) * 2)
    for words in ("2 tbsp canning salt to g", "68F to C", "2 tbsp gravel", "1 lb to g"):
        asked.append((["convert", *words.split()], ["convert", ".", words]))
    wrong, done = 0, set()
    for command, library in asked[::5]:
        flags = [] if command[0] == "convert" else ["--full"]
        wanted, got = run(options.jarful, [*command, *flags]), run(options.library, ["text", *library])
        if got != wanted:
            wrong += 1
            print(f"{' '.join(command)}: another text, status {got[0]}, wanted {wanted[0]}")
    for command, library in asked:
        wanted, got = run(options.jarful, [*command, "--json"]), run(options.library, library)
        done.add((command[0], wanted[0]))
        if got != wanted:
            wrong += 1
            print(f"{' '.join(command)}: status {got[0]}, wanted {wanted[0]}; {len(got[1])} and {len(wanted[1])} bytes")
    for command, status in (("weigh", 0), ("weigh", 2), ("check", 0), ("appraise", 0), ("appraise", 1), ("appraise", 2), ("convert", 0), ("convert", 2)):
        if (command, status) not in done:
            wrong += 1
            print(f"nothing of {command} had the status {status}")
    print(f"{len(asked)} questions, {wrong} with another answer")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
