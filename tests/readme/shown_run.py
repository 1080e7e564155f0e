#!/usr/bin/env python3
"""The run that README.md shows is a real one: what stands between its two marks is what the program
prints. With --refresh it is written anew."""

import argparse
import pathlib
import subprocess
import sys

BEGIN, END = "<!-- run: begin -->\n", "<!-- run: end -->\n"
ARGUMENTS = ["weigh", "winter-kraut", "cabbage=1.84kg"]


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--jarful", required=True, help="the program")
    parser.add_argument("--refresh", action="store_true", help="write README.md anew")
    options = parser.parse_args()

    root = pathlib.Path(__file__).resolve().parents[2]
    run = subprocess.run([options.jarful, *ARGUMENTS], cwd=root / "recipes", capture_output=True,
                         encoding="utf-8", check=False)
    if run.returncode != 0 or not run.stdout:
        print(f"The program ended with {run.returncode}:\n{run.stdout}{run.stderr}")
        return 1
    block = f"```console\n$ jarful {' '.join(ARGUMENTS)}\n{run.stdout}```\n"

    readme = root / "README.md"
    before, _, rest = readme.read_text(encoding="utf-8").partition(BEGIN)
    written, mark, after = rest.partition(END)
    if not mark:
        print("README.md has lost its marks.")
        return 1
    if options.refresh:
        readme.write_text(before + BEGIN + block + END + after, encoding="utf-8")
    elif written != block:
        print("README.md shows another run than the program prints. If that is meant:\n"
              f"  tests/readme/shown_run.py --jarful {options.jarful} --refresh\n{block}")
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
