"""Random recipes over the whole expression language of docs/language.md, for compare.py."""
import random
import re
import unicodedata

from evaluate import cell, check_kind, read, value_of
from reading import LENGTH, MASS, PLAIN, TEMPERATURE, TIME, VOLUME, Refused, Unsteady, Value, tokens

AREA, DENSITY = (0, 2, 0, 0, 0), (1, -3, 0, 0, 0)
IF, SUM, PRODUCT, RATE, SIGNED, POWER, PRIMARY = range(7)
FRACTION = re.compile("[0-9]/[0-9]|[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]")
HARD = "\x00"  # a blank that must stay one blank

NAMES = """cabbage_a carrot_b turnip_c x y k2 ratio1 packed filling häuptel rübe_2 crème капуста морква λάχανο αβ 白菜 大根_1 キャベツ
배추 łódź öl ñame_3 Zz Δt batch_size heads tin spare house_rate Perfect_1 if_any of_it per_head min_salt maxi g_total kgs2 perk
ქართული հայերեն ÅÅ हिंदी_नाम வணக்கம் été2 żur B b _""".split()[:-1]
LABELS = ['"cored"', '"a \\"fine\\" cut"', '"# not a comment"', '"back\\\\slash"', '"2-3 tbsp, 1,5 kg"', '"über {alles}"', '""']
COMMENTS = ["# plain", "#", '# "quoted', "# let z = 1", "# größer"]
UNITS = {
    MASS: [("g", 5, 900), ("kg", 0.1, 6), ("oz", 1, 90), ("lb", 0.2, 9), ("mg", 2000, 90000), ("grams", 5, 500),
           ("pounds", 1, 8)],
    VOLUME: [("mL", 20, 900), ("cL", 5, 80), ("dL", 1, 20), ("L", 0.2, 5), ("tsp", 1, 30), ("tbsp", 1, 30), ("cup", 0.5, 9),
             ("floz", 2, 30), ("pint", 0.5, 6), ("quart", 0.5, 4), ("gallon", 0.1, 2), ("us\0tsp", 1, 20), ("us\0tbsp", 1, 20),
             ("us\0cup", 0.5, 9), ("us\0floz", 1, 30), ("us\0pint", 0.5, 6), ("us\0quart", 0.5, 4), ("us\0gallon", 0.1, 2),
             ("metric\0tsp", 1, 30), ("metric\0tbsp", 1, 30), ("metric\0cup", 0.5, 8), ("imperial\0floz", 1, 30),
             ("imperial\0pint", 0.5, 6), ("imperial\0quart", 0.5, 3), ("imperial\0gallon", 0.1, 1), ("cm^3", 20, 900),
             ("in^3", 5, 90), ("litre", 0.2, 4), ("teaspoons", 1, 20)],
    LENGTH: [("mm", 5, 300), ("cm", 1, 40), ("m", 0.1, 2), ("in", 0.5, 15)],
    TIME: [("min", 5, 90), ("h", 0.5, 40), ("day", 0.5, 30), ("week", 0.5, 8)],
    TEMPERATURE: [("°C", 2, 90), ("°F", 35, 200)],
    AREA: [("cm^2", 5, 400), ("in^2", 1, 90), ("cm*mm", 50, 4000), ("m^2", 0.1, 1)],
    DENSITY: [("kg/L", 0.3, 1.4), ("g/mL", 0.3, 1.4), ("g/us\0cup", 80, 300), ("oz/floz", 0.4, 1.3), ("lb/gallon", 3, 10),
              ("g/cm^3", 0.3, 1.4), ("g/metric\0tbsp", 4, 20)],
    PLAIN: [("", 1, 12), ("", 0.1, 3), ("", 1, 4), ("%", 0.5, 60), ("%", 1, 9), ("g/kg", 20, 900), ("mL/L", 50, 900), ("oz/lb", 2, 15),
            ("day/week", 1, 7), ("kg/lb", 0.2, 2)],
}
COMPOUND = {MASS: [("lb", "oz"), ("kg", "g"), ("kg", "lb", "oz")], VOLUME: [("L", "mL"), ("cup", "tbsp", "tsp"), ("quart", "pint")],
            LENGTH: [("m", "cm", "mm")], TIME: [("h", "min"), ("week", "day", "h")]}
