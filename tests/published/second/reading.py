"""Units, words and expressions of docs/language.md, read a second time (see evaluate.py)."""
import math
import re
import unicodedata
from fractions import Fraction

EPS = 2.0 ** -52
PLAIN = (0, 0, 0, 0, 0)  # exponents of mass, length, time, temperature, pieces
MASS, LENGTH, TIME, TEMPERATURE, PIECE = (tuple(int(i == j) for i in range(5)) for j in range(5))
VOLUME = (0, 3, 0, 0, 0)
TRUTH = "truth"  # what a comparison gives

INCH = Fraction(254, 100)             # cm: 25.4 mm exactly. NIST SP 811, Appendix B.8, "inch"
POUND = Fraction(45359237, 100000)    # g. NIST SP 811, Appendix B.8, "pound (avoirdupois)"; NIST Handbook 44, Appendix C
GALLON_US = 231 * INCH ** 3           # mL: 231 cubic inches. NIST Handbook 44, Appendix C, "gallon"
GALLON_UK = Fraction(454609, 100)     # mL. NIST SP 811, Appendix B.8, "gallon [Canadian and U.K. (Imperial)]"
FLOZ_US = GALLON_US / 128             # NIST Handbook 44, Appendix C, units of liquid volume
FLOZ_UK = GALLON_UK / 160             # by division, 160 fluid ounces to the imperial gallon

SIMPLE = {
    "mg": (Fraction(1, 1000), MASS), "g": (1, MASS), "kg": (1000, MASS),  # decimal prefixes: NIST SP 811, section 4.4
    "oz": (POUND / 16, MASS), "lb": (POUND, MASS),  # 16 oz to the lb: NIST Handbook 44, Appendix C
    "mL": (1, VOLUME), "cL": (10, VOLUME), "dL": (100, VOLUME), "L": (1000, VOLUME),  # 1 L = 1 dm3: SP 811, table 6
    "mm": (Fraction(1, 10), LENGTH), "cm": (1, LENGTH), "m": (100, LENGTH), "in": (INCH, LENGTH),
    "min": (60, TIME), "h": (3600, TIME), "day": (86400, TIME), "week": (604800, TIME),  # SP 811, table 6
    "piece": (1, PIECE), "%": (Fraction(1, 100), PLAIN),  # percent: SP 811, section 7.10.2
    "°C": (1, TEMPERATURE), "°F": (Fraction(5, 9), TEMPERATURE),  # NIST SP 811, Appendix B.8
}
ZERO = {"°C": Fraction(27315, 100), "°F": Fraction(45967, 100) * Fraction(5, 9)}  # K. NIST SP 811, Appendix B.8
PREFIXED = {
    "us": {"tsp": FLOZ_US / 6, "tbsp": FLOZ_US / 2, "cup": FLOZ_US * 8, "floz": FLOZ_US, "pint": GALLON_US / 8,
           "quart": GALLON_US / 4, "gallon": GALLON_US},  # NIST SP 811, Appendix B.8 (printed there rounded)
    "metric": {"tsp": 5, "tbsp": 15, "cup": 250},  # the metric kitchen's round measures: common practice
    "imperial": {"floz": FLOZ_UK, "pint": GALLON_UK / 8, "quart": GALLON_UK / 4, "gallon": GALLON_UK},
}
SPELLINGS = {"litre": "L", "grams": "g", "pounds": "lb", "teaspoons": "tsp"}  # those that the reference names
RESERVED = set("""language recipe kitchen house batch kind version by source note material is given total share weigh
count let measure brine fill headspace topup cap hold step rest tend ready keep scale jar crock spoons room based on of
per and or not if then else between at least most to about replaces make optional discarded keeps as counts each every
from day for reads up within holds brimful across section weights have density piece min max abs round floor ceil sqrt
cover all_salt all_water everything true false""".split())
NUMBERS = ("whole", "decimal", "vulgar")
FUNCTIONS = ("min", "max", "abs", "sqrt", "round", "floor", "ceil")
VALUED = ("given", "total", "share", "weigh", "count", "let")
ROLES = ("vegetable", "salt", "water", "aromatic", "seasoning", "acid", "other")


class Refused(Exception):
    """The reference does not allow this."""


class Unsteady(Exception):
    """Allowed, but the value may turn on the last bit: no fair comparison."""


