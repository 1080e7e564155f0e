"""The tests of a build with planted faults: which of them come by which fault, and what they say of it."""

import concurrent.futures
import dataclasses
import json
import mmap
import os
import pathlib
import resource
import signal
import subprocess
import tempfile
import time

LABELS = ("unit", "property", "golden", "published")
SLOW = 1.0  # seconds; a case that takes longer is run by itself, after the quick ones
MEMORY = 4 << 30


@dataclasses.dataclass
class Test:
    name: str
    words: list
    folder: str
    case: str = ""  # a GoogleTest case of the program words[0]
    seconds: float = 0.0
    reached: frozenset = frozenset()


@dataclasses.dataclass(frozen=True)
class Verdict:
    number: int
    caught: bool
    by: str  # the first test that saw it, or how many ran in vain


def usual_tests(build):
    """What CTest knows in the usual build, of the labels above (or, without a label, by the name's beginning)."""
    said = subprocess.run(["ctest", "--show-only=json-v1"], cwd=build, capture_output=True, text=True, check=True)
    tests = []
    for entry in json.loads(said.stdout)["tests"]:
        properties = {p["name"]: p["value"] for p in entry.get("properties", [])}
        labels = properties.get("LABELS", [entry["name"].split("/")[0]])
        if "command" not in entry or not set(labels) & set(LABELS):
            continue
        words = entry["command"]
        case = next((w.split("=", 1)[1] for w in words[1:] if w.startswith("--gtest_filter=")), "")
        tests.append(Test(entry["name"], words, properties.get("WORKING_DIRECTORY", str(build)), case))
    return tests


def programs_of(tests, build):
    """The programs of the usual build that the tests run, as paths in it."""
    build = pathlib.Path(build)
    found = {str(pathlib.Path(word).relative_to(build)) for test in tests for word in test.words
             if word.startswith(str(build) + "/") and os.path.isfile(word) and os.access(word, os.X_OK)}
    command = build / "cli/jarful"
    return sorted(found | ({"cli/jarful"} if command.exists() else set()))


class Runner:
    """Runs tests, the planted programs in place of the usual ones; `planted` turns a word of a command into theirs."""

    def __init__(self, tests, planted, workers, seed, patience=10.0):
        self.tests, self.planted, self.workers, self.patience = tests, planted, workers, patience
        self.environment = {k: v for k, v in os.environ.items() if k != "JARFUL_UPDATE_GOLDEN"}
        self.environment["RC_PARAMS"] = f"seed={seed}"

    def run(self, words, folder, extra, cpu, wall):
        """The status of a program; "time" when it takes too long. All it started ends with it."""
        def limits():
            resource.setrlimit(resource.RLIMIT_CPU, (int(cpu) + 1, int(cpu) + 2))
            resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
            resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        process = subprocess.Popen([self.planted(w) for w in words], cwd=folder, stdin=subprocess.DEVNULL,
                                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True,
                                   preexec_fn=limits, env={**self.environment, **extra})
        try:
            status = process.wait(wall)
        except subprocess.TimeoutExpired:
            status = "time"
        finally:
            try:
                os.killpg(process.pid, signal.SIGKILL)
            except ProcessLookupError:
                pass
            process.wait()
        return "time" if status in (-signal.SIGXCPU, -signal.SIGKILL) else status

    def measure(self, count):
        """Runs every test once with no fault on; sets what each comes by. The tests that fail are left out and returned."""
        with concurrent.futures.ThreadPoolExecutor(self.workers) as pool:
            results = list(pool.map(lambda test: self.measured(test, count), self.tests))
        failed = [test for test, well in zip(self.tests, results) if not well]
        self.tests = [test for test, well in zip(self.tests, results) if well]
        return failed

    def measured(self, test, count):
        with tempfile.NamedTemporaryFile() as file:
            file.write(bytes(max(count, 1)))
            file.flush()
            begin = time.monotonic()
            status = self.run(test.words, test.folder, {"JARFUL_PLANTED_REACHED": file.name}, 600, 1800)
            test.seconds = time.monotonic() - begin
            with mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_READ) as seen:
                test.reached = frozenset(i for i in range(count) if seen[i])
        return status == 0

    def groups(self, number):
        """The tests that come by a fault, as (tests, words, folder), what takes least time first."""
        quick, out = {}, []
        for test in self.tests:
            if number not in test.reached:
                continue
            if test.case and test.seconds < SLOW:
                quick.setdefault((test.words[0], test.folder), []).append(test)
            else:
                out.append(([test], test.words, test.folder))
        for (program, folder), tests in quick.items():
            cases = ":".join(t.case for t in tests)
            out.append((tests, [program, f"--gtest_filter={cases}", "--gtest_fail_fast",
                                "--gtest_also_run_disabled_tests"], folder))
        return sorted(out, key=lambda group: sum(t.seconds for t in group[0]))

    def judge(self, number):
        """Runs the tests that come by a fault, until one fails."""
        ran = 0
        for tests, words, folder in self.groups(number):
            usual = sum(t.seconds for t in tests)
            status = self.run(words, folder, {"JARFUL_PLANTED": str(number)},
                              self.patience + 10 * usual, 120 + 20 * usual)
            ran += len(tests)
            if status != 0:
                name = tests[0].name if len(tests) == 1 else os.path.basename(words[0])
                return Verdict(number, True, name + (" (time-out)" if status == "time" else ""))
        return Verdict(number, False, f"{ran} tests ran in vain" if ran else "no test comes by it")
