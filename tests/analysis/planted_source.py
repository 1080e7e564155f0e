"""A source with its faults in it, each behind `jarful::planted(NUMBER)`.

Constants that the compiler has to know stay as they are. Beside one that holds a fault comes an ordinary twin with
the fault in it, made when the program starts, and what runs later reads the twin.
"""

import dataclasses
import re

import planting

TWIN = "planted_twin_of_"


@dataclasses.dataclass(frozen=True)
class Constant:
    """A declaration with `constexpr`: `begin` at that word, `end` behind its semicolon or its body."""
    name: str
    variable: bool
    begin: int
    end: int
    word_end: int
    first: int  # tokens
    last: int
    inside: str  # "namespace", "class" or "function"


def constants_of(source):
    out = []
    for i, token in enumerate(source.tokens):
        if token.text != "constexpr" or source.at(i - 1) == "if":
            continue
        name, variable = declared(source, i)
        j = i
        while j < len(source.tokens) and source.at(j) != ";" and (variable or source.at(j) != "{"):
            j = source.partner.get(j, j) + 1 if source.at(j) in planting.OPENING else j + 1
        j = min(source.partner.get(j, j), len(source.tokens) - 1)
        out.append(Constant(name, variable, token.begin, source.tokens[j].end, token.end, i, j, scope(source, i)))
    return out


def declared(source, i):
    """The name that a declaration beginning with `constexpr` at token `i` declares, and whether it is a variable."""
    angle = 0
    for j in range(i + 1, len(source.tokens)):
        text = source.at(j)
        if text == "<" and not source.spaced(j):
            angle += 1
        elif text == ">" and angle:
            angle -= 1
        elif angle == 0 and text in ("=", "{", ";", "["):
            return source.at(j - 1), True
        elif angle == 0 and text == "(":
            return source.at(j - 1), False
    return "", False


def scope(source, i):
    """What kind of braces token `i` stands in."""
    brace = source.inside[i]
    if brace < 0:
        return "namespace"
    j = source.statement_begin(brace)
    words = {source.at(k) for k in range(j, brace)}
    if "namespace" in words:
        return "namespace"
    if words & {"struct", "class", "union"} and "(" not in words:
        return "class"
    return "function"


class Planting:
    """Puts sites into a source; `kept` names functions that have to stay `constexpr`."""

    def __init__(self, source, numbered, kept):
        self.source, self.kept = source, kept
        constants = constants_of(source)
        variables = [c for c in constants if c.variable]
        functions = [c for c in constants if not c.variable]
        fixed = [f for f in functions if f.name in kept]
        self.numbered = [(n, s) for n, s in numbered if not any(f.begin <= s.begin < f.end for f in fixed)]
        self.loose = [f for f in functions if f.name not in kept and
                      any(f.begin <= s.begin < f.end for _, s in self.numbered)]
        self.twins = [v for v in variables if any(v.begin <= s.begin < v.end for _, s in self.numbered)]
        self.add_followers(variables)
        self.fixed = [c for c in functions if c not in self.loose] + variables
        self.names = {v.name for v in self.twins}

    def add_followers(self, variables):
        """What is made of a constant with a twin has a twin, too."""
        grown = True
        while grown:
            grown = False
            names = {v.name for v in self.twins}
            for v in variables:
                words = {self.source.at(k) for k in range(v.first, v.last)}
                if v not in self.twins and words & names:
                    self.twins.append(v)
                    grown = True

    def reads_twin(self, i, in_twin=False):
        """Whether token `i` names a constant where its twin can stand."""
        source = self.source
        t = source.tokens[i]
        if t.text not in self.names or source.at(i - 1) in (".", "->", "case", "constexpr"):
            return False
        if source.text[t.begin - 1:t.begin] in ("<", "[") or source.text[t.end:t.end + 1] == ">":
            return False
        return in_twin or not any(c.begin <= t.begin < c.end for c in self.fixed)

    def text(self):
        """The planted source, and the numbers of the sites that found a place in it."""
        source = self.source
        left_out = planting.Finder(source.file, source.text).left_out
        edits = [(f.begin, f.word_end, "") for f in self.loose]
        for i, token in enumerate(source.tokens):
            if token.text in self.names and self.reads_twin(i) and not any(a <= i <= b for a, b in left_out):
                edits.append((token.begin, token.end, TWIN + token.text))
        placed = nested(self.numbered)
        for v in self.twins:
            held = [(n, s) for n, s in placed if v.begin <= s.begin < v.end]
            edits.append((v.end, v.end, " " + self.twin(v, held)))
        outside = [(n, s) for n, s in placed if not any(v.begin <= s.begin < v.end for v in self.twins)]
        body = rendered(source.text, 0, len(source.text), outside, edits)
        return (f'namespace jarful {{ bool planted(int) noexcept; }}\n#line 1 "{source.file}"\n{body}',
                [number for number, _ in placed])

    def twin(self, v, held):
        source = self.source
        word = {"namespace": "const", "class": "static inline const", "function": "static const"}[v.inside]
        if source.at(v.first + 1) == "const":
            word = word.removesuffix("const")
        edits = [(v.begin, v.word_end, word)]
        for i in range(v.first, v.last):
            if self.reads_twin(i, in_twin=True):
                edits.append((source.tokens[i].begin, source.tokens[i].end, TWIN + source.at(i)))
        # On one line, so that the lines behind it keep their numbers.
        made = rendered(source.text, v.begin, v.end, held, edits)
        return " ".join(re.sub(r"//[^\n\"]*\n", "\n", made).split("\n"))


