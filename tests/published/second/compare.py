#!/usr/bin/env python3
"""Random recipes, weighed by the engine and by a second evaluator written from the language reference alone.

    compare.py --jarful PATH [--seed N] [--count N]   every exact value of N random recipes
    compare.py --jarful PATH --refused                what the reference refuses must be refused
    compare.py --print N                              the recipe of one seed
"""
import argparse
import json
import math
import os
import subprocess
import sys
import tempfile

import generate
import refused
import self_test
from evaluate import evaluate
from reading import Refused, Unsteady

TOLERANCE = 1e-12  # relative
DIGITS = 12        # the JSON shows so many significant digits: half a unit of the last comes on top
SHOWN = 10  # differences printed in full


def run(jarful, arguments, text, folder):
    path = os.path.join(folder, "case.jarful")
    with open(path, "w", encoding="utf-8", newline="") as file:
        file.write(text)
    return subprocess.run([jarful, *arguments[:1], path, *arguments[1:]], capture_output=True, timeout=60, cwd=folder,
                          check=False)


def names_in(text):
    """Every quantity that the recipe shows, with its exact value."""
    return {n: (c.kind, v.v) for n, (c, v) in evaluate(text).items() if c.kind in ("given", "weigh", "share", "count")}


def agree(got, value):
    if not isinstance(got, (int, float)) or not math.isfinite(got):
        return False
    shown = 0.5 * 10.0 ** (math.floor(math.log10(abs(value))) - DIGITS + 1)
    return abs(got - value) <= TOLERANCE * abs(value) + shown


def differences(jarful, text, folder):
    """(name or None, what is wrong) of one recipe."""
    expected = names_in(text)
    done = run(jarful, ["weigh", "--json"], text, folder)
    if done.returncode not in (0, 1):
        return [(None, f"exit status {done.returncode}: {done.stderr.decode(errors='replace').strip()}")]
    try:
        sheet = json.loads(done.stdout)
        found = {x["name"]: x["exact_g"] for x in sheet["givens"] + sheet["items"]}
        found.update((x["name"], x["exact"]) for x in sheet["counts"])
    except (ValueError, KeyError, TypeError) as problem:
        return [(None, f"the JSON is not as described: {problem!r}")]
    out = [(n, f"{n} is missing") for n in expected if n not in found]
    for name, (kind, value) in expected.items():
        got = found.get(name, value)
        if not agree(got, value):
            out.append((name, f"{kind} {name}: jarful {got!r}, second evaluation {value!r}"))
    return out


def shrunk(jarful, text, folder):
    """The recipe with every line taken away that the difference does not need."""
    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").split("\n")
    for i in range(len(lines) - 1, -1, -1):
        fewer = lines[:i] + lines[i + 1:]
        try:
            headed = any(x.lstrip().startswith("recipe") for x in fewer)
            if headed and differences(jarful, "\n".join(fewer), folder):
                lines = fewer
        except (Refused, Unsteady):
            pass
    return "\n".join(lines)


def compare(jarful, first, count, folder):
    print(f"seed {first}, {count} recipes")
    passed = failed = values = 0
    for seed in range(first, first + count):
        text = generate.recipe(seed)
        values += len(names_in(text))
        faults = differences(jarful, text, folder)
        if not faults:
            passed += 1
            continue
        failed += 1
        if failed <= SHOWN:
            print(f"--- seed {seed}\n{text}\n--- shrunk\n{shrunk(jarful, text, folder)}\n---")
            for _, fault in faults:
                print("   ", fault)
        else:
            print(f"seed {seed}: {faults[0][1]}")
    print(f"{values} values compared, relative tolerance {TOLERANCE} and half a unit of the {DIGITS}th digit shown")
    return passed, failed


def compare_refused(jarful, folder):
    passed = failed = 0
    for why, bad, good in refused.cases():
        faults = []
        done = run(jarful, ["check"], bad, folder)
        if done.returncode != 2:
            faults.append(f"must be refused, exit status {done.returncode}:\n{bad}")
        if good:
            done = run(jarful, ["check"], good, folder)
            if done.returncode not in (0, 1):
                said = (done.stdout + done.stderr).decode(errors="replace").strip()
                faults.append(f"must not be refused, exit status {done.returncode}:\n{good}{said}")
        passed, failed = passed + (not faults), failed + bool(faults)
        for fault in faults:
            print(f"--- {why}: {fault}")
    return passed, failed


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--jarful", default="jarful", help="the program")
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--count", type=int, default=1000)
    options.add_argument("--refused", action="store_true")
    options.add_argument("--print", type=int, metavar="N")
    chosen = options.parse_args()
    if chosen.print is not None:
        sys.stdout.write(generate.recipe(chosen.print))
        return 0
    if self_test.run():
        return 1
    jarful = os.path.abspath(chosen.jarful) if os.sep in chosen.jarful else chosen.jarful
    with tempfile.TemporaryDirectory() as folder:
        if chosen.refused:
            passed, failed = compare_refused(jarful, folder)
        else:
            passed, failed = compare(jarful, chosen.seed, chosen.count, folder)
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
