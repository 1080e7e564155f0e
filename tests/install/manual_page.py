#!/usr/bin/env python3
"""The manual page says what the help says, and is a manual page as mandoc wants it.

    manual_page.py PROGRAM PAGE SOURCE
"""

import pathlib
import re
import shutil
import subprocess
import sys

program, page, source = sys.argv[1:]
faults = []


def output(*words):
    return subprocess.run(words, check=True, capture_output=True, text=True, encoding="utf-8").stdout


def jarful(*words):
    return output(program, *words)


def squeezed(text):
    """Without blanks, which differ, and in small letters: the page begins sentences with capitals."""
    return re.sub(r"\s+", "", text).lower()


def expect(text, where, what):
    if squeezed(text) not in where:
        faults.append(f"the page does not have {what}: {text}")


def part(name, rendered):
    """What the page says of a command."""
    found = re.search(rf"^   {re.escape(name)}$(.*?)(?=^   \S|^\S)", rendered, re.M | re.S)
    if not found:
        faults.append(f"the page has no part for {name}")
        return ""
    return squeezed(found.group(1))


written = pathlib.Path(page).read_bytes()
if written.decode("ascii") != jarful("manual"):
    faults.append("the page that was built is not what the program prints")

if shutil.which("mandoc") is None:
    print("mandoc is not there: the page was not read")
    sys.exit(1 if faults else 77)

lint = subprocess.run(["mandoc", "-T", "lint", "-W", "warning", page], capture_output=True, text=True)
if lint.stdout or lint.returncode != 0:
    faults.append("mandoc says:\n" + lint.stdout)

rendered = output("mandoc", "-T", "utf8", "-O", "width=78", page)
rendered = re.sub(".\b", "", rendered)  # bold and underlined

commands = [line.split("\t")[0] for line in jarful("complete", "--", "").splitlines()]
commands = [name for name in commands if name != "help"] + ["complete", "language-server", "manual"]
for name in commands:
    said = part(name, rendered)
    help_lines = jarful("help", name).splitlines()
    expect(help_lines[0], said, "the usage line")
    expect(help_lines[1], said, "the line of the overview")
    text, _, rest = "\n".join(help_lines[3:]).partition("\nOptions\n" if "Options" in help_lines
                                                        else "\nExamples\n")
    expect(text, said, "the paragraph")
    for example in "\n".join(help_lines).partition("\nExamples\n")[2].splitlines():
        expect(example, said, "the example")
    for line in jarful("complete", "--", name, "--").splitlines():
        option, _, about = line.partition("\t")
        if option != "--help":
            if squeezed(about) + "." not in said or squeezed(option) not in said:
                faults.append(f"{name}: the page does not have {option}, {about}")

everything = squeezed(rendered)
overview = jarful("--help")
for line in re.findall(r"^  (--[a-z]+) +(.*)$", overview, re.M):
    expect(" ".join(line), everything, "the option")
variables = set()
for file in pathlib.Path(source, "cli").glob("*.cpp"):
    variables |= set(re.findall(r'getenv\("(\w+)"\)', file.read_text(encoding="utf-8")))
for variable in variables:
    expect(variable, everything, "the environment's")
if not variables or len(commands) < 10:
    faults.append("this test looks in the wrong places")

day = re.search(r"set\(JARFUL_VERSION_DATE (\S+)\)", pathlib.Path(source, "CMakeLists.txt").read_text())
expect(day.group(1)[:4], everything, "the year")

for fault in faults:
    print(fault)
sys.exit(1 if faults else 0)
