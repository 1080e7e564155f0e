"""A second reading of docs/language.md, "How sure it is": what a batch may really come to.

Written from the language reference alone, like evaluate.py. It takes the numbers that are printed (what the cook waits
for, on which scale) and works out, for any world of true weights that they allow, the salt and every bound of the house.
It knows `given`, `weigh`, `cap`, `let`, `measure`, `hold`, `material` and `kind`, optional and discarded lines.
"""
import itertools
import random

from reading import Parser, Refused, tokens

BASIS = {"kraut": "salt / vegetables", "mixed": "salt / (vegetables + water)", "kimchi": "salt / everything"}
QUANTITIES = ("given", "weigh", "cap", "let", "measure")
MOST_CORNERS = 2048


class Line:
    def __init__(self, word, name):
        self.word, self.name, self.node = word, name, None
        self.optional = self.discarded = self.replaced = False
        self.keeps = self.share = self.share_of = self.replaces = self.role = self.material = None


class Hold:
    def __init__(self, text, value):
        self.text, self.value, self.low, self.high = text, value, None, None


def literal(parser):
    """(low, high) of an amount."""
    value = parser.amount()[1]
    value = value[0] if isinstance(value, tuple) else value
    return value.v - value.w, value.v + value.w


class Recipe:
    def __init__(self, text):
        self.lines, self.holds, self.materials, self.kind = {}, [], {}, None
        for line in text.split("\n"):
            line = line.strip()
            if line and line[0] not in '#"':
                self.read(line, tokens(line))
        for one in self.lines.values():
            if one.replaces:
                old = self.lines[one.replaces]
                old.replaced, one.role, one.material = True, one.role or old.role, one.material or old.material
        for one in self.lines.values():
            if one.material in self.materials and not one.role:
                one.role = self.materials[one.material][0]
        self.steady = not any(word in text for word in ("min(", "max(", "round(", "floor(", "ceil(", "abs(", "if "))

    def read(self, line, toks):
        word, parser = toks[0][1], Parser(toks)
        parser.i = 1
        if word == "kind":
            self.kind = toks[1][1]
        elif word == "material":
            self.material(parser)
        elif word == "hold":
            self.hold(line, parser)
        elif word in QUANTITIES:
            one = Line(word, toks[1][1])
            self.lines[one.name] = one
            parser.i = 2
            if word == "measure":
                parser.need("about")
                one.share = literal(parser)
                one.share_of = self.word_after(parser, "of")
                one.replaces = self.word_after(parser, "replaces")
            else:
                parser.need("=")
                one.node = parser.expr()
            self.tail(one, parser)

    @staticmethod
    def word_after(parser, word):
        if not parser.take(word):
            return None
        parser.i += 1
        return parser.peek(-1)[1]

    def tail(self, one, parser):
        one.optional = bool(parser.take("optional"))
        one.discarded = bool(parser.take("discarded"))
        if parser.take("keeps"):
            one.keeps = literal(parser)
        if parser.take("as"):
            words = []
            while parser.peek()[0] == "word" and not parser.at("counts"):
                words.append(parser.peek()[1])
                parser.i += 1
            one.material = " ".join(words)
            one.role = "salt" if one.material.endswith("salt") else "water" if one.material == "water" else None
        if parser.take("counts"):
            parser.need("as")
            one.role = parser.peek()[1]
            parser.i += 1
        if not one.role and one.word != "let" and not one.replaces:
            one.role = {"salt": "salt", "water": "water"}.get(one.name) or (None if one.material else "vegetable")
        if parser.peek()[0] not in ("end", "text"):
            raise Refused(f"not understood: {parser.peek()[1]!r}")

    def material(self, parser):
        name = parser.peek()[1].strip('"')
        parser.i += 1
        parser.need("is")
        role = parser.peek()[1]
        parser.i += 1
        contents = {"salt": None, "water": None}
        while (word := parser.take("salt", "water")):
            contents[word] = literal(parser)
        self.materials[name] = (role, contents)

    def hold(self, line, parser):
        one = Hold(line, parser.sum())
        if parser.take("between"):
            one.low = parser.sum()
            parser.need("and")
            one.high = parser.sum()
        else:
            parser.need("at")
            if parser.take("least"):
                one.low = parser.sum()
            else:
                parser.need("most")
                one.high = parser.sum()
        self.holds.append(one)

    def toggles(self):
        return [x for x in self.lines.values() if x.optional or x.word == "cap"]

    def variants(self):
        """(text, names that count as nothing) of each combination but the whole."""
        both_ways = self.toggles()
        for mask in range(1, 2 ** len(both_ways)):
            out = [x for i, x in enumerate(both_ways) if mask >> i & 1]
            text = ", ".join(f"before the {x.name} on top dissolves" if x.word == "cap" else f"without {x.name}"
                             for x in out)
            yield text, frozenset(x.name for x in out)


class Scales:
    """What the scales of a kitchen may be off."""

    def __init__(self, text):
        self.off = {}
        for line in text.split("\n"):
            toks = tokens(line) if line.strip() else [("end", "", True)]
            if toks[0][1] != "scale":
                continue
            parser, within, step = Parser(toks), None, None
            parser.i = 2
            while parser.peek()[0] != "end":
                word = parser.take("reads", "within")
                if word:
                    low, _ = literal(parser)
                    step, within = (low, within) if word == "reads" else (step, low)
                else:
                    parser.i += 1
            self.off[toks[1][1]] = (step if within is None else within) + step / 2