PRODUCTS = {MASS: [(VOLUME, DENSITY)], VOLUME: [(AREA, LENGTH)], AREA: [(LENGTH, LENGTH)]}
QUOTIENTS = {LENGTH: [(VOLUME, AREA), (AREA, LENGTH)], DENSITY: [(MASS, VOLUME)], VOLUME: [(MASS, DENSITY)], AREA: [(VOLUME, LENGTH)],
             PLAIN: [(MASS, MASS), (VOLUME, VOLUME), (TIME, TIME), (LENGTH, LENGTH)]}


class Piece:
    """Part of an expression: its text, how tightly it binds, and what stands unparenthesised in it."""

    def __init__(self, text, level, of=False, divided=False, fraction=False, bare=False):
        self.text, self.level, self.of, self.divided = text, level, of, divided
        self.bare = bare  # a name or in parentheses: blanks around the next operator are free
        self.fraction = fraction  # cannot stand straight before ^


class Writer:
    def __init__(self, seed):
        self.r = random.Random(seed)
        self.known = {}   # name -> dimension
        self.values = {}  # name -> (Value, kind)

    # --- amounts ---
    def number(self, low, high, plain=False):
        r = self.r
        sort = r.random()
        if sort < 0.35 and high >= 2:
            return str(r.randint(max(1, int(low)), int(high))), False
        if sort < 0.75 or high < 2:
            places = r.randint(1, 3) if low >= 0.1 or high > 3 else 3
            return f"{max(r.uniform(low, high), 10.0 ** -places):.{places}f}", False
        whole = r.randint(max(1, int(low)), int(high))
        bottom = r.choice([2, 3, 4, 5, 8, 16])
        top = r.randint(1, bottom - 1)
        if sort < 0.80:
            return f"{whole * bottom + top}/{bottom}", True
        if sort < 0.87:
            return f"{whole}{r.choice([' ', '  '])}{top}/{bottom}", True
        sign = r.choice("½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞")
        if sort < 0.9 and low <= 1:
            return sign, True
        return f"{whole}{r.choice(['', '', ' '])}{sign}", True

    def glue(self):
        return self.r.choice([" ", " ", " ", "", "  ", "\u00a0"])

    def literal(self, dimension):
        r = self.r
        if dimension in COMPOUND and r.random() < 0.15:
            parts = r.choice(COMPOUND[dimension])
            top = {"lb": 15, "oz": 12, "kg": 3, "g": 400, "m": 2, "cm": 90, "mm": 9, "min": 55, "h": 20, "day": 6, "L": 4,
                   "mL": 900, "cup": 8, "tbsp": 12, "tsp": 2, "quart": 4, "pint": 1, "week": 3}
            text = self.glue_words([f"{r.randint(1, top[u])}{self.glue()}{u}" for u in parts])
            return Piece(text, PRIMARY, fraction=True)
        unit, low, high = r.choice(UNITS[dimension])
        text, fraction = self.number(low, high)
        point = dimension == TEMPERATURE
        if r.random() < 0.12 and not point:
            middle = r.uniform(low + 0.2 * (high - low), high)
            first, second = f"{middle:.2f}", f"{middle * r.uniform(1.01, 1.15) + 0.01:.2f}"
            if r.random() < 0.4 and high > 8:
                first, second = str(int(middle) + 8), f"{int(middle) + 9}{r.choice(['', ' 1/2', '½', '.5'])}"
            dots = r.choice(["..", "..", " .. "])
            both = unit if r.random() < 0.2 else ""
            return Piece(f"{first}{self.glue() + both if both else ''}{dots}{second}{self.glue() + unit if unit else ''}", PRIMARY,
                         fraction=True)
        text += self.glue() + unit if unit else ""
        if r.random() < 0.1 and not fraction:
            sign = r.choice([" ± ", "±", " +/- ", " +/-"])
            if unit and unit != "%" and not point and r.random() < 0.5:
                text += f"{sign}{r.choice(['1', '2', '0.5'])}{self.glue()}%"
            else:
                small = f"{r.uniform(0.001, 0.02) * low:.5f}"
                text += f"{sign}{small}{self.glue() + unit if unit else ''}"
            fraction = True
        return Piece(text, PRIMARY, fraction=fraction or bool(unit))

    def glue_words(self, words):
        return "".join(w + self.r.choice([" ", " ", "  "]) for w in words).rstrip()

    # --- expressions ---
    def inside(self, piece, level, no_of=False, no_divided=False):
        """The piece's text, in parentheses if it must be (or, now and then, if it need not)."""
        must = piece.level < level or no_of and piece.of or no_divided and piece.divided
        if must or self.r.random() < 0.06:
            pad = self.r.choice(["", "", " "])
            return Piece(f"({pad}{piece.text}{pad})", PRIMARY, bare=True)
        return piece

    def infix(self, a, op, b, free=True):
        if free and a.bare and b.bare and self.r.random() < 0.3:
            return f"{a.text}{op}{b.text}"
        return f"{a.text}{self.r.choice([' ', ' ', ' ', '  ', chr(9)])}{op}{self.r.choice([' ', ' ', ' ', '  '])}{b.text}"

    def name(self, dimension):
        fitting = [n for n, d in self.known.items() if d == dimension]
        if not fitting:
            return None
        name = self.r.choice(fitting)
        return Piece(unicodedata.normalize(self.r.choice(["NFC", "NFD"]), name), PRIMARY, bare=True)

    def leaf(self, dimension):
        if self.r.random() < 0.5:
            return self.name(dimension) or self.literal(dimension)
        return self.literal(dimension)

    def expression(self, dimension, depth):
        r = self.r
        if dimension == TEMPERATURE:
            return self.temperature()
        if depth <= 0 or r.random() < 0.12:
            return self.leaf(dimension)
        ways = [self.sum, self.sum, self.times, self.times, self.of, self.over, self.function, self.choice, self.negative,
                self.rounded]
        if dimension in PRODUCTS or dimension in QUOTIENTS:
            ways += [self.composed, self.composed, self.composed]
        if dimension in (MASS, VOLUME):
            ways += [self.per, self.per]
        if dimension in (PLAIN, AREA, VOLUME):
            ways += [self.power, self.power]
        return r.choice(ways)(dimension, depth - 1)

    def temperature(self):
        piece = self.leaf(TEMPERATURE)
        if self.r.random() < 0.3:
            return Piece(f"{piece.text} {self.r.choice('+-')} {self.r.randint(1, 12)} {self.r.choice(['°C', '°F'])}", SUM)
        return piece

    def sum(self, dimension, depth):
        a = self.inside(self.expression(dimension, depth), SUM, no_of=True)
        b = self.inside(self.expression(dimension, depth), PRODUCT, no_of=True)
        return Piece(self.infix(a, self.r.choice("++-"), b), SUM)

    def join(self, a, op, b):
        a = self.inside(a, PRODUCT, no_divided=op == "of")
        b = self.inside(b, RATE)
        if op == "/" and not b.bare and FRACTION.search(b.text):
            b = Piece(f"({b.text})", PRIMARY, bare=True)
        divided = a.divided or op == "/"
        if op == "of" and b.text.lstrip().startswith("-"):
            b = Piece(f"({b.text})", PRIMARY, bare=True)
        if op == "of" and a.text.lstrip().startswith("-"):
            a = Piece(f"({a.text})", PRIMARY, bare=True)
        return Piece(self.infix(a, op, b, op != "of"), PRODUCT, of=a.of or op == "of", divided=divided)

    def times(self, dimension, depth):
        a, b = self.expression(PLAIN, depth), self.expression(dimension, depth)
        return self.join(a, "*", b) if self.r.random() < 0.5 else self.join(b, "*", a)

    def of(self, dimension, depth):
        return self.join(self.expression(PLAIN, depth), "of", self.expression(dimension, depth))

    def over(self, dimension, depth):
        return self.join(self.expression(dimension, depth), "/", self.expression(PLAIN, depth))

    def composed(self, dimension, depth):
        ways = [("*",) + x for x in PRODUCTS.get(dimension, [])] + [("/",) + x for x in QUOTIENTS.get(dimension, [])]
        op, a, b = self.r.choice(ways)
        if op == "/" and self.r.random() < 0.3:
            unit = self.r.choice([u for u, _, _ in UNITS[b] if u and "°" not in u] or [""])
            if "%" not in unit:
                left = self.inside(self.expression(a, depth), PRODUCT)
                gap = self.r.choice([" / ", " / ", "/"]) if left.bare and left.level == PRIMARY else " / "
                return Piece(f"{left.text}{gap}{unit}", PRODUCT, of=left.of, divided=left.divided)
        if op == "*" and self.r.random() < 0.3:
            a, b = b, a
        return self.join(self.expression(a, depth), op, self.expression(b, depth))

    def per(self, dimension, depth):
        """AMOUNT per AMOUNT of AMOUNT"""
        through = self.r.choice([MASS, VOLUME, TIME])
        a = self.inside(self.leaf(dimension), SIGNED)
        if self.r.random() < 0.5:
            unit = self.r.choice([u for u, _, _ in UNITS[through]])
            rate = Piece(f"{a.text} per {unit}", RATE)
        else:
            rate = Piece(f"{a.text}  per {self.inside(self.expression(through, depth - 1), SIGNED).text}", RATE)
        if self.r.random() < 0.7:
            return self.join(rate, "of", self.expression(through, depth - 1))
        return self.join(self.expression(through, depth - 1), "*", rate)

    def function(self, dimension, depth):
        r = self.r
        if r.random() < 0.6:
            args = [self.expression(dimension, depth).text for _ in range(r.randint(2, 4))]
            return Piece(f"{r.choice(['min', 'max'])}({', '.join(args)})", PRIMARY, bare=True)
        if r.random() < 0.5:
            return Piece(f"abs({self.expression(dimension, depth).text})", PRIMARY, bare=True)
        a, b = self.expression(dimension, depth), self.expression(dimension, depth)
        return Piece(f"sqrt( {self.join(a, '*', b).text} )", PRIMARY, bare=True)

    def rounded(self, dimension, depth):
        how = self.r.choice(["round", "floor", "ceil"])
        if dimension == PLAIN and self.r.random() < 0.5:
            tie = self.r.choice([None, None, "2.5", "-2.5", "7/2", "3", "- 0.5 * 7"])
            return Piece(f"{how}({tie or '10 * ' + self.inside(self.expression(PLAIN, depth), RATE).text})", PRIMARY, bare=True)
        step = {MASS: ["5 g", "0.1 g", "1/4 oz", "1 g"], VOLUME: ["5 mL", "½ tsp", "0.1 cL"], LENGTH: ["1 mm", "0.5 cm"],
                TIME: ["15 min", "1 h"], PLAIN: ["0.05", "0.5 %", "1/8"], AREA: ["1 cm^2"], DENSITY: ["0.01 kg/L"]}[dimension]
        if dimension == MASS and self.r.random() < 0.2:
            ties = ["round(17.5 g, 5 g)", "round(12.5 g, 5 g)", "floor(15 g, 5 g)", "ceil(15 g, 5 g)"]
            return Piece(self.r.choice(ties), PRIMARY)
        return Piece(f"{how}({self.expression(dimension, depth).text}, {self.r.choice(step)})", PRIMARY, bare=True)

    def negative(self, dimension, depth):
        a = self.inside(self.expression(dimension, depth), SIGNED, no_of=True)
        if self.r.random() < 0.5:
            return Piece(f"abs(-{self.glue()}{a.text})", PRIMARY, bare=True)
        b = self.inside(self.expression(dimension, depth), PRODUCT, no_of=True)
        return Piece(f"{b.text} - -{a.text}", SUM)

    def power(self, dimension, depth):
        r = self.r
        if dimension != PLAIN:
            base = Piece(f"({self.leaf(LENGTH).text})", PRIMARY)
            return Piece(f"{base.text}{r.choice(['^', ' ^ '])}{2 if dimension == AREA else 3}", POWER)
        base = self.inside(self.expression(PLAIN, depth), PRIMARY)
        if base.fraction:
            base = Piece(f"({base.text})", PRIMARY)
        if r.random() < 0.35:
            return Piece(f"{base.text}^({self.expression(PLAIN, depth - 1).text})", POWER)
        sign = r.choice(["", "", "-", " -"])
        return Piece(f"{base.text}{r.choice(['^', ' ^ '])}{sign}{r.randint(0, 4)}", POWER)

    def comparison(self, depth):
        dimension = self.r.choice([PLAIN, PLAIN, MASS, MASS, VOLUME, TIME, LENGTH, TEMPERATURE])
        op = self.r.choice(["<", "<=", ">", ">=", "≤", "≥"])
        if self.r.random() < 0.1:
            return f"{self.r.choice(['3', '2.5'])} {op} {self.r.choice(['3', '2.5'])}"
        a, b = (self.inside(self.expression(dimension, depth), SUM) for _ in range(2))
        return f"{a.text} {op} {b.text}"

    def condition(self, depth):
        r, sort = self.r, self.r.random()
        if depth <= 0 or sort < 0.45:
            return self.comparison(depth - 1)
        if sort < 0.6:
            return f"not {self.comparison(depth - 1)}"
        if sort < 0.7:
            return f"{r.choice(['not ', ''])}({self.condition(depth - 1)})"
        return self.glue_words([self.condition(depth - 1), r.choice(["and", "or"]), self.condition(depth - 1)])

    def choice(self, dimension, depth):
        yes, no = self.expression(dimension, depth).text, self.expression(dimension, depth).text
        return Piece(f"if {self.condition(depth)} then {yes} else {no}", IF)

    # --- lines ---
    def lookup(self, name):
        return read(*self.values[name])

    def line(self, kind, name, dimension, depth, low, high, tail=""):
        """A line whose value is between low and high, or None."""
        for _ in range(60):
            text = self.expression(dimension, depth).text
            if kind == "count" and dimension == PLAIN and self.r.random() < 0.3:
                mass = self.name(MASS) or self.literal(MASS)
                each = self.r.choice(["kg", "lb", "300 g"])
                text = f"{self.number(1, 9)[0]}{self.r.choice(['', ' piece'])} per {each} of {mass.text}"
            text = f"{kind} {name}{self.r.choice([' = ', ' = ', '=', '  =  '])}{text}{tail}".replace(HARD, " ")
            if len(text) > 900:
                continue
            try:
                one = cell(tokens(text))
                value = value_of(one.node, self.lookup)
                check_kind(one, value)
            except (Refused, Unsteady, OverflowError, ZeroDivisionError) as problem:
                if isinstance(problem, Refused) and str(problem) not in (
                        "not finite", "division by zero", "the root of a negative", "exponent of a dimension above 12",
                        "zero to the power of nothing or less", "the root of an odd dimension"):
                    raise AssertionError(f"written against the reference: {text!r}: {problem}") from problem
                continue
            if not low <= value.v <= high or value.v <= 2 * value.w or value.e > 1e-13 * value.v:
                continue
            self.known[name], self.values[name] = value.d, (value, kind)
            return text
        return None

    def tail(self, role):
        r = self.r
        text = f" counts as {role}" if r.random() < 0.9 else f"\tcounts  as  {role} "
        if r.random() < 0.3:
            text += " " + r.choice(LABELS)
            if r.random() < 0.3:
                text += "\n   " + r.choice(LABELS)
        return text


