#!/usr/bin/env python3
"""Follows docs/tutorial.md: the commands of its console blocks are run in order, in one shell in an
empty folder, and have to print what the page shows. A command is what stands behind "$ ", with
lines behind "> " that belong to it; it has to succeed unless it ends with "# exit status N". With
--refresh the page is written anew. A line that is "…" alone stands for any lines."""

import argparse
import os
import pathlib
import re
import subprocess
import sys
import tempfile

OPEN, CLOSE = "```console\n", "```\n"
NO_ENGINE = "the engine for pages was not"
MARK = "--- the command has ended with "


class Shell:
    """One shell for the whole page, so that a folder once entered stays entered."""

    def __init__(self, folder, program):
        home = folder / "home"
        home.mkdir()
        settings = {
            "HOME": str(home),
            "PATH": f"{program.parent}:{os.environ['PATH']}",
            "LC_ALL": "C.UTF-8",
            "TMPDIR": str(folder),
            "GIT_CONFIG_NOSYSTEM": "1",
            "GIT_PAGER": "cat",
            "GIT_CEILING_DIRECTORIES": str(folder),
        }
        # One moment for all commits: their ids on the page then stay the same.
        for who in ("AUTHOR", "COMMITTER"):
            settings[f"GIT_{who}_NAME"] = "Quay Street"
            settings[f"GIT_{who}_EMAIL"] = "kitchen@quay.example"
            settings[f"GIT_{who}_DATE"] = "2026-09-01 18:00:00 +0200"
        work = folder / "work"
        work.mkdir()
        self.process = subprocess.Popen(["bash", "--norc"], cwd=work, env=settings, text=True,
                                        encoding="utf-8", stdin=subprocess.PIPE,
                                        stdout=subprocess.PIPE, stderr=subprocess.STDOUT)

    def run(self, command):
        self.process.stdin.write(f"{command}\necho \"{MARK}$?\"\n")
        self.process.stdin.flush()
        shown = ""
        for line in self.process.stdout:
            # What prints no line end of its own is still followed by the mark.
            before, mark, status = line.partition(MARK)
            shown += before
            if mark:
                return shown, int(status)
        return shown, -1


def steps_of(block):
    """(command, shown) pairs of a block."""
    steps = []
    for line in block.splitlines(keepends=True):
        if line.startswith("$ "):
            steps.append([line[2:], ""])
        elif line.startswith("> ") and steps and not steps[-1][1]:
            steps[-1][0] += line[2:]
        elif steps:
            steps[-1][1] += line
        else:
            raise ValueError(f"A console block begins with \"$ \", not with: {line}")
    return steps


def fits(shown, printed):
    """Whether what is shown is what was printed, but for what it leaves out."""
    pieces = re.split(r"(?m)^…\n", shown)
    return re.fullmatch("(?:.*\n)*".join(re.escape(piece) for piece in pieces), printed) is not None


def follow(page, shell, folder):
    """The page as it would be with what is printed now, and what is wrong."""
    written, wrong = "", []
    rest = page
    while OPEN in rest:
        before, _, rest = rest.partition(OPEN)
        block, close, rest = rest.partition(CLOSE)
        if not close:
            raise ValueError("A console block has no end.")
        written += before + OPEN
        skipped = False
        for command, shown in steps_of(block):
            if not skipped:
                printed, status = shell.run(command)
                # What was not built cannot be shown; the rest of the page can.
                skipped = command.startswith("jarful page ") and NO_ENGINE in " ".join(printed.split())
            if skipped:
                print(f"Skipped, for there is no engine for pages: $ {command}", end="", file=sys.stderr)
                written += "$ " + "> ".join(command.splitlines(keepends=True)) + shown
                continue
            printed = printed.replace(str(folder / "work"), "/home/you")
            expected = re.search(r"# exit status (\d+)$", command.strip())
            wanted = int(expected.group(1)) if expected else 0
            if status != wanted:
                wrong.append(f"$ {command}ended with {status} instead of {wanted}:\n{printed}")
            if not fits(shown, printed):
                wrong.append(f"$ {command}printed\n{printed}and the page shows\n{shown}")
                shown = printed
            lines = command.splitlines(keepends=True)
            written += "$ " + "> ".join(lines) + shown
        written += CLOSE
    return written + rest, wrong


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--jarful", required=True, type=pathlib.Path, help="the program")
    parser.add_argument("--page", type=pathlib.Path,
                        default=pathlib.Path(__file__).resolve().parents[2] / "docs/tutorial.md")
    parser.add_argument("--refresh", action="store_true", help="write the page anew")
    options = parser.parse_args()
    page = options.page.read_text(encoding="utf-8")
    with tempfile.TemporaryDirectory() as place:
        folder = pathlib.Path(place).resolve()
        shell = Shell(folder, options.jarful.resolve())
        written, wrong = follow(page, shell, folder)
        shell.process.stdin.close()
        shell.process.wait()
    if options.refresh:
        options.page.write_text(written, encoding="utf-8")
        wrong = [w for w in wrong if "ended with" in w.splitlines()[0]]
    print("\n".join(wrong), end="")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
