#!/usr/bin/env python3
"""One question has one answer, whichever command is asked: every recipe of the demo book, with many questions, put to
weigh, jars, card, counter, chart, trace, mend, compare, tend, batch and the engine of the pages. What weigh says is what
the others are held to: readings, counts, totals, jars, verdicts, what was taken for granted, and the exit status.

    tests/page/one_answer_run.py --jarful PROGRAM --page-answers PROGRAM [--recipe NAME] [--all] [--talk]

Exit status 1 and a list of the differences if there are any."""

import argparse
import json
import pathlib
import re
import subprocess
import sys
import tempfile

BOOK = pathlib.Path(__file__).resolve().parents[2] / "recipes"
ROOM_C = 19  # of the book's kitchen
BARE = 'kitchen "bare"\nscale only reads 1 g up to 5 kg within 1 g\nroom 19 °C\n'


class Book:
    def __init__(self, options, place):
        self.jarful = pathlib.Path(options.jarful).resolve()
        self.answers = pathlib.Path(options.page_answers).resolve()
        self.place = place
        self.kitchens = {"book": BOOK / "kitchen.jarful", "bare": place / "bare.jarful"}
        self.kitchens["bare"].write_text(BARE, "utf-8")
        self.differences = []
        self.asked = 0
        self.compared = {}

    def run(self, *words, said=None):
        """Exit status, output and what was said aside."""
        done = subprocess.run([self.jarful, *map(str, words)], cwd=BOOK, capture_output=True, encoding="utf-8",
                              input=said or "", check=False)
        return done.returncode, done.stdout, done.stderr

    def read(self, *words):
        status, out, _ = self.run(*words)
        return status, json.loads(out) if status < 2 else None

    def same(self, question, command, what, got, wanted):
        self.compared[command] = self.compared.get(command, 0) + 1
        if isinstance(got, float) or isinstance(wanted, float):
            if got is not None and wanted is not None and abs(got - wanted) <= 1e-9 * max(1, abs(wanted)):
                return
        elif got == wanted:
            return
        self.differences.append(f"{question.text}\n    {command}: {what}: {got!r}, and weigh: {wanted!r}")


class Question:
    """Words for the command line, and the same for a page."""

    def __init__(self, name, kitchen, settings=(), without=(), poured=()):
        self.name, self.kitchen = name, kitchen
        self.settings, self.without, self.poured = list(settings), list(without), list(poured)
        self.words = [*self.settings, *(word for one in self.without for word in ("without", one))]
        self.options = ["--yes", *(word for one in self.poured for word in ("--poured", one))]
        self.text = " ".join([name, *self.words, *self.options, "--kitchen", kitchen])

    def set_only(self):
        """Says what there is, and asks nothing backwards."""
        return all("=" in one for one in self.settings)

    def json(self):
        return json.dumps({"do": "weigh", "words": self.settings, "without": self.without, "poured": self.poured,
                           "yes": True}, ensure_ascii=False)


def scaled(items, factor):
    return [f"{one['name']}={one['grams'] * factor:.0f}g" for one in items]


def questions(name, loaded, plain):
    """By weight, by a total, by the salt, by the room, by jars, in several goes, with what is weighed later, with things
    left out, with what really went in, and for more than there are jars for."""
    produce = loaded["totals"] or loaded["givens"]
    asked = [Question(name, "book"), Question(name, "bare")]
    for factor in (0.25, 0.55, 1.37, 2.9, 12):
        asked.append(Question(name, "book", scaled(produce, factor)))
    asked.append(Question(name, "bare", scaled(produce, 1.7)))
    first = produce[0]
    asked.append(Question(name, "book", [f"{first['name']}={first['grams'] * 0.61:.0f}g+{first['grams'] * 0.84:.0f}g"]))
    for one in loaded["givens"][:3]:
        if not loaded["totals"]:
            asked.append(Question(name, "book", [f"{one['name']}={one['grams'] * 1.9:.0f}g"]))
    salt = next((item for item in plain["items"] if item["role"] == "salt" and item["fate"] == "in_jar"), None)
    if salt and salt["word"] == "weigh":
        for factor in (0.7, 1.8):
            asked.append(Question(name, "book", [f"{salt['name']}={salt['exact_g'] * factor:.0f}g"]))
    for jars in ("tall", "squat", "tall,tall", "squat,squat,tall", "grey"):
        asked.append(Question(name, "book", [f"jar={jars}"]))
    asked.append(Question(name, "book", [*scaled(produce, 1.1), "jar=tall,tall"]))
    asked.append(Question(name, "book", [*scaled(produce, 3.3), "jar=squat"]))
    for room in ("0.9L", "3.7L", "30L"):
        asked.append(Question(name, "book", [f"fill={room}"]))
    later = [item for item in [*plain["givens"], *plain["items"]] if item["fate"] == "later"]
    if later:
        asked.append(Question(name, "book", [f"{one['name']}={(one['low_g'] + 2 * one['high_g']) / 3:.0f}g" for one in later]))
        asked.append(Question(name, "bare", [f"{one['name']}={(2 * one['low_g'] + one['high_g']) / 3:.0f}g" for one in later]))
    for optional in loaded["optional"]:
        asked.append(Question(name, "book", scaled(produce, 1.5), [optional]))
    weighed = [item for item in plain["items"] if item["word"] == "weigh" and item["exact_g"] > 1 and item["fate"] == "in_jar"]
    for one, factor in [(item, factor) for item in weighed[:3] for factor in (0.8, 1.02, 1.4)]:
        asked.append(Question(name, "book", [], [], [f"{one['name']}={one['exact_g'] * factor:.1f}g"]))
    return asked


