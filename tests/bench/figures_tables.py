"""What tests/bench/run measured, as tables: for a terminal, and in Markdown for docs/performance.md."""

BEGIN = "<!-- Measured: this part is written by tests/bench/run --write. -->"
END = "<!-- Measured: the end. -->"


class Figures:
    """Rows of the tables: what was measured, beside what, and whether that is as wanted."""

    def __init__(self):
        self.rows = []
        self.beyond = []
        self.growth = []
        self.page = []
        self.left_out = []

    def row(self, table, name, value, unit, references, peak_kb=None, note=""):
        """references: dictionaries with name, value, kind and perhaps target, peak_kb and beyond. The ratio is ours to
        theirs ("of"), theirs to ours ("faster"), or ours to theirs where more is better ("least"). A target is the most
        that the ratio may be, or the least. With beyond, the difference is told as well."""
        compared = []
        for reference in references:
            other, kind, target = reference["value"], reference["kind"], reference.get("target")
            ratio = other / value if kind == "faster" else value / other
            met = None if target is None else ratio <= target if kind == "of" else ratio >= target
            compared.append({**reference, "ratio": ratio, "met": met})
        self.rows.append({"table": table, "name": name, "value": value, "unit": unit, "references": compared, "note": note,
                          "peak_mb": None if peak_kb is None else peak_kb / 1024})

    def page_row(self, name, words, value=None, most=None):
        """Of a page: what was measured, in words. With a value that has a target: the most that it may be, in the same unit."""
        self.page.append({"name": name, "words": words, "value": value, "target": most, "met": None if most is None else value <= most})

    def met(self):
        compared = [one for row in self.rows for one in row["references"]]
        return all(one["met"] is not False for one in compared + self.page)


def number(value):
    size = abs(value)
    return f"{value:,.0f}" if size >= 100 else f"{value:.1f}" if size >= 10 else f"{value:.2f}" if size >= 0.1 else f"{value:.2g}"


def ratio_words(row, reference):
    words = f"{number(reference['ratio'])}{' times faster' if reference['kind'] == 'faster' else ''}"
    if reference.get("beyond"):
        more = row["value"] - reference["value"]
        words += f", {'+' if more >= 0 else '−'}{number(abs(more))} {row['unit']}"
    return words


def wanted_words(reference):
    if reference.get("target") is None:
        return ""
    words = f"at {'most' if reference['kind'] == 'of' else 'least'} {reference['target']:g}"
    return words if reference["met"] else f"{words}: **missed**"


def page_cells(row):
    if row["target"] is None:
        return [row["name"], row["words"], ""]
    return [row["name"], row["words"], f"at most {row['target']:g}{'' if row['met'] else ': **missed**'}"]


def beside_words(row, reference):
    words = f"{reference['name']}, {number(reference['value'])} {row['unit']}"
    return words + (f", {reference['peak_kb'] / 1024:.0f} MB" if reference.get("peak_kb") else "")


def cells_of(row):
    """A line for each reference, the first with what was measured."""
    head = [row["name"], f"{number(row['value'])} {row['unit']}", "" if row["peak_mb"] is None else f"{row['peak_mb']:.0f} MB"]
    for reference in row["references"] or [None]:
        if reference is None:
            yield [*head, "", "", ""]
        else:
            yield [*head, beside_words(row, reference), ratio_words(row, reference), wanted_words(reference)]
        head = ["", "", ""]


def markdown_table(heads, rows):
    lines = ["| " + " | ".join(heads) + " |", "|" + "---|" * len(heads)]
    return "\n".join(lines + ["| " + " | ".join(row) + " |" for row in rows]) + "\n"


def machine_words(where):
    words = (f"On {where['date']}, in one run, on {where['processors']} processors ({where['processor']}), {where['compiler']}; "
             f"load {where['load_at_start']:.1f} when it began and {where['load_at_end']:.1f} when it ended. Medians.")
    return words if not where["quick"] else f"{words} QUICK: NO FIGURES TO RELY ON."


def notes(rows):
    return "".join(f"- {row['name']}: {row['note']}.\n" for row in rows if row["note"])


def markdown(figures, where):
    """All tables, each where there is something in it."""
    heads = ["what", "Jarful", "peak", "beside", "ratio", "wanted"]
    out = [machine_words(where) + "\n"]

    def part(rows):
        if rows:
            out.append(markdown_table(heads, [cells for row in rows for cells in cells_of(row)]))
            if notes(rows):
                out.append(notes(rows))

    part([row for row in figures.rows if row["table"] == "first"])
    if figures.beyond:
        out.append("What each weigh-out costs beyond a hello-world that is built with the same flags, and how often that of Jarful goes into it:\n")
        out.append(markdown_table(["what", "beyond a start", "ratio"], figures.beyond))
    checks = [row for row in figures.rows if row["table"] == "check"]
    if checks:
        out.append("`check` works on every processor, so it is measured by `hyperfine`, command after command:\n")
        part(checks)
    if figures.growth:
        out.append("How cost grows:\n")
        out.append(markdown_table(["with", "as measured"], figures.growth))
    if figures.page:
        out.append("A page:\n")
        out.append(markdown_table(["what", "as measured", "wanted"], [page_cells(row) for row in figures.page]))
    if figures.left_out:
        out.append("".join(f"- Left out: {what}.\n" for what in figures.left_out))
    return "\n".join(out)


def text(figures, where):
    lines = [f"{'':30} {'jarful':>13} {'peak':>8}   beside, and the ratio"]
    for row in figures.rows:
        for name, value, peak, beside, ratio, wanted in cells_of(row):
            lines.append(f"{name:30} {value:>13} {peak:>8}   {beside}: {ratio}{'; wanted ' + wanted if wanted else ''}")
        if row["note"]:
            lines.append(f"{'':53}   {row['note']}")
    for part in (figures.beyond, figures.growth, [page_cells(row) for row in figures.page]):
        lines += ["", *("   ".join(cells) for cells in part)]
    lines += ["", machine_words(where), *(f"Left out: {what}." for what in figures.left_out)]
    return "\n".join(lines) + "\n"


def written_into(page, table):
    """The page with the table in place of the one that it has."""
    begin, end = page.index(BEGIN) + len(BEGIN), page.index(END)
    return page[:begin] + "\n" + table + page[end:]
