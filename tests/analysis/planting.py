"""Where a fault can be planted in a C++ source or in the larder's data, and the source with all of them in it.

A site is a stretch of text and what it could wrongly be. In the planted source the stretch becomes
`(jarful::planted(NUMBER) ? wrong : right)`, so that one build holds every fault and an environment
variable chooses one. The reader of C++ here knows tokens and brackets, no types: what does not compile
is dropped later (planted_build.py). It leans on the checked-in .clang-format, which sets blanks on both
sides of a binary operator and none inside a template's `<`.
"""

import bisect
import dataclasses
import random
import re

KINDS = ("operator", "constant", "comparison", "branch", "bound")

TOKEN = re.compile(
    r'(?P<comment>//[^\n]*|/\*.*?\*/)'
    r'|(?P<text>(?:u8|[uUL])?R"(?P<tag>[^()\\\s]{0,16})\(.*?\)(?P=tag)"'
    r'|(?:u8|[uUL])?"(?:\\.|[^"\\\n])*")'
    r"|(?P<number>\.?\d(?:[eEpP][+-]|'?[\w.])*)"
    r"|(?P<letter>(?:u8|[uUL])?'(?:\\.|[^'\\\n])+')"
    r'|(?P<word>[A-Za-z_]\w*)'
    r'|(?P<sign><=>|->\*|<<=|>>=|\.\.\.|::|->|\+\+|--|&&|\|\||[-+*/%&|^!=<>]=|<<|.)', re.DOTALL)

# How strongly a binary operator binds; a lower one ends the operand of a higher one.
STRENGTH = {"*": 10, "/": 10, "%": 10, "+": 9, "-": 9, "<<": 8, "<=>": 7, "<": 6, "<=": 6, ">": 6, ">=": 6,
            "==": 5, "!=": 5, "&": 4, "^": 3, "|": 2, "&&": 1, "||": 0}
ASSIGNMENTS = {"=", "+=", "-=", "*=", "/=", "%=", "&=", "|=", "^=", "<<=", ">>="}
ENDS = {",", ";", "?", ":", "return", "throw", "co_return", "else", "do", "case"} | ASSIGNMENTS
OPENING = {"(": ")", "[": "]", "{": "}"}

ARITHMETIC = {"+": "-", "-": "+", "*": "/", "/": "*", "&&": "||", "||": "&&",
              "+=": "-=", "-=": "+=", "*=": "/=", "/=": "*="}
OPPOSITES = {"==": "!=", "!=": "==", "<": ">=", "<=": ">", ">": "<=", ">=": "<"}
EDGES = {"<": "<=", "<=": "<", ">": ">=", ">=": ">"}
CALLS = {"min": "max", "max": "min", "floor": "ceil", "ceil": "floor", "round": "floor",
         "step_down": "step_up", "step_up": "step_down"}
MEMBERS = {"low": "high", "high": "low"}


@dataclasses.dataclass(frozen=True)
class Site:
    """One fault that could be planted: `file` from the top of the tree, `begin` to `end` in its text."""
    file: str
    line: int
    begin: int
    end: int
    kind: str
    wrong: str
    before: str  # the lines it stands in, blanks evened out
    after: str   # the same with the fault

    @property
    def key(self):
        """What knows it again after other lines of the file have changed."""
        return (self.file, self.before, self.after)


@dataclasses.dataclass
class Token:
    kind: str
    text: str
    begin: int
    end: int


