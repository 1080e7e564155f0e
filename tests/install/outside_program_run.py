#!/usr/bin/env python3
"""The engine as another program sees it: installed into a folder, found by find_package and by pkg-config. The programs
are those that README.md and docs/how-to/other-programs.md show, each with what it prints in the block behind it; they are
run in the demo book. With --refresh the documents are written anew."""

import argparse
import os
import pathlib
import re
import shlex
import shutil
import subprocess
import sys

SOURCE = pathlib.Path(__file__).resolve().parents[2]
PAGES = (SOURCE / "README.md", SOURCE / "docs/how-to/other-programs.md")
SHOWN = re.compile(r"(```(cpp|c|python)\n(.*?)```\n```text\n)(.*?)(```\n)", re.DOTALL)
FOREIGN = re.compile(r"/(boost|nlohmann|fmt|fast_float|CLI)/|/(muParser\w*|utf8proc|gumbo|git2)\.h")


def run(*words, **more):
    done = subprocess.run([str(word) for word in words], capture_output=True, text=True, check=False, **more)
    if done.returncode != 0:
        raise SystemExit(f"{shlex.join(map(str, words))}\nended with {done.returncode}:\n{done.stdout}{done.stderr}")
    return done.stdout


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    for name in ("build", "place", "generator", "compiler", "cc", "flags", "type"):
        parser.add_argument("--" + name, required=True)
    parser.add_argument("--refresh", action="store_true")
    options = parser.parse_args()
    place = pathlib.Path(options.place).resolve()
    prefix, outside, shown = place / "prefix", place / "outside", place / "shown"
    for folder in (prefix, outside, shown):
        shutil.rmtree(folder, ignore_errors=True)
    shown.mkdir(parents=True)
    programs = []
    for page in PAGES:
        for found in SHOWN.finditer(page.read_text("utf-8")):
            name = f"{page.stem.lower().replace('-', '_')}_{found[2]}"
            ending = {"python": "py"}.get(found[2], found[2])
            (shown / f"{name}.{ending}").write_text(found[3], "utf-8")
            programs.append(name)
    if sorted(programs) != ["other_programs_c", "other_programs_cpp", "other_programs_python", "readme_cpp"]:
        raise SystemExit(f"the documents show {programs}")

    run("cmake", "--install", options.build, "--component", "engine", "--prefix", prefix)
    run("cmake", "-S", pathlib.Path(__file__).with_name("outside"), "-B", outside, "-G", options.generator,
        f"-DCMAKE_PREFIX_PATH={prefix}", f"-DCMAKE_CXX_COMPILER={options.compiler}", f"-DCMAKE_C_COMPILER={options.cc}",
        f"-DCMAKE_CXX_FLAGS={options.flags}", f"-DCMAKE_BUILD_TYPE={options.type}", f"-DJARFUL_SHOWN={shown}")
    run("cmake", "--build", outside)
    # The one header brings no other library's with it.
    one = place / "one.cpp"
    one.write_text('#include "engine/jarful.hpp"\n')
    brought = run(options.compiler, "-std=c++20", "-M", f"-I{prefix}/include/jarful", one)
    if found := FOREIGN.search(brought):
        raise SystemExit(f"engine/jarful.hpp includes {found[0]}")
    # The same program in C by pkg-config, from where the package was put.
    library = next(prefix.glob("lib*/**/libjarful.so")).parent
    env = dict(os.environ, PKG_CONFIG_PATH=str(library / "pkgconfig"), LD_LIBRARY_PATH=str(library))
    flags = shlex.split(run("pkg-config", "--cflags", "--libs", "jarful", env=env))
    run(options.cc, "-std=c99", "-pedantic", "-Wall", "-Wextra", "-Werror", shown / "other_programs_c.c", "-o",
        place / "by_pkg_config", *flags)

    wrong = 0
    for page in PAGES:
        def again(found, page=page):
            nonlocal wrong
            name = f"{page.stem.lower().replace('-', '_')}_{found[2]}"
            words = [sys.executable, "-B", shown / f"{name}.py"] if found[2] == "python" else [outside / name]
            printed = run(*words, cwd=SOURCE / "recipes", env=env)
            if found[2] == "c" and run(place / "by_pkg_config", env=env) != printed:
                raise SystemExit("the program that pkg-config built prints something else")
            if printed != found[4]:
                wrong += 1
                print(f"{page.name}: {name} prints\n{printed}")
            return found[1] + printed + found[5]

        text = page.read_text("utf-8")
        new = SHOWN.sub(again, text)
        if options.refresh and new != text:
            page.write_text(new, "utf-8")
    return 1 if wrong and not options.refresh else 0


if __name__ == "__main__":
    sys.exit(main())