def recipe(seed):
    """The text of one random recipe."""
    w = Writer(seed)
    r = w.r
    names = r.sample(NAMES, len(NAMES))
    lines = []

    def add(kind, dimension, depth, low, high, tail="", shown=None):
        name = names.pop()
        got = w.line(kind, name, dimension, depth, low, high, "")
        if got:
            if r.random() < 0.5:
                got = got.replace(f"{kind} {name}", f"{kind} {unicodedata.normalize('NFD', name)}", 1)
            lines.append(got + tail)
        return name if got else None

    add("given", MASS, 0 if r.random() < 0.7 else 2, 50, 400000, w.tail("vegetable"))
    for _ in range(r.randint(1, 4)):
        dimension = r.choice([PLAIN, PLAIN, MASS, VOLUME, DENSITY, LENGTH, AREA, TIME, TEMPERATURE])
        add("let", dimension, r.randint(0, 3), 1e-4, 1e8, " " + r.choice(LABELS) if r.random() < 0.15 else "")
    optional = 0
    for _ in range(r.randint(2, 7)):
        kind = r.choice(["given", "weigh", "weigh", "weigh", "count", "let"])
        if kind == "let":
            add("let", r.choice([PLAIN, MASS, VOLUME, DENSITY]), r.randint(1, 4), 1e-4, 1e8)
            continue
        # Salt has a line of its own below: more of it than half of everything else is asked about.
        role = r.choice(["vegetable", "vegetable", "aromatic", "other"] if kind != "count" else ["aromatic", "other"])
        tail = w.tail(role)
        if kind != "given" and optional < 2 and r.random() < 0.05:
            optional, tail = optional + 1, " optional" + tail
        if kind == "given":
            add("given", MASS, r.choice([0, 0, 1, 2]), 50, 400000, tail)
        elif kind == "weigh":
            add("weigh", MASS, r.randint(1, 4), 0.01, 500000, tail)
        else:
            add("count", PLAIN, r.randint(0, 3), 0.01, 5000, tail)
    if r.random() < 0.3 and len(names) > 4:
        whole = add("total", MASS, r.choice([0, 1]), 200, 400000)
        if whole:
            percent, form = r.randint(5, 95), r.randint(0, 2)
            first, second = names.pop(), names.pop()
            parts = [(f"{percent} % of {whole}", f"{100 - percent} % of {whole}"), (f"1/3 of {whole}", f"2/3 of {whole}"),
                     (f"(1 - {percent} %) of {whole}", f"{percent}% of {whole}")][form]
            lines += [f"share {first} = {parts[0]}{w.tail('vegetable')}", f"share {second} = {parts[1]}{w.tail('vegetable')}"]
    if r.random() < 0.6:
        lines.append(f"weigh {names.pop()} = {r.randint(1, 40) / 10} % of all_produce counts as salt")
    masses = [n for n, (v, kind) in w.values.items() if kind in ("given", "weigh")]
    if masses and r.random() < 0.3:
        lines.append('step "Put {' + r.choice(masses) + '} by, {{ and }}."')
    lines.append(r.choice(['note "the # in a text is a character"', "", "   ", 'by "Ferry Lane"']))
    r.shuffle(lines)
    lines.insert(0 if r.random() < 0.9 else r.randint(0, len(lines)), f'recipe "Number {seed}" version {r.randint(1, 9)}')
    if r.random() < 0.2:
        lines.insert(0, "language 1")
    out = []
    for line in lines:
        if r.random() < 0.1:
            out.append(r.choice(COMMENTS + [""]))
        if r.random() < 0.2:
            line += r.choice(["  ", " ", "\t"]) + r.choice(COMMENTS)
        out.append(r.choice(["", "", "", "  ", "\t", "\u00a0", "\u2009\u202f"]) + line)
    end = "\r\n" if r.random() < 0.15 else "\n"
    return ("\ufeff" if r.random() < 0.1 else "") + "\n".join(out).replace("\n", end) + (end if r.random() < 0.8 else "")
