#!/usr/bin/env python3
"""A second reading of docs/language.md: the exact values of a recipe's quantities.

Written from the language reference alone, so that it can disagree with the engine. It knows the quantities `given`,
`total`, `share`, `weigh`, `count` and `let`, and everything under "Amounts" and "Expressions" but `cover` and the
names that need the larder (`all_salt`, `all_water`, `everything`). Other statements are passed over.

    evaluate.py FILE          the values as JSON, in base units (g, cm, s, K)
    evaluate.py --self-test   worked examples of the reference, and some by hand
"""
import json
import math
import sys
import unicodedata
from fractions import Fraction

from reading import (EPS, MASS, PIECE, PLAIN, RESERVED, ROLES, TRUTH, VALUED, VOLUME, Parser, Refused, Unsteady, Value,
                     is_unit, tokens)


# --- values ----------------------------------------------------------------------------------------------------

def value_of(node, lookup):
    sort = node[0]
    if sort == "amount":
        return node[1][0] if isinstance(node[1], tuple) else node[1]
    if sort == "name":
        return lookup(node[1])
    if sort == "paren":
        return value_of(node[1], lookup)
    if sort == "call":
        return call(node[1], [number(value_of(x, lookup)) for x in node[2]])
    if sort == "if":
        condition, yes, no = (value_of(x, lookup) for x in node[1:])
        truth(condition), same(number(yes), number(no))
        chosen = yes if condition.v else no
        return Value(chosen.v, chosen.d, chosen.e, max(yes.w, no.w), chosen.exact)
    if sort == "not":
        return Value(not truth(value_of(node[1], lookup)), TRUTH, 0)
    a = value_of(node[1], lookup)
    if sort == "neg":
        return Value(-number(a).v, a.d, a.e, a.w, a.exact)
    if sort == "^":
        return whole_power(number(a), node[2])
    b = value_of(node[2], lookup)
    if sort in ("and", "or"):
        x, y = truth(a), truth(b)
        return Value(x and y if sort == "and" else x or y, TRUTH, 0)
    number(a), number(b)
    if sort in ("+", "-"):
        same(a, b)
        v = a.v + b.v if sort == "+" else a.v - b.v
        return Value(v, a.d, a.e + b.e + EPS * abs(v), a.w + b.w, a.exact and b.exact)
    if sort == "*":
        v = a.v * b.v
        return Value(v, tuple(x + y for x, y in zip(a.d, b.d)), abs(a.v) * b.e + abs(b.v) * a.e + EPS * abs(v),
                     abs(a.v) * b.w + abs(b.v) * a.w + a.w * b.w, a.exact and b.exact)
    if sort == "/":
        if b.v == 0:
            raise Refused("division by zero")
        if abs(b.v) <= 3 * b.w or abs(b.v) <= 1e6 * b.e:
            raise Unsteady("divisor near zero")
        v = a.v / b.v
        return Value(v, tuple(x - y for x, y in zip(a.d, b.d)), (a.e + abs(v) * b.e) / abs(b.v) + EPS * abs(v),
                     (a.w + abs(v) * b.w) / (abs(b.v) - b.w))
    if sort == "^()":
        if a.d != PLAIN or b.d != PLAIN:
            raise Refused("an exponent in parentheses is for plain numbers")
        if a.v <= 3 * a.w:
            raise Unsteady("power of what is near zero or below")
        v = a.v ** b.v
        rise = abs(b.v) / a.v
        return Value(v, PLAIN, v * (rise * a.e + abs(math.log(a.v)) * b.e + 8 * EPS),
                     2 * v * (rise * a.w + abs(math.log(a.v)) * b.w))
    same(a, b)  # a comparison
    exact = a.exact and b.exact
    if not exact and abs(a.v - b.v) <= 1e3 * (a.e + b.e) + 1e-12 * (abs(a.v) + abs(b.v)):
        raise Unsteady("the two sides are nearly equal")
    return Value({"<": a.v < b.v, "<=": a.v <= b.v, ">": a.v > b.v, ">=": a.v >= b.v}[sort], TRUTH, 0)


def number(x):
    if x.d is TRUTH:
        raise Refused("a condition where a value is needed")
    return x


def truth(x):
    if x.d is not TRUTH:
        raise Refused("a value where a condition is needed")
    return x.v


def same(a, b):
    if a.d != b.d:
        raise Refused("two dimensions")


def whole_power(a, n):
    if n <= 0 and a.v == 0:
        raise Refused("zero to the power of nothing or less")
    if n < 0 and abs(a.v) <= 3 * a.w:
        raise Unsteady("power of what is near zero")
    v = float(a.v) ** n
    slope = abs(n * v / a.v) if a.v else 0.0
    return Value(v, tuple(n * x for x in a.d), slope * a.e + 8 * EPS * abs(v), 2 * slope * a.w)