class Source:
    """The tokens of a C++ source, without comments and preprocessor lines, and which brackets belong together."""

    def __init__(self, file, text):
        self.file = file
        self.text = text
        self.line_starts = [0] + [m.end() for m in re.finditer("\n", text)]
        self.comments = []
        self.tokens = []
        plain = re.sub(r"(?m)^[ \t]*#(?:[^\n\\]|\\.|\\\n)*", lambda m: re.sub(r"[^\n]", " ", m.group()), text)
        for m in TOKEN.finditer(plain):
            if m.lastgroup == "comment":
                self.comments.append(m.start())
            elif not m.group().isspace():
                kind = "text" if m.lastgroup == "tag" else m.lastgroup
                self.tokens.append(Token(kind, m.group(), m.start(), m.end()))
        self.partner = {}
        self.inside = []  # for each token the innermost bracket that is open before it, or -1
        open_brackets = []
        for i, token in enumerate(self.tokens):
            if token.kind == "sign" and token.text in (")", "]", "}") and open_brackets:
                opened = open_brackets.pop()
                self.partner[i], self.partner[opened] = opened, i
            self.inside.append(open_brackets[-1] if open_brackets else -1)
            if token.kind == "sign" and token.text in OPENING:
                open_brackets.append(i)

    def at(self, i):
        return self.tokens[i].text if 0 <= i < len(self.tokens) else ""

    def line_of(self, offset):
        return bisect.bisect_right(self.line_starts, offset)

    def spaced(self, i):
        """Whether there are blanks on both sides, as around a binary operator."""
        t = self.tokens[i]
        return self.text[t.begin - 1:t.begin].isspace() and self.text[t.end:t.end + 1].isspace()

    def is_operand_end(self, i):
        t = self.tokens[i] if 0 <= i < len(self.tokens) else None
        return t is not None and (t.text in (")", "]", "}") or
                                  (t.kind in ("word", "number", "text", "letter") and t.text not in ENDS))

    def is_binary(self, i):
        """Whether a sign is a binary operator: between two operands, with blanks around it."""
        return (self.tokens[i].kind == "sign" and self.at(i) in STRENGTH and self.spaced(i) and
                self.is_operand_end(i - 1) and self.at(i - 1) != "operator" and
                not (self.at(i) == ">" and self.at(i - 1) in ("template", ">")))

    def statement_begin(self, i):
        """The first token of the statement, or of the declaration, that token `i` is in at its own depth."""
        j = i
        while j > 0:
            left = self.at(j - 1)
            if left in (";", ":") or left in OPENING:
                break
            if left == "}":
                if self.is_statement_end(j - 1):
                    break
                j = self.partner.get(j - 1, j - 1)
                continue
            if left in (")", "]"):
                j = self.partner.get(j - 1, j - 1)
                continue
            j -= 1
        return j

    def is_statement_end(self, i):
        """Whether a closing brace ends a block and not a value such as Interval{1, 2}."""
        opened = self.partner.get(i, -1)
        before = self.tokens[opened - 1] if opened > 0 else None
        right = self.at(i + 1)
        if right in (".", "->", ",", ")", ";", "]") or (i + 1 < len(self.tokens) and self.is_binary(i + 1)):
            return False
        return before is None or before.end != self.tokens[opened].begin

    def operand_range(self, i, strength):
        """First and last token of the expression around token `i` whose operators bind as `strength` or more."""
        first = self.partner.get(i, i) if self.at(i) in (")", "]", "}") else i
        while first > 0:
            left = self.at(first - 1)
            token = self.tokens[first - 1]
            if token.kind in ("sign", "word") and (left in ENDS or left in OPENING):
                break
            if token.kind == "sign" and left in (")", "]", "}"):
                right = self.tokens[first]
                if left == "}" and self.is_statement_end(first - 1):
                    break
                if left == ")" and (right.kind in ("word", "number", "text") or right.text in ("!", "++", "--")):
                    break
                first = self.partner.get(first - 1, first - 1)
                continue
            if self.is_binary(first - 1) and STRENGTH[left] < strength:
                break
            first -= 1
        last = i
        while last + 1 < len(self.tokens):
            right = self.at(last + 1)
            token = self.tokens[last + 1]
            if token.kind == "sign" and (right in ENDS or right in (")", "]", "}")):
                break
            if token.kind == "sign" and right in OPENING:
                last = self.partner.get(last + 1, last + 1)
                continue
            if self.is_binary(last + 1) and STRENGTH[right] < strength:
                break
            last += 1
        return first, last

    def chain_begin(self, i):
        """The first token of `a.b(c)[d].e` that ends with token `i`."""
        while i > 0:
            left = self.at(i - 1)
            if left in (".", "->", "::"):
                i -= 1
            elif self.at(i) in (".", "->", "::") and left in (")", "]"):
                i = self.partner.get(i - 1, i - 1)
                if self.tokens[i - 1].kind == "word" or self.at(i - 1) in (")", "]"):
                    i -= 1
                    if self.at(i) in (")", "]"):
                        i = self.partner.get(i, i)
            elif self.at(i) in (".", "->", "::") and self.tokens[i - 1].kind == "word" and left not in ENDS:
                i -= 1
            else:
                break
        return i


