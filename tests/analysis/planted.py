#!/usr/bin/env python3
"""Plants faults in the engine and looks which of them no test sees.

Each fault is one of: an operator, a constant, a comparison, a branch, a bound. A fixed number of each room is chosen
by a seed, in the source and in the larder's data. One build holds them all; an environment variable turns one on.
Every unit, property, golden and published test is run once to see which faults it comes by. Then each fault is turned
on and the tests that come by it are run, until one fails; a time-out counts as a failure. What nobody sees is printed
with its file and line. Faults that change nothing are listed, with the reason, in planted_known.json, and not planted.

The status is 0 if enough of the faults are caught, 1 if not, 2 if it could not be found out.
"""

import argparse
import concurrent.futures
import datetime
import json
import os
import pathlib
import re
import sys
import time

import planted_build
import planted_tests
import planting

# How many of 200 each room gets. `larder/data` are the figures in engine/larder/data.
SHARES = {"units": 30, "sheet": 25, "kitchen": 20, "plan": 40, "larder": 20, "larder/data": 15, "tend": 20,
          "appraise": 30}
SPARE = 1.25  # so much more is chosen, for what does not compile


def arguments():
    parser = argparse.ArgumentParser(description=__doc__.split("\n\n", 1)[0])
    parser.add_argument("--root", default=pathlib.Path(__file__).resolve().parents[2], type=pathlib.Path)
    parser.add_argument("--build", type=pathlib.Path, help="the usual build, finished (build/release)")
    parser.add_argument("--out", type=pathlib.Path, help="where the planted build goes (build/planted)")
    parser.add_argument("--seed", type=int, action="append", help="may be given several times; 1 if not")
    parser.add_argument("--rooms", help="these alone, apart by commas")
    parser.add_argument("--tests", default="", help="those alone whose CTest name holds this regular expression")
    parser.add_argument("--share", type=float, default=1.0, help="this part of 200 faults a seed")
    parser.add_argument("--survivors", action="store_true", help="plant what survived the last run, and nothing else")
    parser.add_argument("--minutes", type=float, default=40, help="no fault is tried after that time")
    parser.add_argument("--patience", type=float, default=10,
                        help="seconds of the processor for a test, besides ten times what it usually takes")
    parser.add_argument("--least", type=float, default=95, help="percent of the faults that have to be caught")
    parser.add_argument("--workers", "--jobs", type=int, default=os.cpu_count() or 1,
                        help="so many compilers or tests at a time; as many as there are processors if not said")
    given = parser.parse_args()
    given.root = given.root.resolve()
    given.build = (given.build or given.root / "build/release").resolve()
    given.out = (given.out or given.root / "build/planted").resolve()
    given.seed = given.seed or [1]
    return given


def sites_by_room(root, rooms, build):
    """What could be planted, in the files that the usual build compiles: some are for another platform."""
    commands = json.loads((build / "compile_commands.json").read_text(encoding="utf-8"))
    built = {os.path.realpath(entry["file"]) for entry in commands}
    out = {}
    for room in rooms:
        sites = []
        if room == "larder/data":
            for path in sorted((root / "engine/larder/data").glob("*.json")):
                sites += planting.find_in_data(str(path.relative_to(root)), path.read_text(encoding="utf-8"))
        else:
            for path in sorted((root / "engine" / room).glob("*.cpp")):
                if os.path.realpath(path) not in built:
                    continue
                sites += planting.Finder(str(path.relative_to(root)), path.read_text(encoding="utf-8")).find()
        out[room] = sites
    return out


def known_of(path):
    """The faults that change nothing, by what they are; the list's entries are {file, before, after, why}."""
    entries = json.loads(path.read_text(encoding="utf-8")) if path.exists() else []
    return {(e["file"], e["before"], e["after"]): e["why"] for e in entries}


def choose(given, known):
    """The sites of this run by seed, and the entries of the list that fit nothing in the source any more."""
    shares = {room: n for room, n in SHARES.items()
              if not given.rooms or room in given.rooms.split(",")}
    found = sites_by_room(given.root, shares, given.build)
    keys = {site.key for sites in found.values() for site in sites}
    read = {site.file for sites in found.values() for site in sites}
    stale = [key for key in known if key not in keys and (key[0] in read or not given.rooms)]
    if given.survivors:
        last = {tuple(key) for key in json.loads((given.out / "survivors.json").read_text(encoding="utf-8"))}
        return {"survivors": [s for sites in found.values() for s in sites if s.key in last]}, stale
    spared = {room: round(n * given.share * SPARE) for room, n in shares.items()}
    return {seed: planting.chosen(found, spared, seed) for seed in given.seed}, stale


def trimmed(given, chosen, number_of, placed, known):
    """What is in the build, cut to each room's share, as numbers by seed; and how many of each seed and room change
    nothing, as the list explains. These take no part of the share: a new explanation leaves the sample as it was."""
    out, explained = {}, {}
    for seed, some in chosen.items():
        left = {room: len(some) if seed == "survivors" else round(n * given.share) for room, n in SHARES.items()}
        out[seed], explained[seed] = [], {}
        for site in some:
            room = room_of(site)
            if left[room] <= 0:
                continue
            if site.key in known:
                explained[seed][room] = explained[seed].get(room, 0) + 1
            elif number_of[site] in placed:
                left[room] -= 1
                out[seed].append(number_of[site])
    return out, explained


