#!/usr/bin/env python3
"""Plants faults in a tiny tree of its own, of which some must be seen by its one test and others must not.

    planted_self_test.py --compiler C++ --work FOLDER
"""

import argparse
import json
import pathlib
import shutil
import subprocess
import sys

import planted_source
import planted_tests
import planting

HERE = pathlib.Path(__file__).resolve().parent

TREE = {
    "CMakeLists.txt": """cmake_minimum_required(VERSION 3.25)
project(tiny LANGUAGES CXX)
set(CMAKE_CXX_STANDARD 20)
set(CMAKE_EXPORT_COMPILE_COMMANDS ON)
enable_testing()
add_subdirectory(engine)
add_executable(spoon_test spoon_test.cpp)
target_link_libraries(spoon_test PRIVATE engine)
add_test(NAME unit/spoon COMMAND spoon_test)
set_tests_properties(unit/spoon PROPERTIES LABELS unit)
""",
    "engine/CMakeLists.txt": """add_library(engine STATIC units/spoon.cpp units/never.cpp)
set_target_properties(engine PROPERTIES OUTPUT_NAME jarful)
""",
    "engine/units/spoon.cpp": """constexpr double heaped = 2.2;

// The edge is not looked at by the test, the amount is.
bool heavy(double grams) { return grams > 10; }

double grams(double spoons) { return spoons * 5; }

double most(double spoons) { return grams(spoons) * heaped; }

int counted(int n) {
    int out = 0;
    while (n > 0) {
        n -= 1;
        ++out;
    }
    return out;
}
""",
    "engine/units/never.cpp": "double never(double a) { return a + 1; }\n",
    "engine/units/elsewhere.cpp": "double elsewhere(double a) { return a * 77; }\n",
    "spoon_test.cpp": """bool heavy(double grams);
double grams(double spoons);
double most(double spoons);
int counted(int n);
int main() {
    const bool well = grams(2) == 10 && most(2) > 21.9 && most(2) < 22.1 && heavy(100) && !heavy(1) && counted(3) == 3;
    return well ? 0 : 1;
}
""",
}


class Failed(Exception):
    pass


def expect(well, what):
    if not well:
        raise Failed(what)


def make_tree(work, compiler):
    shutil.rmtree(work, ignore_errors=True)
    for name, text in TREE.items():
        (work / name).parent.mkdir(parents=True, exist_ok=True)
        (work / name).write_text(text, encoding="utf-8")
    for words in (["cmake", "-S", work, "-B", work / "build", "-G", "Ninja", f"-DCMAKE_CXX_COMPILER={compiler}",
                   "-DCMAKE_BUILD_TYPE=Release"], ["cmake", "--build", work / "build"]):
        subprocess.run(words, check=True, stdout=subprocess.DEVNULL)


def planted(work, *words):
    ran = subprocess.run([sys.executable, "-B", HERE / "planted.py", "--root", work, "--build", work / "build", "--out",
                          work / "planted", "--rooms", "units", "--patience", "1",
                          *(word for seed in "123456" for word in ("--seed", seed)), *words],
                         capture_output=True, text=True, check=False)
    return ran.returncode, ran.stdout + ran.stderr


def whole_run(work):
    """What survives, what is caught, and that a listed fault is left out."""
    status, said = planted(work)
    expect(status == 1, f"status {status}, not 1:\n{said}")
    for survivor in ("return grams >= 10;", "engine/units/never.cpp:1: "):
        expect(survivor in said, f"{survivor!r} should have survived:\n{said}")
    expect("no test comes by it" in said, said)
    expect("elsewhere" not in said, f"what the build does not compile holds no fault:\n{said}")
    for caught in ("spoons / 5", "grams <= 10", "heaped = 2.42", "heaped = 1.98", "n += 1", "spoons * 6"):
        expect(caught not in said, f"{caught!r} should have been caught:\n{said}")
    status, said = planted(work, "--least", "20")
    expect(status == 0, f"what has been caught is enough for 20 %:\n{said}")
    better_tests(work)
    explained(work, said)


def better_tests(work):
    """What survived is caught once the tests look at it."""
    usual = (work / "spoon_test.cpp").read_text(encoding="utf-8")
    (work / "spoon_test.cpp").write_text(
        usual.replace("int main() {", "double never(double a);\nint main() {")
        .replace("return well", "return well && !heavy(9.5) && !heavy(10) && heavy(10.5) && never(5) == 6"),
        encoding="utf-8")
    subprocess.run(["cmake", "--build", work / "build"], check=True, stdout=subprocess.DEVNULL)
    status, said = planted(work, "--survivors")
    expect(status == 0 and " 100.0 %" in said, f"with better tests all is caught:\n{said}")
    status, said = planted(work, "--survivors")
    expect(status == 0 and "nothing to plant" in said, f"nothing survived the last run:\n{said}")