class Value:
    """A number in base units with a bound of its rounding error, the half width of what is stated about it, its
    dimension, and whether it is an exact small number that every correct evaluator must get exactly."""
    __slots__ = ("v", "e", "w", "d", "exact")

    def __init__(self, v, d, e=None, w=0.0, exact=False):
        if d is not TRUTH:
            if not math.isfinite(v):
                raise Refused("not finite")
            if any(abs(x) > 12 for x in d):
                raise Refused("exponent of a dimension above 12")
        self.v, self.d, self.w, self.exact = v, d, w, exact
        self.e = 2 * EPS * abs(v) if e is None else e


# --- words -----------------------------------------------------------------------------------------------------

MARKS = "".join(c for c in map(chr, range(0x250, 0x20000)) if unicodedata.category(c)[0] == "M")
TOKEN = re.compile(r"""
    (?P<blank>[ \t\u00a0\u2009\u202f]+)
    |(?P<text>"(?:[^"\\]|\\["\\])*")
    |(?P<decimal>[0-9]+\.[0-9]+)
    |(?P<whole>[0-9]+)
    |(?P<vulgar>[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒])
    |(?P<word>°[CF]|[^\W\d_](?:[\wMARKS](?<![½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒]))*)
    |(?P<sign>\.\.|\+/-|<=|>=|[±≤≥<>+\-*/^(),%=])""".replace("MARKS", MARKS), re.X)


def tokens(line):
    """The words of one line: (sort, text, whether a blank stands before it)."""
    line, out, at, blank = unicodedata.normalize("NFC", line), [], 0, True
    while at < len(line):
        if line[at] == "#":
            break
        found = TOKEN.match(line, at)
        if not found:
            raise Refused(f"cannot read {line[at:at + 8]!r}")
        at = found.end()
        if found.lastgroup == "blank":
            blank = True
            continue
        if found.lastgroup == "word" and len(found.group()) > 64:
            raise Refused("name too long")
        if found.group() == "," and out and out[-1][0] in ("whole", "decimal") and line[at:at + 1].isdigit():
            raise Refused("a comma between numbers needs a blank after it")
        out.append((found.lastgroup, found.group(), blank))
        blank = False
    return out + [("end", "", True)]


# --- expressions -----------------------------------------------------------------------------------------------
# Nodes: ("amount", Value, what) ("name", n) ("call", f, [..]) ("paren", x) ("neg", x) ("if", c, a, b)
#        (operator, a, b), where what is a set of "whole" "fraction" "unit" "range" "degree".