def room_of(site):
    return "larder/data" if site.file.endswith(".json") else site.file.split("/")[1]


def say(text):
    print(text, flush=True)


def try_all(runner, numbers, until, workers):
    """Verdicts by number; those for which no time is left have none."""
    verdicts = {}

    def one(number):
        return runner.judge(number) if time.monotonic() < until else None

    with concurrent.futures.ThreadPoolExecutor(workers) as pool:
        for verdict in pool.map(one, numbers):
            if verdict is None:
                continue
            verdicts[verdict.number] = verdict
            if len(verdicts) % 50 == 0:
                say(f"  {len(verdicts)} of {len(numbers)} tried, "
                    f"{sum(not v.caught for v in verdicts.values())} not caught")
    return verdicts


def by_room(numbers, sites, verdicts, explained):
    """A line for each room: how many were planted, caught and known to change nothing."""
    rooms = {room: [n for n in numbers if n in verdicts and room_of(sites[n]) == room] for room in SHARES}
    return [(room, len(tried), sum(verdicts[n].caught for n in tried), explained.get(room, 0))
            for room, tried in rooms.items() if tried or explained.get(room)]


def keep_results(path, seed, lines):
    """Adds the lines of a run to a table, which is begun with a heading."""
    new = not path.exists()
    with path.open("a", encoding="utf-8") as file:
        if new:
            file.write("date\tseed\troom\tplanted\tcaught\tknown to change nothing\n")
        for line in lines:
            file.write("\t".join(map(str, (datetime.date.today(), seed, *line))) + "\n")


def report(by_seed, sites, verdicts, given, explained):
    """Prints the survivors and how many were caught, seed by seed; whether that is enough."""
    least, well = given.least, True
    told = set()
    for seed, numbers in by_seed.items():
        tried = [n for n in numbers if n in verdicts]
        survivors = [n for n in tried if not verdicts[n].caught]
        for n in survivors:
            if n in told:
                continue
            told.add(n)
            site = sites[n]
            say(f"\n{site.file}:{site.line}: {site.kind}, {verdicts[n].by}\n  - {site.before}\n  + {site.after}")
        caught = len(tried) - len(survivors)
        share = 100 * caught / len(tried) if tried else 0
        lines = by_room(numbers, sites, verdicts, explained[seed])
        say(f"\n{'room':<12}  planted  caught  known to change nothing")
        for room, planted, seen, nothing in lines:
            say(f"{room:<12} {planted:>8} {seen:>7} {nothing:>8}")
        keep_results(given.out / "results.tsv", seed, lines)
        say(f"\nseed {seed}: {caught} of {len(tried)} caught, {share:.1f} %"
            + (f"; for {len(numbers) - len(tried)} there was no time" if len(tried) < len(numbers) else ""))
        well = well and share >= least and len(tried) == len(numbers)
    return well


def made(given, sites, begin):
    """Builds it and runs every test once: the numbers that are in the build, and what runs the tests."""
    build = planted_build.PlantedBuild(given.root, given.build, given.out, given.workers)
    placed = set(build.plant(list(enumerate(sites))))
    tests = [t for t in planted_tests.usual_tests(given.build) if re.search(given.tests, t.name)]
    programs = planted_tests.programs_of(tests, given.build)
    build.link_all(programs)
    say(f"{len(placed)} faults in the build, {len(sites) - len(placed)} of those chosen do not compile "
        f"({time.monotonic() - begin:.0f} s)")
    runner = planted_tests.Runner(tests, lambda word: build.moved(word, programs), given.workers, given.seed[0],
                                  given.patience)
    failed = runner.measure(len(sites))
    for test in failed:
        say(f"fails with no fault turned on, so it is left out: {test.name}")
    say(f"{len(runner.tests)} tests ran once ({time.monotonic() - begin:.0f} s)")
    if len(failed) > len(runner.tests) / 20:
        raise planted_build.BuildFailed("too many tests fail with no fault turned on.")
    return placed, runner


def main():
    given = arguments()
    begin = time.monotonic()
    known = known_of(given.root / "tests/analysis/planted_known.json")
    chosen, stale = choose(given, known)
    say(f"{len(known)} faults that change nothing are listed in planted_known.json, and left out")
    for file, before, after in stale:
        say(f"planted_known.json: {file} no longer holds\n  {before}\n  which could be\n  {after}")
    sites = list(dict.fromkeys(site for some in chosen.values() for site in some if site.key not in known))
    number_of = {site: n for n, site in enumerate(sites)}
    if not sites:
        say("There is nothing to plant.")
        return 0 if given.survivors else 2
    try:
        placed, runner = made(given, sites, begin)
    except planted_build.BuildFailed as failure:
        say(f"planted: {failure}")
        return 2
    by_seed, explained = trimmed(given, chosen, number_of, placed, known)
    numbers = list(dict.fromkeys(n for some in by_seed.values() for n in some))
    verdicts = try_all(runner, numbers, begin + 60 * given.minutes, given.workers)
    well = report(by_seed, sites, verdicts, given, explained)
    (given.out / "survivors.json").write_text(
        json.dumps([sites[n].key for n in numbers if n in verdicts and not verdicts[n].caught], indent=1,
                   ensure_ascii=False) + "\n", encoding="utf-8")
    say(f"{(time.monotonic() - begin) / 60:.1f} minutes")
    return 0 if well else 1


if __name__ == "__main__":
    sys.exit(main())