class Worlds:
    """Every world that the printed numbers allow, as a box of variables."""

    def __init__(self, recipe, sheet, scales):
        self.recipe, self.box, self.code, self.literals = recipe, [], [], {}
        self.printed = {x["name"]: x for x in sheet["givens"] + sheet["items"]}
        self.scales, self.done = scales, set()
        for name in recipe.lines:
            self.define(name)
        self.contents()
        out = [f"({BASIS[recipe.kind]} * 100)" if recipe.kind else "0"]
        for hold in recipe.holds:
            value = self.expression(hold.value)
            out += [value, self.expression(hold.low) if hold.low else "0", self.expression(hold.high) if hold.high else "0"]
        source = "def world(x, absent):\n " + "\n ".join(self.code) + "\n return " + ", ".join(out) + ",\n"
        space = {"inf": float("inf")}
        exec(compile(source, "world", "exec"), space)  # generated from the recipe just above
        self.world = space["world"]

    def variable(self, low, high):
        if high <= low:
            return repr(low)
        self.box.append((low, high))
        return f"x[{len(self.box) - 1}]"

    def define(self, name):
        if name in self.done:
            return
        self.done.add(name)
        one = self.recipe.lines[name]
        if one.word == "let":
            truth = self.expression(one.node)
        elif one.word == "measure":
            share = self.variable(*one.share)
            truth = share
            if one.share_of:
                self.define(one.share_of)
                truth = f"{share} * q_{one.share_of}"
        else:
            truth = self.weighed(one)
        self.code.append(f"q_{name} = 0.0 if '{name}' in absent else {truth}")

    def weighed(self, one):
        item = self.printed[one.name]
        # What the scale cannot show goes in by the spoon: no more than the scale would have shown.
        off = sum(self.scales.off[p["scale"]] for p in item["portions"]) or self.scales.off[item["scale"]]
        if one.word == "given" and one.node[0] == "amount":
            value = one.node[1]
            off = max(value.w, off)
        reading = item["reading_g"]
        return self.variable(max(0.0, reading - off), reading + off)

    def expression(self, node):
        sort = node[0]
        if sort == "amount":
            if id(node) not in self.literals:
                value = node[1][0] if isinstance(node[1], tuple) else node[1]
                self.literals[id(node)] = self.variable(value.v - value.w, value.v + value.w)
            return self.literals[id(node)]
        if sort == "name":
            if node[1] in ("all_produce", "all_salt", "all_water", "everything"):
                raise Refused("totals are not read in expressions here")
            self.define(node[1])
            return f"q_{node[1]}"
        if sort == "paren":
            return f"({self.expression(node[1])})"
        if sort == "neg":
            return f"(-{self.expression(node[1])})"
        if sort == "call":
            args = [self.expression(x) for x in node[2]]
            if node[1] in ("min", "max", "abs"):
                return f"{node[1]}({', '.join(args)})"
            raise Refused(f"{node[1]} is not read here")
        if sort in ("+", "-", "*", "/"):
            return f"({self.expression(node[1])} {sort} {self.expression(node[2])})"
        raise Refused(f"{sort} is not read here")

    def contents(self):
        """What each line adds to the totals, by its role."""
        sums = {"salt": [], "vegetables": [], "water": [], "everything": []}
        known = {}

        def content(one, what, otherwise):
            if one.material not in self.recipe.materials:
                return otherwise
            spread = self.recipe.materials[one.material][1][what]
            if not spread:
                return otherwise
            if (one.material, what) not in known:
                known[one.material, what] = self.variable(*spread)
            return known[one.material, what]

        for one in self.recipe.lines.values():
            if one.word == "let" or one.replaced:
                continue
            mass = f"q_{one.name}"
            salt = content(one, "salt", "1.0" if one.role == "salt" else None)
            if one.discarded:
                if one.role == "salt":
                    kept = f"{mass} * {self.variable(*one.keeps)}"
                    sums["salt"].append(kept)
                    sums["everything"].append(kept)
                continue
            sums["everything"].append(mass)
            if salt and one.role != "water":
                sums["salt"].append(f"{mass} * {salt}")
            if one.role == "vegetable":
                sums["vegetables"].append(mass)
            if one.role == "water":
                sums["water"].append(mass)
            if one.role == "seasoning":
                sums["water"].append(f"{mass} * {content(one, 'water', '0.0')}")
        for name, parts in sums.items():
            self.code.append(f"{name} = {' + '.join(parts) or '0.0'}")

    def points(self, seed):
        """Corners of the box (all of them where there are not too many), and points inside."""
        r = random.Random(seed)
        size = len(self.box)
        if 2 ** size <= MOST_CORNERS:
            yield from itertools.product(*self.box)
        else:
            for _ in range(MOST_CORNERS):
                yield [r.choice(ends) for ends in self.box]
        for _ in range(40):
            yield [r.uniform(*ends) for ends in self.box]

    def climbed(self, absent, of, seed):
        """The extremes of one figure, each variable going to its better end in turn, from a few corners."""
        r = random.Random(seed)
        ends = []
        for sign in (-1, 1):
            best = None
            for _ in range(3):
                point = [r.choice(both) for both in self.box]
                value, changed = sign * of(self.world(point, absent)), True
                while changed:
                    changed = False
                    for i, both in enumerate(self.box):
                        other = point[:i] + [both[0] if point[i] == both[1] else both[1]] + point[i + 1:]
                        there = sign * of(self.world(other, absent))
                        if there > value:
                            point, value, changed = other, there, True
                best = value if best is None else max(best, value)
            ends.append(sign * best)
        return ends
