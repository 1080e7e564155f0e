#!/usr/bin/env python3
"""The runs that the pages under docs/ show are real ones. Every ```console block is a row of `$ jarful …`
commands with what they print; a page is run from top to bottom in a copy of the demo book, so that a
record begun in one block is there in the next. A line "…" stands for what is left out, up to the end of
what that command prints. With --refresh the pages are written anew."""

import argparse
import os
import pathlib
import shlex
import shutil
import subprocess
import sys
import tempfile

ELISION = "…"


def run(program, words, folder):
    environment = dict(os.environ, NO_COLOR="1")
    done = subprocess.run([program, *words], cwd=folder, capture_output=True, encoding="utf-8",
                          env=environment, check=False, stdin=subprocess.DEVNULL)
    return (done.stderr + done.stdout).rstrip("\n").split("\n")


def shown(got, expected):
    """What the page should say: all of it, or as many lines as it has before its elision."""
    if ELISION not in expected:
        return [line.rstrip() for line in got]
    kept = expected.index(ELISION)
    return [line.rstrip() for line in got[:kept]] + [ELISION]


def refreshed(page, program, book):
    out, block = [], None
    commands = 0
    for line in page.read_text(encoding="utf-8").split("\n"):
        if block is None:
            out.append(line)
            if line == "```console":
                block = []
            continue
        if line != "```":
            block.append(line)
            continue
        while block:
            command = block.pop(0)
            if not command.startswith("$ "):
                raise SystemExit(f"{page.name}: {command!r} begins no command")
            expected = []
            while block and not block[0].startswith("$ "):
                expected.append(block.pop(0))
            out.append(command)
            words = shlex.split(command[2:])
            if words[0] == "cat":
                got = (book / words[1]).read_text(encoding="utf-8").rstrip("\n").split("\n")
            elif words[0] == "jarful":
                got = run(program, words[1:], book)
            else:
                raise SystemExit(f"{page.name}: only jarful and cat are run, not {words[0]}")
            commands += 1
            out += [line for line in shown(got, expected) if line or len(got) > 1]
        out.append(line)
        block = None
    return "\n".join(out), commands


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--jarful", required=True, help="the program")
    parser.add_argument("--refresh", action="store_true", help="write the pages anew")
    parser.add_argument("pages", nargs="+", type=pathlib.Path)
    options = parser.parse_args()
    root = pathlib.Path(__file__).resolve().parents[2]
    program = str(pathlib.Path(options.jarful).resolve())
    status = 0
    for page in options.pages:
        with tempfile.TemporaryDirectory() as folder:
            book = pathlib.Path(folder) / "book"
            shutil.copytree(root / "recipes", book)
            text, commands = refreshed(page, program, book)
        if commands == 0:
            print(f"{page} runs nothing.")
            status = 1
        if options.refresh:
            page.write_text(text, encoding="utf-8")
        elif text != page.read_text(encoding="utf-8"):
            print(f"{page} shows other runs than the program prints. If that is meant:\n"
                  f"  {pathlib.Path(__file__).name} --jarful {options.jarful} --refresh {page}\n{text}")
            status = 1
    return status


if __name__ == "__main__":
    sys.exit(main())