def readings(weighed):
    """What each line of a weigh-out says is to be weighed; what is weighed later is not in it yet."""
    out = {item["name"]: item["reading_g"] for item in [*weighed["givens"], *weighed["items"]]}
    for stock in weighed["stocks"]:
        out.update({stock[part]["name"]: stock[part]["reading_g"] for part in ("water", "salt")})
    return out


def jars(book, question, weighed, status):
    got, out = book.read("jars", question.name, *question.words, *question.options, "--kitchen", book.kitchens[question.kitchen], "--json")
    if question.kitchen == "bare":
        return book.same(question, "jars", "status", got, 2)
    if got == 2:
        return book.same(question, "jars", "jars where it chooses none", "jars" in weighed, False)
    book.same(question, "jars", "status", got, status)
    book.same(question, "jars", "verdict", out["verdict"], weighed["verdict"])
    book.same(question, "jars", "jars", out["jars"], weighed.get("jars"))
    book.same(question, "jars", "left over", out["unplaced_g"], float(weighed.get("unplaced", {}).get("g", 0)))
    book.same(question, "jars", "taken for granted", out["assumptions"], weighed["assumptions"])
    steps = {item["name"]: item["step_g"] for item in [*weighed["givens"], *weighed["items"]] if item["poured"] or item["entered"]}
    shares = {}
    for item in [item for jar in out["jars"] for item in jar["items"]] + out["left_over"]:
        if "count" not in item and item["reading_g"] is not None:
            shares.setdefault(item["name"], []).append(item["reading_g"])
    for name, wanted in readings(weighed).items():
        if name in shares and wanted is not None:
            # What is in already is shared out as the scale shows it.
            off = steps.get(name, 0) / 2
            book.same(question, "jars", f"{name} in all, {sum(shares[name])} for {wanted}", abs(sum(shares[name]) - wanted) <= off + 1e-9, True)


def figure(text):
    found = re.match(r"\*\*([\d.,]+)", text.replace("\u202f", "").replace("\u00a0", " "))
    return float(found[1].replace(",", "")) if found else None


def card(book, question, weighed, status):
    got, out, _ = book.run("card", question.name, *question.words, *question.options, "--kitchen", book.kitchens[question.kitchen], "--md")
    book.same(question, "card", "status", got, status)
    rows = {}
    for line in out.splitlines():
        cells = [cell.strip() for cell in line.strip("|").split("|")]
        if line.startswith("| **") and figure(cells[0]) is not None:
            name = re.sub(r", go \d+ of \d+$", "", cells[1].replace("\\", ""))
            rows.setdefault(name, []).append(figure(cells[0]))
    items = [*weighed["givens"], *weighed["items"], *(stock[part] for stock in weighed["stocks"] for part in ("water", "salt"))]
    for item in items:
        name = item["name"].replace("_", " ")
        shown = item["reading_g"] is not None and not item["too_small"]
        book.same(question, "card", f"{name} is there", name in rows, shown)
        if shown and name in rows:
            off = item["step_g"] / 2 + 1e-9 if item["entered"] or item["poured"] else 1e-9  # shown as the scale shows it
            book.same(question, "card", f"{name}, {rows[name]} for {item['reading_g']}",
                      abs(sum(rows[name]) - item["reading_g"]) <= off * len(rows[name]), True)
    for count in weighed["counts"]:
        book.same(question, "card", count["name"], rows.get(count["name"].replace("_", " ")), [float(count["count"])])
    salt = weighed["salt"]
    if salt:
        headline = out.split("\n## Salt\n")[1].strip().splitlines()[0]
        book.same(question, "card", f"verdict in {headline!r}", salt["verdict"] in headline.lower(), True)
    titles = re.findall(r"^- \*\*(?:(\d+) )?(?:jars?|crocks?): (.*?), ", out.split("\n## Jar")[1].split("\n## ")[0], re.M | re.I)
    book.same(question, "card", "jars", sum(int(many or 1) for many, _ in titles), len(weighed.get("jars", [])))
    book.same(question, "card", "kinds of jars", {name for _, name in titles}, {jar["name"] for jar in weighed.get("jars", [])})
    granted = out.split("\n## Taken for granted\n")[1].split("\n## ")[0] if "\n## Taken for granted\n" in out else ""
    book.same(question, "card", "taken for granted", granted.count("\n- "), len(weighed["assumptions"]))
    html = book.run("card", question.name, *question.words, *question.options, "--kitchen", book.kitchens[question.kitchen], "--html")[1]
    return re.search(r"<main class=\"card\">(.*)</main>", html, re.S)[1]


