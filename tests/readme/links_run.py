#!/usr/bin/env python3
"""Whoever looks for something in the documents finds it: no link is dead, no document is without a link to it, and each of
the eleven jobs is at most two links away from README.md."""

import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
LINK = re.compile(r"\]\(([^)\s]+)\)")
HEADING = re.compile(r"^#+ +(.*?) *$", re.M)
JOBS = ["how-to/weigh.md", "how-to/jar-or-salt.md", "how-to/wrong-salt.md", "how-to/jars.md", "how-to/found-recipe.md",
        "how-to/spoons-to-grams.md", "how-to/brine.md", "how-to/ready.md", "how-to/write-a-recipe.md", "how-to/record.md",
        "install.md"]


def without_code(text):
    """Blocks of code are no place for links."""
    return re.sub(r"^```.*?^```", "", text, flags=re.M | re.S)


def anchor(heading):
    """As a heading is named in a link: lower case, blanks as hyphens, no other marks."""
    return re.sub(r"[^\w\- ]", "", heading.replace("`", "").lower()).replace(" ", "-")


def links(page, faults):
    """The pages that a page leads to."""
    out = set()
    for target in LINK.findall(without_code(page.read_text(encoding="utf-8"))):
        if re.match(r"[a-z]+:", target):
            continue
        name, _, part = target.partition("#")
        other = (page.parent / name).resolve() if name else page
        if not other.exists():
            faults.append(f"{page.relative_to(ROOT)}: {target} leads nowhere")
            continue
        if part and other.suffix == ".md":
            known = {anchor(h) for h in HEADING.findall(without_code(other.read_text(encoding="utf-8")))}
            if part not in known:
                faults.append(f"{page.relative_to(ROOT)}: {target} names no heading of that page")
        if other.suffix == ".md":
            out.add(other)
    return out


def main():
    faults = []
    pages = [ROOT / "README.md", ROOT / "DEVELOPERS.md", ROOT / "recipes/README.md", *sorted((ROOT / "docs").rglob("*.md"))]
    graph = {page: links(page, faults) for page in pages}
    near = graph[ROOT / "README.md"] | {p for q in graph[ROOT / "README.md"] for p in graph.get(q, ())}
    for job in JOBS:
        if ROOT / "docs" / job not in near:
            faults.append(f"docs/{job} is more than two links from README.md")
    reached = set().union(*graph.values())
    for page in pages:
        if page != ROOT / "README.md" and page not in reached and page.parent != ROOT / "recipes":
            faults.append(f"nothing leads to {page.relative_to(ROOT)}")
    print("\n".join(faults) if faults else f"{len(pages)} pages, every link leads somewhere")
    return 1 if faults else 0


sys.exit(main())
