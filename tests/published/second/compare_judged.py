#!/usr/bin/env python3
"""What the engine says of random recipes, held to sampled truths: no `inside` that a world of true weights contradicts.

    compare_judged.py --jarful PATH [--seed N] [--count N]
    compare_judged.py --print N        the recipe and the kitchen of one seed

For each recipe, with what is printed: every sampled salt lies in the interval that is printed for it, with everything
and in each variant; the interval is at most 1.05 times as wide as the sampled extremes; each verdict is what the samples
say; and the printed numbers given back as poured come to the same verdicts.
"""
import argparse
import json
import os
import subprocess
import sys
import tempfile

from generate_judged import Case
from judged import Recipe, Scales, Worlds

SLACK = 2e-9     # relative: figures are printed with twelve digits, and a bound met to nine digits is met
WIDEST = 1.05    # an interval in the width of the sampled extremes
SHOWN = 10
ORDER = ("inside", "undecided", "above", "below")


def weigh(jarful, folder, *words):
    done = subprocess.run([jarful, "weigh", "--json", os.path.join(folder, "case.jarful"), *words], capture_output=True,
                          timeout=60, cwd=folder, check=False)
    if done.returncode not in (0, 1):
        raise RuntimeError(f"exit status {done.returncode}: {done.stderr.decode(errors='replace').strip()}")
    return json.loads(done.stdout)


def verdict_of(margins):
    """What a bound comes to that was missed by so much, in each world, below and above."""
    below, above = zip(*margins)
    if all(x > 0 for x in below):
        return "below"
    if all(x > 0 for x in above):
        return "above"
    return "undecided" if any(x > 0 for x in below + above) else "inside"


class Check:
    def __init__(self, case, sheet, scales, seed):
        self.sheet, self.faults, self.seed = sheet, [], seed
        self.recipe = Recipe(case.text)
        self.worlds = Worlds(self.recipe, sheet, scales)

    def run(self):
        self.points = list(self.worlds.points(self.seed))
        salt = self.sheet["salt"]
        variants = {x["text"]: x for x in salt["variants"]}
        seen = {"": self.sampled(frozenset())}
        self.interval("salt", salt, frozenset(), seen[""], 0)
        for text, absent in self.recipe.variants():
            seen[text] = self.sampled(absent)
            if text not in variants:
                self.faults.append(f"variant {text!r} is missing")
                continue
            self.interval(f"salt {text}", variants[text], absent, seen[text], 0)
        self.salt_verdict(salt, seen)
        for i, check in enumerate(self.sheet["checks"]):
            self.hold(i, check, seen)
        return self.faults

    def sampled(self, absent):
        return [self.worlds.world(point, absent) for point in self.points]

    def interval(self, what, figure, absent, samples, index, factor=1.0):
        low, high = figure["low"], figure["high"]
        values = [x[index] / factor for x in samples]
        least, most = min(values), max(values)
        slack = SLACK * max(1.0, abs(most))
        if least < low - slack or most > high + slack:
            self.faults.append(f"{what}: printed {low} to {high}, sampled {least} to {most}")
        if not self.recipe.steady:
            return
        if high - low > WIDEST * (most - least) + 10 * slack:
            ends = self.worlds.climbed(absent, lambda w: w[index] / factor, self.seed)
            least, most = min(least, ends[0]), max(most, ends[1])
        if high - low > WIDEST * (most - least) + 10 * slack:
            self.faults.append(f"{what}: {low} to {high} is too wide for {least} to {most}")

    def salt_verdict(self, salt, seen):
        low, high = (salt["range"] or {}).get("low"), (salt["range"] or {}).get("high")
        least = -1.0 if low is None else low * (1 - SLACK)
        most = 1e9 if high is None else high * (1 + SLACK)
        found = [verdict_of([(least - w[0], w[0] - most) for w in samples]) for samples in seen.values()]
        self.same("salt", salt["verdict"], max(found, key=ORDER.index))

    def hold(self, i, check, seen):
        index, hold = 1 + 3 * i, self.recipe.holds[i]
        factor = 0.01 if check["unit"] == "%" else 1.0
        self.interval(hold.text, check, frozenset(), seen[""], index, factor)
        found = []
        for samples in seen.values():
            margins = []
            for w in samples:
                slack = SLACK * max(factor, abs(w[index]))
                margins.append((w[index + 1] - w[index] - slack if hold.low else -1.0,
                                w[index] - w[index + 2] - slack if hold.high else -1.0))
            found.append(verdict_of(margins))
        self.same(hold.text, check["verdict"], max(found, key=ORDER.index))

    def same(self, what, said, sampled):
        """An `inside`, `below` or `above` is never contradicted; where all rises or falls steadily the corners say
        the same as the engine."""
        if said == sampled or said == "undecided" and not self.recipe.steady:
            return
        if said == "undecided" and len(self.points) > 2 ** len(self.worlds.box):
            self.faults.append(f"{what}: undecided, and every corner says {sampled}")
        elif said != "undecided":
            self.faults.append(f"{what}: {said}, and the samples say {sampled}")


def poured(sheet):
    """The printed numbers as what was poured; None where a scale cannot show one of them."""
    words = []
    for item in sheet["givens"] + sheet["items"]:
        if item["word"] == "measure":
            continue
        if not item["reading_g"]:
            return None
        words += ["--poured", item["name"] + "=" + "+".join(f"{p['reading_g']}g" for p in item["portions"])]
    return words


def differences(jarful, case, seed, folder):
    for name, text in (("case.jarful", case.text), ("kitchen.jarful", case.kitchen)):
        with open(os.path.join(folder, name), "w", encoding="utf-8") as file:
            file.write(text)
    try:
        sheet = weigh(jarful, folder)
        faults = Check(case, sheet, Scales(case.kitchen), seed).run()
        words = poured(sheet)
        again = weigh(jarful, folder, *words) if words else sheet
    except (RuntimeError, ValueError, KeyError) as problem:
        return [repr(problem)], "none"
    for what, one, other in [("salt", sheet["salt"], again["salt"]), *zip(
            [c["text"] for c in sheet["checks"]], sheet["checks"], again["checks"])]:
        if one["verdict"] != other["verdict"]:
            faults.append(f"{what}: {one['verdict']}, and {other['verdict']} with the printed numbers as poured")
    return faults, sheet["verdict"]


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--jarful", default="jarful", help="the program")
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--count", type=int, default=250)
    options.add_argument("--print", type=int, metavar="N")
    chosen = options.parse_args()
    if chosen.print is not None:
        case = Case(chosen.print)
        sys.stdout.write(case.text + "\n" + case.kitchen)
        return 0
    jarful = os.path.abspath(chosen.jarful) if os.sep in chosen.jarful else chosen.jarful
    failed, said = 0, dict.fromkeys((*ORDER, "none"), 0)
    with tempfile.TemporaryDirectory() as folder:
        for seed in range(chosen.seed, chosen.seed + chosen.count):
            case = Case(seed)
            faults, verdict = differences(jarful, case, seed, folder)
            said[verdict] += 1
            if not faults:
                continue
            failed += 1
            if failed <= SHOWN:
                print(f"--- seed {seed}\n{case.text}{case.kitchen}---")
            for fault in faults:
                print("   ", seed, fault)
    print(f"seed {chosen.seed}: {chosen.count - failed} passed, {failed} failed; verdicts: "
          + ", ".join(f"{n} {v}" for v, n in said.items() if n))
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