class Parser:
    def __init__(self, toks, spoons="us"):
        self.t, self.i, self.spoons, self.depth = toks, 0, spoons, 0

    def peek(self, ahead=0):
        return self.t[min(self.i + ahead, len(self.t) - 1)]

    def at(self, *texts):
        return self.peek()[0] in ("word", "sign") and self.peek()[1] in texts

    def take(self, *texts):
        if self.at(*texts):
            self.i += 1
            return self.t[self.i - 1][1]
        return None

    def need(self, text):
        if not self.take(text):
            raise Refused(f"expected {text}, found {self.peek()[1]!r}")

    def deeper(self):
        self.depth += 1
        if self.depth > 61:  # the expression itself is no level
            raise Refused("nested too deep")

    def expr(self):
        self.deeper()
        if self.take("if"):
            condition = self.condition()
            self.need("then")
            yes = self.expr()
            self.need("else")
            node = ("if", condition, yes, self.expr())
        else:
            node = self.condition()
        self.depth -= 1
        return node

    def condition(self):
        return self.chain(self.conjunction, "or")

    def conjunction(self):
        return self.chain(self.negation, "and")

    def chain(self, part, *operators):
        node = part()
        while (op := self.take(*operators)):
            node = (op, node, part())
        return node

    def negation(self):
        if self.take("not"):
            return ("not", self.negation())
        node = self.sum()
        op = self.take("<", "<=", "≤", ">", ">=", "≥")
        if op:
            node = ({"≤": "<=", "≥": ">="}.get(op, op), node, self.sum())
            if self.at("<", "<=", "≤", ">", ">=", "≥"):
                raise Refused("comparisons are not chained")
        return node

    def sum(self):
        node, has_of = self.product()
        added = False
        while self.at("+", "-"):
            _, op, blank = self.peek()
            before, after = self.peek(-1), self.peek(1)
            if op == "-" and before[0] in NUMBERS and after[0] in NUMBERS and not blank and not after[2]:
                raise Refused("two numbers with - and no blanks")
            self.i += 1
            right, other = self.product()
            literal = right
            while literal[0] == "paren":
                literal = literal[1]
            if literal[0] == "amount" and "degree" in literal[2]:
                right = ("amount", literal[1][1], literal[2])
            has_of, added = has_of or other, True
            node = (op, node, right)
        if has_of and added:
            raise Refused("+ or - beside an of")
        return node

    def product(self):
        node, divided, has_of = self.rate(), False, False
        while (op := self.take("*", "/", "of")):
            if op == "/":
                unit = self.unit()
                if unit:
                    node = ("/", node, unit_node(unit))
                    continue
                divided = True
            if op == "of":
                has_of = True
                if divided:
                    raise Refused("a / before an of")
            right = self.rate()
            if op == "/" and leftmost(right)[0] == "amount" and "fraction" in leftmost(right)[2]:
                raise Refused("a fraction straight after /")
            node = ("*" if op == "of" else op, node, right)
        return node, has_of

    def rate(self):
        node = self.signed()
        while self.take("per"):
            unit = self.unit()
            node = ("/", node, unit_node(unit) if unit else self.signed())
        return node

    def signed(self):
        if self.take("-"):
            self.deeper()
            node = ("neg", self.signed())
            self.depth -= 1
            return node
        return self.power()

    def power(self):
        base = self.primary()
        if not self.take("^"):
            return base
        if base[0] == "amount" and base[2] - {"whole"}:
            raise Refused("a fraction or an amount with a unit straight before ^")
        if self.take("("):
            node = ("^()", base, self.expr())
            self.need(")")
        else:
            sign = -1 if self.take("-") else 1
            if self.peek()[0] != "whole":
                raise Refused("the right side of ^ is a whole number")
            node = ("^", base, sign * int(self.peek()[1]))
            self.i += 1
            if self.at("/") and not self.peek()[2] and self.peek(1)[0] == "whole" and not self.peek(1)[2]:
                raise Refused("a fraction after ^")
        if self.at("^"):
            raise Refused("^ is not chained")
        return node

    def primary(self):
        sort, text, _ = self.peek()
        if sort in NUMBERS:
            return self.amount()
        if self.take("("):
            node = ("paren", self.expr())
            self.need(")")
            return node
        if sort == "word":
            if text in FUNCTIONS and self.peek(1)[1] == "(":
                self.i += 2
                args = [self.expr()]
                while self.take(","):
                    args.append(self.expr())
                self.need(")")
                return ("call", text, args)
            if text in RESERVED or is_unit(text) or text in PREFIXED:
                raise Refused(f"{text} cannot stand here")
            self.i += 1
            return ("name", text)
        raise Refused(f"expected an amount, found {text!r}")

    def number(self):
        """(Fraction, set of what it is)"""
        sort, text, _ = self.peek()
        self.i += 1
        if sort == "vulgar":
            return vulgar(text), {"fraction"}
        if Fraction(text) > 10 ** 15:
            raise Refused("number above 10^15")
        if sort == "decimal":
            return Fraction(text), set()
        bottom = self.fraction_bottom(0)
        if bottom:
            self.i += 2
            return Fraction(int(text), bottom), {"fraction"}
        if self.peek()[0] == "vulgar":
            self.i += 1
            return int(text) + vulgar(self.t[self.i - 1][1]), {"fraction"}
        if self.peek()[0] == "whole" and self.fraction_bottom(1):
            value = int(text) + Fraction(int(self.peek()[1]), self.fraction_bottom(1))
            self.i += 3
            return value, {"fraction"}
        return Fraction(text), {"whole"}

    def fraction_bottom(self, ahead):
        """The denominator if a / without blanks stands `ahead` words on, else 0."""
        slash, bottom = self.peek(ahead), self.peek(ahead + 1)
        if slash[1] != "/" or slash[2] or bottom[0] != "whole" or bottom[2]:
            return 0
        if int(bottom[1]) == 0:
            raise Refused("a fraction with a zero below")
        return int(bottom[1])

    def unit(self):
        """[(factor, dimension, zero)] of a unit written without blanks, or None when no unit stands here."""
        part = self.unit_part()
        if not part:
            return None
        parts = [part]
        while self.at("/", "*") and not self.peek()[2] and not self.peek(1)[2]:
            start, op = self.i, self.take("/", "*")
            part = self.unit_part()
            if not part:
                if op == "/" and self.peek()[0] == "word" and self.peek(1)[1] != "(":
                    raise Refused(f"{self.peek()[1]} is not a unit")
                self.i = start
                break
            power = -1 if op == "/" else 1
            parts.append((part[0] ** power, tuple(power * x for x in part[1]), 0))
        return parts

    def unit_part(self):
        sort, word, _ = self.peek()
        if sort == "sign" and word != "%" or sort not in ("word", "sign"):
            return None
        if word in PREFIXED and self.peek(1)[0] == "word":
            name = SPELLINGS.get(self.peek(1)[1], self.peek(1)[1])
            if name not in PREFIXED[word]:
                raise Refused(f"there is no {word} {name}")
            factor, dimension, zero = Fraction(PREFIXED[word][name]), VOLUME, 0
            self.i += 1
        elif word == "min" and self.peek(1)[1] == "(":
            return None  # the function
        elif is_unit(word):
            word = SPELLINGS.get(word, word)
            if word in SIMPLE:
                factor, dimension, zero = Fraction(SIMPLE[word][0]), SIMPLE[word][1], ZERO.get(word, 0)
            else:
                table = PREFIXED[self.spoons]
                factor, dimension, zero = Fraction(table.get(word, PREFIXED["us"][word])), VOLUME, 0
        else:
            return None
        self.i += 1
        if self.at("^") and not self.peek()[2]:
            if self.peek(1)[0] == "whole" and not self.peek(1)[2]:
                power = int(self.peek(1)[1])
                self.i += 2
                return factor ** power, tuple(power * x for x in dimension), 0
        return factor, dimension, zero

    def quantity(self):
        """(base value, dimension, unit or None, first number, what it is)"""
        number, what = self.number()
        unit = self.unit()
        if not unit:
            return number, PLAIN, None, number, what
        what = what | {"unit"}
        factor, dimension, zero = joined(unit)
        value, last = number * factor, factor
        if zero:
            what.add("degree")
        while self.peek()[0] in NUMBERS:
            more, _ = self.number()
            unit_more = self.unit()
            if not unit_more:
                raise Refused("a number without a unit after an amount")
            factor_more, dimension_more, _ = joined(unit_more)
            if dimension_more != dimension or factor_more >= last:
                raise Refused("units of one amount in falling order")
            value, last = value + more * factor_more, factor_more
        return value, dimension, (factor, zero), number, what

    def amount(self):
        low, dimension, unit, number, what = self.quantity()
        zero = unit[1] if unit else 0
        width = Fraction(0)
        if self.take(".."):
            if self.peek()[0] not in NUMBERS:
                raise Refused("a range needs a number at its end")
            high, dimension_high, unit_high, _, what_high = self.quantity()
            if unit is None and unit_high:
                low, dimension, zero = number * unit_high[0], dimension_high, unit_high[1]
            elif dimension != dimension_high or (unit is not None and unit_high is None):
                raise Refused("a range of two dimensions")
            what = (what | what_high | {"range"}) - {"whole"}
            width, low = abs(high - low) / 2, (low + high) / 2
        if self.take("±", "+/-"):
            if self.peek()[0] not in NUMBERS:
                raise Refused("a number after ±")
            error, _ = self.number()
            unit_error = self.unit()
            what = (what | {"range"}) - {"whole"}
            if unit_error:
                factor, dimension_error, _ = joined(unit_error)
                if dimension_error == dimension:
                    error *= factor
                elif dimension_error == PLAIN:
                    error *= factor * abs(low)
                else:
                    raise Refused("± of another dimension")
            width += error
        exact = width == 0 and 2 * low == int(2 * low) and abs(low) < 10 ** 6 and not zero
        point = Value(float(low + zero), dimension, w=float(width), exact=exact)
        if not zero:
            return ("amount", point, what)
        return ("amount", (point, Value(float(low), dimension, w=float(width))), what)


def vulgar(sign):
    return Fraction(unicodedata.numeric(sign)).limit_denominator(16)


def is_unit(word):
    word = SPELLINGS.get(word, word)
    return word in SIMPLE or word in PREFIXED["us"]


def joined(parts):
    factor, dimension = Fraction(1), PLAIN
    for one, d, _ in parts:
        factor, dimension = factor * one, tuple(x + y for x, y in zip(dimension, d))
    return factor, dimension, parts[0][2] if len(parts) == 1 else 0


def unit_node(parts):
    factor, dimension, _ = joined(parts)
    return ("amount", Value(float(factor), dimension, exact=factor == 1), {"unit"})


def leftmost(node):
    while node[0] in ("/", "^", "^()"):
        node = node[1]
    return node