def counter(book, question):
    """The sheet of the conversation is the weigh-out's page, to the letter."""
    words = [*question.words, *question.options, "--kitchen", book.kitchens[question.kitchen]]
    wanted = book.run("weigh", question.name, "--full", *words)
    start = [*question.words, "--kitchen", book.kitchens[question.kitchen], "--yes"]
    said = "".join(f"poured {one}\n" for one in question.poured) + "yes\nsheet\n"
    got = book.run("counter", question.name, *start, said=said)
    book.same(question, "counter", "status", got[0], wanted[0])
    book.same(question, "counter", "sheet", got[1].endswith(wanted[1]), True)


def trace(book, question, weighed):
    """Where each number comes from ends with that number."""
    words = [*question.words, *question.options[1:], "--kitchen", book.kitchens[question.kitchen], "--json"]
    for item in [*weighed["givens"], *weighed["items"]][:5]:
        if item["poured"]:
            continue
        status, out = book.read("trace", question.name, item["name"], *words)
        if book.same(question, "trace", "status", status < 2, True) or status == 2:
            continue
        value = out["nodes"][0]["value"]
        book.same(question, "trace", item["name"], float(value["value"]), float(item["exact_g"]))
    if weighed["salt"]:
        status, out = book.read("trace", question.name, "verdict", *words)
        value = out["nodes"][0]["value"]
        for end, other in (("low", "low"), ("high", "high")):
            book.same(question, "trace", f"salt, {end}", float(value[end]), float(weighed["salt"]["figure"][other]
                                                                                if "figure" in weighed["salt"] else weighed["salt"][other]))


def mend(book, question, weighed):
    words = [*question.words, *question.options, "--kitchen", book.kitchens[question.kitchen], "--json"]
    status, out = book.read("mend", question.name, *words)
    if out is None:
        return
    # What spoons make of it only weigh says.
    salt = {key: value for key, value in (weighed["salt"] or {}).items() if key != "by_the_spoon"} or None
    book.same(question, "mend", "salt", out["salt"], salt)
    book.same(question, "mend", "bounds", out["checks"], weighed["checks"])


def compare(book, question, weighed):
    status, out = book.read("compare", question.name, question.name, *question.words, "--kitchen", book.kitchens[question.kitchen], "--json")
    if out is None:
        return book.same(question, "compare", "status", status, 0)
    book.same(question, "compare", "nothing differs", out["same"], True)
    lines = {line["name"]: line for line in out["lines"]}
    for item in [*weighed["givens"], *weighed["items"]]:
        if item["name"] in lines and lines[item["name"]]["before"] and item["reading_g"] is not None:
            # Each side is set to what the other comes to, which need not be a step of the scale.
            got = lines[item["name"]]["before"]["reading_g"]
            book.same(question, "compare", f"{item['name']}, {got} for {item['reading_g']}",
                      abs(got - item["reading_g"]) <= item["step_g"] / 2 + 1e-9, True)


def batch(book, question, weighed):
    """The plan of a record."""
    folder = tempfile.mkdtemp(dir=book.place)
    status, _, aside = book.run("batch", "start", question.name, *question.words, "--yes", "--kitchen", book.kitchens[question.kitchen],
                                "--today", "2026-11-25", "--folder", folder)
    book.same(question, "batch start", f"status, {aside}", status, 0)
    record = next(pathlib.Path(folder).glob("*.jarful"), None)
    if record is None:
        return
    text = record.read_text("utf-8")
    planned = dict(re.findall(r"^planned (\S+) = ([\d.]+) ?g?$", text, re.M))
    for item in [*weighed["givens"], *weighed["items"]]:
        if item["reading_g"] is not None and not item["too_small"]:
            book.same(question, "batch start", item["name"], float(planned.get(item["name"], -1)), float(item["reading_g"]))
    jars_there = [jar["name"] for jar in weighed.get("jars", [])]
    book.same(question, "batch start", "vessels", re.findall(r"^vessel (\S+)$", text, re.M), jars_there)
    for count in weighed["counts"]:
        wanted = count["count"] * (max(1, len(jars_there)) if count["each_jar"] else 1)
        book.same(question, "batch start", count["name"], float(planned.get(count["name"], -1)), float(wanted))