class Finder:
    """All sites of one source."""

    def __init__(self, file, text):
        self.source = Source(file, text)
        self.sites = []
        self.left_out = self.ranges_left_out()

    def ranges_left_out(self):
        """Token ranges that a compiler has to know the value of: enumerators, static_assert, template heads."""
        source = self.source
        out = []
        for i, token in enumerate(source.tokens):
            if token.text in ("static_assert", "alignas", "noexcept", "decltype", "requires", "operator"):
                if source.at(i + 1) == "(":
                    out.append((i, source.partner.get(i + 1, i + 1)))
            elif token.text == "constexpr" and source.at(i - 1) == "if":
                out.append((i, source.partner.get(i + 1, i + 1)))
            elif token.text == "enum":
                j = i
                while j < len(source.tokens) and source.at(j) not in ("{", ";"):
                    j += 1
                out.append((i, source.partner.get(j, j)))
            elif token.text == "case":
                j = i
                while j < len(source.tokens) and source.at(j) != ":":
                    j += 1
                out.append((i, j))
            elif token.text == "[" and source.at(i + 1) == "[":
                out.append((i, source.partner.get(i, i)))
            elif token.text == "reserve" and source.at(i + 1) == "(":
                out.append((i, source.partner.get(i + 1, i + 1)))
        return out

    def is_left_out(self, i):
        return any(first <= i <= last for first, last in self.left_out)

    def add(self, first, last, kind, wrong):
        """A site from token `first` to token `last`."""
        source = self.source
        begin, end = source.tokens[first].begin, source.tokens[last].end
        if any(begin <= at < end for at in source.comments) or self.is_left_out(first):
            return
        right = source.text[begin:end]
        wrong = " ".join(wrong.split())
        if " ".join(right.split()) == wrong:
            return
        line_begin = source.text.rfind("\n", 0, begin) + 1
        line_end = source.text.find("\n", end)
        line_end = len(source.text) if line_end < 0 else line_end
        before = " ".join(source.text[line_begin:line_end].split())
        after = " ".join((source.text[line_begin:begin] + wrong + source.text[end:line_end]).split())
        self.sites.append(Site(source.file, source.line_of(begin), begin, end, kind, wrong, before, after))

    def replaced(self, first, last, i, wrong):
        """The text from token `first` to `last` with token `i` replaced."""
        text, tokens = self.source.text, self.source.tokens
        return text[tokens[first].begin:tokens[i].begin] + wrong + text[tokens[i].end:tokens[last].end]

    def find(self):
        for i, token in enumerate(self.source.tokens):
            if token.kind == "number":
                self.number(i)
            elif token.kind == "sign":
                self.sign(i)
            elif token.kind == "word":
                self.word(i)
        return self.sites

    def number(self, i):
        source = self.source
        t = source.tokens[i]
        before, behind = source.at(i - 1), source.at(i + 1)
        tight_left = source.text[t.begin - 1:t.begin]
        if tight_left == "<" or (behind == ">" and source.text[t.end] == ">"):
            return  # a template's argument
        if before == "[" and behind == "]":
            return
        if before == "=" and source.at(i - 2) in (")", "const", "override", "noexcept"):
            return  # a pure virtual function
        for wrong in wrong_numbers(t.text):
            self.add(i, i, "constant", wrong)

    def sign(self, i):
        source = self.source
        sign = source.at(i)
        if sign in ASSIGNMENTS and sign in ARITHMETIC:
            first = source.statement_begin(i)
            last = i
            while last + 1 < len(source.tokens) and source.at(last + 1) not in (";", ",", ")", "]", "}"):
                last = source.partner.get(last + 1, last + 1) if source.at(last + 1) in OPENING else last + 1
            if source.tokens[first].text not in ("for", "if", "while", "case", "else"):
                self.add(first, last, "operator", self.replaced(first, last, i, ARITHMETIC[sign]))
            return
        if sign == "?":
            first, _ = source.operand_range(i - 1, -1)
            condition = source.text[source.tokens[first].begin:source.tokens[i - 1].end]
            self.add(first, i - 1, "branch", f"!({condition})")
            return
        if sign not in STRENGTH or not source.is_binary(i):
            return
        first, last = source.operand_range(i, STRENGTH[sign])
        if sign in ARITHMETIC and not (sign == "+" and self.joins_text(first, last)):
            self.add(first, last, "operator", self.replaced(first, last, i, ARITHMETIC[sign]))
            if sign in ("+", "-", "*", "/"):
                self.operand_left_out(first, last, i)
        if sign in OPPOSITES:
            self.add(first, last, "comparison", self.replaced(first, last, i, OPPOSITES[sign]))
        if sign in EDGES:
            self.add(first, last, "bound", self.replaced(first, last, i, EDGES[sign]))

    def joins_text(self, first, last):
        return any(t.kind in ("text", "letter") or t.text in ("string", "fmt", "print")
                   for t in self.source.tokens[first:last + 1])

    def operand_left_out(self, first, last, i):
        """`a * b` without `* b`."""
        source = self.source
        end = i
        while end < last and (end == i or not source.is_binary(end + 1)):
            end = source.partner.get(end + 1, end + 1) if source.at(end + 1) in OPENING else end + 1
        text, tokens = source.text, source.tokens
        self.add(first, last, "operator",
                 text[tokens[first].begin:tokens[i - 1].end] + text[tokens[end].end:tokens[last].end])

    def word(self, i):
        source = self.source
        word = source.at(i)
        if word in ("true", "false"):
            self.add(i, i, "constant", "false" if word == "true" else "true")
        elif word == "if" and source.at(i + 1) == "(":
            self.condition(i + 1)
        elif word in CALLS and source.at(i + 1) == "(" and source.at(i - 1) == "::":
            first, last = source.chain_begin(i), source.partner.get(i + 1, i + 1)
            self.add(first, last, "bound", self.replaced(first, last, i, CALLS[word]))
        elif word in MEMBERS and source.at(i - 1) in (".", "->") and source.at(i - 2) not in ("{", ",", "("):
            first = source.chain_begin(i)
            last = source.partner.get(i + 1, i) if source.at(i + 1) == "(" else i
            self.add(first, last, "bound", self.replaced(first, last, i, MEMBERS[word]))

    def condition(self, opened):
        source = self.source
        first, last = opened + 1, source.partner.get(opened, opened) - 1
        for i in range(first, last + 1):
            if source.at(i) == ";" and source.inside[i] == opened:
                first = i + 1
        if any(source.at(i) == "=" and source.inside[i] == opened for i in range(first, last + 1)):
            return  # it declares something
        text = source.text[source.tokens[first].begin:source.tokens[last].end]
        for wrong in (f"!({text})", "true", "false"):
            self.add(first, last, "branch", wrong)