def nested(numbered):
    """The sites in order, the outer before the inner; of two that overlap otherwise the first alone."""
    placed, ends = [], []
    for number, site in sorted(numbered, key=lambda n: (n[1].begin, -n[1].end, n[0])):
        while ends and ends[-1] <= site.begin:
            ends.pop()
        if ends and site.end > ends[-1]:
            continue
        ends.append(site.end)
        placed.append((number, site))
    return placed


def rendered(text, begin, end, placed, edits):
    """The text from `begin` to `end` with sites and edits in it."""
    pieces, k = [], 0
    while k < len(placed):
        number, site = placed[k]
        held = [n for n in placed[k + 1:] if n[1].begin < site.end]
        right = rendered(text, site.begin, site.end, held, edits)
        # A condition may be a pointer or an optional, which is a bool only where one is asked for.
        cast = "static_cast<bool>" if site.kind == "branch" else ""
        pieces.append((site.begin, site.end,
                       f"(jarful::planted({number}) ? {cast}({site.wrong}) : {cast}({right}))"))
        k += 1 + len(held)
    covered = [(b, e) for b, e, _ in pieces]
    pieces += [(b, e, word) for b, e, word in edits
               if begin <= b and e <= end and not any(x <= b < y for x, y in covered)]
    out, at = [], begin
    for b, e, made in sorted(pieces, key=lambda piece: (piece[0], piece[1])):
        out += [text[at:b], made]
        at = e
    return "".join([*out, text[at:end]])


def kept_by_rule(source):
    """Functions whose value has to be known when compiling: they stand in a size, a template's argument, an assertion."""
    kept = set()
    for first, last in planting.Finder(source.file, source.text).left_out:
        kept.update(source.at(k) for k in range(first, last + 1) if source.tokens[k].kind == "word")
    for c in constants_of(source):
        if c.variable:
            kept.update(source.at(k) for k in range(c.first, c.last) if source.tokens[k].kind == "word")
    return kept


def differing(file, text, other, number_of):
    """The tokens in which another text of the same shape differs, as sites; None if it is of another shape.

    What the larder's compiler writes from a changed data file differs so from what it usually writes."""
    right, wrong = planting.Source(file, text).tokens, planting.Source(file, other).tokens
    if len(right) != len(wrong):
        return None
    sites = []
    for a, b in zip(right, wrong):
        if a.text == b.text:
            continue
        if {a.kind, b.kind} - {"number"} and {a.text, b.text} != {"true", "false"}:
            return None
        sites.append(planting.Site(file, text.count("\n", 0, a.begin) + 1, a.begin, a.end, "constant", b.text,
                                   a.text, b.text))
    return [(number_of, site) for site in sites] or None


def error_lines(file, said):
    """The lines of a source that a compiler's errors are about, and the names that they put in quotes."""
    lines = {int(n) for n in re.findall(rf"{re.escape(file)}:(\d+)(?=:\d+: (?:error|.*required from))", said)}
    quoted = [m.group(1).split("(")[0] for m in re.finditer(r"‘([^’]*)’", said)]
    return lines, {word for text in quoted for word in re.findall(r"\w+", text)[-1:]}