def chart(book, name, produce):
    """Each row is the weigh-out of that amount."""
    first = produce[0]
    low, high = round(first["grams"] * 0.4), round(first["grams"] * 3)
    status, out = book.read("chart", name, f"{first['name']}={low}g..{high}g", "--json")
    if out is None:
        return book.differences.append(f"{name}: chart ended with {status}")
    for row in out["rows"][::4]:
        question = Question(name, "book", [f"{first['name']}={row['value']:g}g"])
        got, weighed = book.read("weigh", name, *question.settings, "--yes", "--json")
        # A row shows what to weigh, also where the kitchen's jars do not take it all.
        book.same(question, "chart", "holds", row["holds"], got == 0 or weighed["verdict"] == "inside" and "unplaced" in weighed)
        for item in row["items"]:
            wanted = readings(weighed).get(item["name"])
            if wanted is not None:
                book.same(question, "chart", item["name"], float(item["reading_g"]), float(wanted))
        for count in row["counts"]:
            wanted = next(one["count"] for one in weighed["counts"] if one["name"] == count["name"])
            book.same(question, "chart", count["name"], count["count"], wanted)


def page_answers(book, name, kitchen, asked):
    """What the engine of a page says to each question, and first what it was loaded with."""
    bases = [{"name": path.stem, "text": path.read_text("utf-8")} for path in BOOK.glob("*.jarful") if path.stem != "kitchen"]
    load = {"recipe": (BOOK / f"{name}.jarful").read_text("utf-8"), "kitchen": book.kitchens[kitchen].read_text("utf-8"), "house": None,
            "bases": bases}
    lines = ["load " + json.dumps(load, ensure_ascii=False), *("answer " + question.json() for question in asked)]
    done = subprocess.run([book.answers], input=("\n".join(lines) + "\n").encode(), capture_output=True, check=True)
    out, at = [], 0
    while at < len(done.stdout):
        end = done.stdout.index(b"\n", at)
        size = int(done.stdout[at:end])
        out.append(json.loads(done.stdout[end + 1:end + 1 + size]))
        at = end + 1 + size
    return out


def ask(book, name, part):
    loaded = page_answers(book, name, "book", [])[0]
    _, plain = book.read("weigh", name, "--json")
    asked = questions(name, loaded, plain)[part]
    on_page = {}
    for kitchen in ("book", "bare"):
        here = [question for question in asked if question.kitchen == kitchen]
        on_page.update(zip(map(id, here), page_answers(book, name, kitchen, here)[1:]))
    for at, question in enumerate(asked):
        words = [*question.words, *question.options, "--kitchen", book.kitchens[question.kitchen], "--json"]
        status, weighed = book.read("weigh", question.name, *words)
        page = on_page[id(question)]
        book.same(question, "page", "status", page["status"], status)
        if weighed is None:
            for command in ("jars", "card"):
                book.same(question, command, "status of what cannot be asked",
                          book.run(command, name, *words[:-1])[0], 2)
            continue
        book.asked += 1
        book.same(question, "page", "weigh-out", page["weigh"], weighed)
        jars(book, question, weighed, status)
        main = card(book, question, weighed, status)
        book.same(question, "page", "card", page["card_html"].strip() == main.strip(), True)
        # Each of these is asked of a part, so that it does not take all day.
        if at % 3 == 0:
            counter(book, question)
            trace(book, question, weighed)
        if at % 3 == 1 or question.poured:
            mend(book, question, weighed)
        if at % 3 != 1 and not question.poured:
            compare(book, question, weighed)
            batch(book, question, weighed)
    chart(book, name, loaded["totals"] or loaded["givens"])


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--jarful", required=True)
    parser.add_argument("--page-answers", required=True)
    parser.add_argument("--all", action="store_true", help="every question; otherwise every second, one half of them for one recipe and the other for the next")
    parser.add_argument("--recipe", help="this one alone")
    parser.add_argument("--talk", action="store_true")
    options = parser.parse_args()
    names = sorted(path.stem for path in BOOK.glob("*.jarful") if path.stem != "kitchen")
    with tempfile.TemporaryDirectory() as place:
        book = Book(options, pathlib.Path(place))
        for at, name in enumerate([options.recipe] if options.recipe else names):
            before = len(book.differences)
            ask(book, name, slice(None) if options.all else slice(at % 2, None, 2))
            if options.talk:
                print(f"{name}: {len(book.differences) - before} differences", file=sys.stderr)
    for difference in book.differences[:60]:
        print(difference)
    compared = ", ".join(f"{command} {count}" for command, count in sorted(book.compared.items()))
    print(f"{book.asked} questions; compared: {compared}; {len(book.differences)} differences")
    if not options.recipe and book.asked < 10 * len(names):
        print("too few of the questions had an answer")
        return 1
    return 1 if book.differences else 0


sys.exit(main())