def call(name, args):
    a = args[0]
    for other in args[1:]:
        same(a, other)
    if name in ("min", "max"):
        if len(args) < 2:
            raise Refused("two values or more")
        best = (min if name == "min" else max)(args, key=lambda x: x.v)
        return Value(best.v, a.d, max(x.e for x in args), max(x.w for x in args), all(x.exact for x in args))
    if len(args) > (2 if name in ("round", "floor", "ceil") else 1):
        raise Refused("too many arguments")
    if name == "abs":
        return Value(abs(a.v), a.d, a.e, a.w, a.exact)
    if name == "sqrt":
        if any(x % 2 for x in a.d):
            raise Refused("the root of an odd dimension")
        if a.v < 0:
            raise Refused("the root of a negative")
        if a.v <= 3 * a.w or a.v <= 1e6 * a.e:
            raise Unsteady("root near zero")
        v = math.sqrt(a.v)
        return Value(v, tuple(x // 2 for x in a.d), a.e / v + EPS * v, a.w / v)
    step = args[1] if len(args) == 2 else Value(1.0, PLAIN, 0, exact=True)
    if len(args) == 1 and a.d != PLAIN:
        raise Refused("a step is needed")
    if step.v <= 3 * step.w or step.v <= 1e6 * step.e:
        raise Unsteady("a step of nothing or less")
    ratio = a.v / step.v
    places = ratio - 0.5 if name == "round" else ratio
    gap = abs(places - round(places))
    certain = a.exact and step.exact and Fraction(a.v) / Fraction(step.v) == Fraction(ratio)
    if not certain and gap <= 1e-9 * max(1.0, abs(ratio)) + 1e3 * (a.e / step.v + abs(ratio) * step.e / step.v):
        raise Unsteady("rounding turns on the last bit")
    # To nine decimals first, as the reference says: 0.3 in steps of 0.1 is three steps.
    ratio = math.copysign(math.floor(abs(ratio) * 1e9 + 0.5), ratio) / 1e9
    if name == "round":
        steps = math.copysign(math.floor(abs(ratio) + 0.5), ratio)
    else:
        steps = math.floor(ratio) if name == "floor" else math.ceil(ratio)
    v = float(steps) * step.v
    return Value(v, a.d, abs(steps) * step.e + EPS * abs(v), a.w + step.v + abs(steps) * step.w, a.exact and step.exact)


# --- recipes ---------------------------------------------------------------------------------------------------

class Cell:
    def __init__(self, kind, name, node):
        self.kind, self.name, self.node, self.role, self.optional = kind, name, node, None, False


def cell(toks, spoons="us"):
    """The Cell of one line, or None if the line holds no quantity."""
    if toks[0][1] not in VALUED:
        return None
    kind, (sort, name, _) = toks[0][1], toks[1]
    if sort != "word" or name in RESERVED or name == "all_produce" or is_unit(name):
        raise Refused(f"{name!r} cannot be a name")
    if any(unicodedata.category(c)[0] not in "LM" and unicodedata.category(c) != "Nd" and c != "_" for c in name):
        raise Refused(f"{name!r} is not a name")
    parser = Parser(toks, spoons)
    parser.i = 2
    parser.need("=")
    out = Cell(kind, name, parser.expr())
    if kind not in ("let", "total"):
        out.optional = bool(parser.take("optional"))
        if parser.take("as"):
            while parser.peek()[0] in ("word", "whole") and not parser.at("counts"):
                parser.i += 1
        if parser.take("counts"):
            parser.need("as")
            out.role = parser.take(*ROLES)
            if not out.role:
                raise Refused("no such role")
    if parser.peek()[0] == "text":
        parser.i += 1
    if parser.peek()[0] != "end":
        raise Refused(f"not understood: {parser.peek()[1]!r}")
    return out


def cells(text, spoons="us"):
    """{name: Cell} of a recipe's text, in the order written."""
    out = {}
    for line in text.removeprefix("\ufeff").split("\n"):
        line = line.strip(" \t\r\u00a0\u2009\u202f")
        if not line or line[0] in '#"':  # a continued text changes no value
            continue
        found = cell(tokens(line), spoons)
        if found and found.name in out:
            raise Refused(f"{found.name} is defined twice")
        if found:
            out[found.name] = found
    return out


def check_kind(one, value):
    allowed = {"given": (MASS,), "total": (MASS,), "weigh": (MASS, VOLUME), "share": (MASS, VOLUME),
               "count": (PLAIN, PIECE)}.get(one.kind)
    if number(value) and allowed and value.d not in allowed:
        raise Refused(f"{one.kind} {one.name} has the wrong dimension")


def evaluate(text, spoons="us"):
    """{name: (Cell, Value)} of a recipe's text."""
    lines, done, busy = cells(text, spoons), {}, []

    def lookup(name):
        if name in done:
            return read(done[name], lines[name].kind)
        if name in busy:
            raise Refused("a cycle: " + " -> ".join(busy + [name]))
        busy.append(name)
        if name == "all_produce":
            total = Value(0.0, MASS)
            for one in lines.values():
                if one.role == "vegetable" and one.kind in ("given", "share", "weigh"):
                    x = lookup(one.name)
                    total = Value(total.v + x.v, MASS, total.e + x.e + EPS * total.v, total.w + x.w)
            busy.pop()
            return total
        if name not in lines:
            raise Refused(f"{name} is not known")
        done[name] = value_of(lines[name].node, lookup)
        check_kind(lines[name], done[name])
        busy.pop()
        return read(done[name], lines[name].kind)

    for name in lines:
        lookup(name)
    return {name: (lines[name], done[name]) for name in lines}


def read(value, kind):
    """What is weighed is unsure by its scale; that only matters for how near to zero it can be."""
    if kind in ("let", "count"):
        return value
    return Value(value.v, value.d, value.e, value.w + 3.0 + 0.002 * abs(value.v), False)


if __name__ == "__main__":
    if sys.argv[1:] == ["--self-test"]:
        import self_test
        sys.exit(self_test.run())
    with open(sys.argv[1], encoding="utf-8", newline="") as file:
        values = evaluate(file.read())
    print(json.dumps({n: {"kind": c.kind, "exact": v.v, "dimension": v.d} for n, (c, v) in values.items()},
                     ensure_ascii=False, indent=1))