def explained(work, said):
    """What the list explains is not planted, and what fits nothing any more is said."""
    gone = {"file": "engine/units/spoon.cpp", "before": "gone", "after": "long gone", "why": "for this test"}
    edge = {"file": "engine/units/spoon.cpp", "before": "bool heavy(double grams) { return grams > 10; }",
            "after": "bool heavy(double grams) { return grams >= 10; }", "why": "for this test"}
    expect(edge["after"] in said, said)
    (work / "tests/analysis").mkdir(parents=True)
    (work / "tests/analysis/planted_known.json").write_text(json.dumps([gone, edge]), encoding="utf-8")
    _, said = planted(work)
    expect(edge["after"] not in said and "long gone" in said, said)
    last = (work / "planted/results.tsv").read_text(encoding="utf-8").splitlines()
    expect(last[0].split("\t")[1:] == ["seed", "room", "planted", "caught", "known to change nothing"], last[0])
    lines = [line.split("\t") for line in last[1:]]
    expect([line[1] for line in lines[-6:]] == list("123456"), "a line for each seed, added to those of earlier runs")
    expect(all(line[2] == "units" and 0 < int(line[4]) <= int(line[3]) for line in lines[-6:]), str(lines))
    expect(any(line[5] != "0" for line in lines[-6:]), "what is explained is counted")


def sites_of(text):
    return {(s.kind, s.after) for s in planting.Finder("x.cpp", text).find()}


def reading_of_sources():
    """What is a site and what is none."""
    found = sites_of("int f(int a) { return a * 2 + 1; }")
    for site in (("operator", "int f(int a) { return a * 2 - 1; }"), ("operator", "int f(int a) { return a / 2 + 1; }"),
                 ("operator", "int f(int a) { return a + 1; }"), ("constant", "int f(int a) { return a * 3 + 1; }")):
        expect(site in found, f"{site} is missing in {sorted(found)}")
    for none in ("enum class E { a = 1, b = 2 };", "static_assert(1 + 1 == 2);", "#define ONE 1 + 1\n",
                 "int g(T& t, std::vector<int>& v);", "std::array<int, 3> a;", "const char* t = \"1 < 2\"; // 1 + 1\n"):
        expect(not sites_of(none), f"{none!r} holds no site: {sorted(sites_of(none))}")
    expect(("operator", "x -= a ? 0 : b;") in sites_of("x += a ? 0 : b;"), "an assignment reaches to its end")
    expect(("branch", "if (true) g();") in sites_of("if (a < b) g();"), "a condition")
    expect(("bound", "x = std::max(a, b);") in sites_of("x = std::min(a, b);"), "min and max")
    expect(("bound", "x = i.high;") in sites_of("x = i.low;"), "low and high")
    text = "bool f(int a) { return a > 1 && a < 9; }"
    sites = planting.Finder("x.cpp", text).find()
    body, placed = planted_source.Planting(planting.Source("x.cpp", text), list(enumerate(sites)), set()).text()
    expect(sorted(placed) == list(range(len(sites))), "faults inside each other all find their place")
    expect(body.count("jarful::planted(") == len(sites), body)


def choosing():
    """The same seed chooses the same, another seed something else; every kind has its share."""
    text = "\n".join(f"bool f{i}(double a, double b) {{ return a + {i} < b; }}" for i in range(60))
    sites = {"units": planting.Finder("x.cpp", text).find()}
    one, again, other = (planting.chosen(sites, {"units": 40}, seed) for seed in (1, 1, 2))
    expect(one == again and one != other and len(one) == 40, "choosing by a seed")
    expect({s.kind for s in one} == {"operator", "constant", "comparison", "bound"}, "every kind that there is")
    data = '[{"id": "x", "low": 0.5, "typical": 1, "vague": true, "note": "3 of 4"}]\n'
    expect(sorted({s.wrong for s in planting.find_in_data("x.json", data)}) == ["0.45", "0.55", "0.9", "1.1", "false"],
           "the figures of a data file")
    data = '[{"water": {"low": 0.9, "typical": 0.9, "high": 0.95}}]\n'
    expect(sorted({s.wrong for s in planting.find_in_data("x.json", data)}) == ["0.81", "1.045"],
           "no figure out of order: the larder's compiler refuses it")
    made = planted_source.differing("t.cpp", "{1.5, 2, true}", "{1.65, 2, true}", 7)
    expect([(n, s.wrong) for n, s in made] == [(7, "1.65")], "what differs between two tables")
    expect(planted_source.differing("t.cpp", "{1.5}", "{1.5, 2}", 7) is None, "tables of two shapes")


def time_out(work):
    runner = planted_tests.Runner([], lambda word: word, 1, 1)
    expect(runner.run(["sh", "-c", "while :; do :; done"], work, {}, 1, 60) == "time", "too much of the processor")
    expect(runner.run(["sleep", "30"], work, {}, 60, 1) == "time", "too long")
    expect(runner.run(["false"], work, {}, 5, 60) == 1, "a failure")


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--compiler", default="c++")
    parser.add_argument("--work", required=True, type=pathlib.Path)
    given = parser.parse_args()
    try:
        reading_of_sources()
        choosing()
        make_tree(given.work, given.compiler)
        time_out(given.work)
        whole_run(given.work)
    except Failed as failure:
        print(f"FAILED: {failure}")
        return 1
    print("planted faults: what must survive survives, what must be caught is caught")
    return 0


if __name__ == "__main__":
    sys.exit(main())