def wrong_numbers(text):
    """What a number could wrongly be, in the same type."""
    m = re.fullmatch(r"((?:\d[\d']*)?\.?(?:\d[\d']*)?(?:[eE][+-]?\d+)?)([uUlLzZfF]*)", text)
    if not m or not m.group(1):
        return []
    digits, suffix = m.group(1).replace("'", ""), m.group(2)
    if re.fullmatch(r"\d+", digits):
        if len(digits) > 1 and digits[0] == "0":
            return []
        value = int(digits)
        return [str(n) + suffix for n in ((value + 1, value - 1) if value else (1,))]
    value = float(digits)
    if value == 0:
        return ["1.0" + suffix]
    if abs(value) < 1e-4:
        return [repr(value * 1000) + suffix]
    if abs(value) > 1e12:
        return []
    return [repr(float(f"{value * by:.12g}")) + suffix for by in (1.1, 0.9)]


NAMED_NUMBER = re.compile(r'"(?P<name>[a-z_]+)"\s*:\s*(?P<value>-?\d+(?:\.\d+)?|true|false|\[[-\d.,\s]+\])')


def in_order(line):
    """Whether the low, typical and high of a figure that stands on one line rise. The larder's compiler refuses others."""
    figure = [re.search(rf'"{name}"\s*:\s*(-?[\d.]+)', line) for name in ("low", "typical", "high")]
    values = [float(m.group(1)) for m in figure if m]
    return values == sorted(values)


def find_in_data(file, text):
    """The sites of one of the larder's JSON files: its numbers and its yes and no."""
    sites = []

    def add(begin, end, wrong):
        line_begin = text.rfind("\n", 0, begin) + 1
        line_end = text.find("\n", end)
        before, after = text[line_begin:line_end], text[line_begin:begin] + wrong + text[end:line_end]
        if not in_order(after):
            return
        sites.append(Site(file, text.count("\n", 0, begin) + 1, begin, end, "constant", wrong,
                          " ".join(before.split()), " ".join(after.split())))

    for m in NAMED_NUMBER.finditer(text):
        value = m.group("value")
        if value in ("true", "false"):
            add(m.start("value"), m.end("value"), "false" if value == "true" else "true")
            continue
        for number in re.finditer(r"\d+(?:\.\d+)?", value):
            begin = m.start("value") + number.start()
            for by in (1.1, 0.9):
                wrong = f"{float(number.group()) * by:.12g}"
                if number.group() != wrong:
                    add(begin, begin + len(number.group()), wrong)
    return sites


def chosen(sites_by_room, shares, seed):
    """A fixed number of sites of each room, its kinds in turn, in an order that the seed decides for each room."""
    out = []
    for room in sorted(shares):
        dice = random.Random(f"{seed} {room}")
        sites = sites_by_room[room]
        by_kind = {kind: [s for s in sites if s.kind == kind] for kind in KINDS}
        for kind in KINDS:
            dice.shuffle(by_kind[kind])
        taken = set()
        while len(taken) < shares[room] and any(by_kind.values()):
            for kind in KINDS:
                # Not twice the same stretch: its other fault would mostly be caught by the same test.
                while by_kind[kind]:
                    site = by_kind[kind].pop()
                    if all((s.begin, s.end) != (site.begin, site.end) or s.file != site.file for s in taken):
                        taken.add(site)
                        out.append(site)
                        break
                if len(taken) >= shares[room]:
                    break
    return out
