"""What docs/language.md says must be refused: (why, line or lines, a right form or None).

Every text stands in a recipe beside two vegetables, `a` (1 kg) and `b` (500 g). The right form must not be refused:
otherwise a program that refuses everything would pass.
"""

AROUND = 'recipe "Refusals"\ngiven a = 1 kg counts as vegetable\ngiven b = 500 g counts as vegetable\n'

REFUSED = [
    # Amounts
    ("a decimal comma", "let x = 1,5 kg", "let x = 1.5 kg"),
    ("no digit before the point", "let x = .5 kg", "let x = 0.5 kg"),
    ("no digit after the point", "let x = 5. kg", "let x = 5.0 kg"),
    ("an exponent", "let x = 1e3 g", "let x = 1000 g"),
    ("a range with a minus sign", "let x = 2-3 tbsp", "let x = 2..3 tbsp"),
    ("a mixed fraction with a minus sign", "let x = 1-1/2 cup", "let x = 1 1/2 cup"),
    ("units in rising order", "let x = 3 oz 2 lb", "let x = 2 lb 3 oz"),
    ("the same unit twice", "let x = 3 oz 2 oz", "let x = 3 oz + 2 oz"),
    ("one amount of two dimensions", "let x = 2 lb 3 mL", None),
    ("a name inside a unit", "let x = 3 g/a", "let x = 3 g / a"),
    ("a bare unit", "let x = kg", "let x = 1 kg"),
    ("a bare unit as a factor", "let x = 2 * kg", "let x = 2 * 1 kg"),
    ("a bare unit before an operator", "let x = kg / L", "let x = 1 kg/L"),
    ("a measure that is not there", "let x = 1 metric gallon", "let x = 1 us gallon"),
    ("an unknown unit", "let x = 3 blobs", "let x = 3 kg"),
    ("a range of two dimensions", "let x = 2 g..3 mL", "let x = 2 g..3 g"),
    ("an uncertainty of another dimension", "let x = 1.80 kg ± 5 mL", "let x = 1.80 kg ± 5 g"),
    ("nothing below a fraction", "let x = 1/0", "let x = 1/2"),
    ("a number above 10^15", "let x = 10000000000000000", "let x = 1000000000000000"),
    # What could be read two ways
    ("+ after an of", "let x = 2.2 % of a + b", "let x = 2.2 % of (a + b)"),
    ("+ before an of", "let x = b + 2.2 % of a", "let x = b + (2.2 % of a)"),
    ("- after an of", "let x = 50 % of a - b", "let x = (50 % of a) - b"),
    ("/ before an of", "let x = a / 2 of b", "let x = (a / 2) of b"),
    ("/ of a quantity before an of", "let x = 3 / a of b", "let x = 3 / kg of b"),
    ("a fraction before ^", "let x = 1/2^2", "let x = (1/2)^2"),
    ("an amount with a unit before ^", "let x = 5 cm ^ 2", "let x = (5 cm) ^ 2"),
    ("a fraction straight after /", "let x = 6 / 1/2", "let x = 6 / (1/2)"),
    ("two whole numbers with - and no blanks", "let x = 3-2", "let x = 3 - 2"),
    ("two decimals with - and no blanks", "let x = 3.5-2.5", "let x = 3.5 - 2.5"),
    ("a fraction straight after ^", "let x = 2^1/2", "let x = 2^(1/2)"),
    ("^ chained", "let x = 2^3^2", "let x = (2^3)^2"),
    ("a comma between numbers without a blank", "let x = min(1,2)", "let x = min(1, 2)"),
    # Operators and dimensions
    ("a comparison chained", "let x = if 1 < 2 < 3 then 1 else 2", "let x = if 1 < 2 and 2 < 3 then 1 else 2"),
    ("a comparison as a value", "let x = 1 < 2", "let x = if 1 < 2 then 1 else 0"),
    ("a comparison in a sum", "let x = 1 + (2 < 3)", None),
    ("a value as a condition", "let x = if a then 1 else 2", "let x = if a > b then 1 else 2"),
    ("and between values", "let x = if 1 and 2 then 1 else 2", None),
    ("if without else", "let x = if a > b then 1", "let x = if a > b then 1 else 2"),
    ("if as an operand", "let x = 2 * if a > b then 1 else 2", "let x = 2 * (if a > b then 1 else 2)"),
    ("mass and volume added", "let x = 1 kg + 1 L", "let x = 1 kg + 1 L * 1 kg/L"),
    ("mass and number subtracted", "let x = a - 1", "let x = a - 1 g"),
    ("mass and volume compared", "let x = if a > 1 L then 1 else 2", "let x = if a > 2 kg then 1 else 2"),
    ("min of one value", "let x = min(a)", "let x = min(a, b)"),
    ("a word straight after an amount", "let x = 3 a", "let x = 3 * a"),
    ("min of two dimensions", "let x = min(a, 2)", "let x = min(a, 2 g)"),
    ("branches of two dimensions", "let x = if a > b then 1 g else 2", "let x = if a > b then 1 g else 2 g"),
    ("round to a step of another dimension", "let x = round(a, 5 mL)", "let x = round(a, 5 g)"),
    ("round of a mass without a step", "let x = round(a)", "let x = round(a / kg)"),
    ("an exponent with a dimension", "let x = 2^(a)", "let x = 2^(a / kg)"),
    ("a fraction as exponent of a mass", "let x = a^(1/2)", "let x = (a / kg)^(1/2)"),
    ("a decimal exponent", "let x = 2^0.5", "let x = 2^(0.5)"),
    ("the root of a mass", "let x = sqrt(a)", "let x = sqrt(a * b)"),
    ("an exponent of a dimension above 12", "let x = a^13", "let x = a^2"),
    ("division by zero", "let x = a / (2 - 2)", "let x = a / (2 - 1)"),
    ("the root of a negative number", "let x = sqrt(2 - 3)", "let x = sqrt(3 - 2)"),
    # Quantities
    ("a given that is a volume", "given c = 1 L counts as vegetable", "given c = 1 kg counts as vegetable"),
    ("a total that is a number", "total c = 3", "total c = 3 kg"),
    ("a weight that is a number", "weigh c = 2 counts as other", "weigh c = 2 g counts as other"),
    ("a weight that is a time", "weigh c = 2 h counts as other", "weigh c = 2 g counts as other"),
    ("a count that is a mass", "count c = 2 g counts as other", "count c = 2 counts as other"),
    ("shares that do not add up", "total t = 1 kg\nshare c = 30 % of t counts as vegetable\nshare d = 60 % of t counts as vegetable",
     "total t = 1 kg\nshare c = 30 % of t counts as vegetable\nshare d = 70 % of t counts as vegetable"),
    ("a line without a role", "weigh quibbleroot = 2 g", "weigh quibbleroot = 2 g counts as other"),
    ("a role that is none", "weigh c = 2 g counts as mineral", "weigh c = 2 g counts as other"),
    ("an ambiguous material", "weigh pepper = 2 g", "weigh pepper = 2 g counts as aromatic"),
    ("the tail in another order", 'weigh c = 2 g "fine" counts as other', 'weigh c = 2 g counts as other "fine"'),
    # Names and what depends on what
    ("an unknown name", "let x = nobody", "let x = a"),
    ("a name that depends on itself", "let x = x + 1", "let x = a + 1 g"),
    ("two names that depend on each other", "let x = 2 * y\nlet y = x / 2", "let x = 2 * y\nlet y = a / 2"),
    ("a cycle of four", "let x = y\nlet y = z\nlet z = w\nlet w = x", "let x = y\nlet y = z\nlet z = w\nlet w = a"),
    ("a vegetable that depends on all vegetables", "weigh c = 2 % of all_produce counts as vegetable",
     "weigh c = 2 % of all_produce counts as other"),
    ("a name defined twice", "let x = 1\nlet x = 2", "let x = 1\nlet y = 2"),
    ("one name in two normal forms", "let caf\u00e9 = 1\nlet cafe\u0301 = 2", "let caf\u00e9 = 1\nlet x = cafe\u0301"),
    ("a unit as a name", "let kg = 1", "let kgs_of_it = 1"),
    ("a word of the language as a name", "let total = 1", "let totals = 1"),
    ("a function as a name", "let round = 1", "let rounded = 1"),
    ("a name that is always there as a name", "let everything = 1", "let every_thing = 1"),
    ("a name that begins with a digit", "let 2x = 1", "let x2 = 1"),
    ("a name of 65 characters", "let " + "n" * 65 + " = 1", "let " + "n" * 64 + " = 1"),
    # Lines
    ("a line that says nothing", "ponder a", "# ponder a"),
    ("two headers", 'recipe "Again"', '# recipe "Again"'),
    ("a backslash before anything", 'note "a\\n"', 'note "a\\\\n"'),
    ("a text that goes on after a blank line", 'note "a"\n\n"b"', 'note "a"\n  "b"'),
    ("a text that goes on after a comment", 'note "a"\n# c\n"b"', 'note "a" # c\n"b"'),
    ("a text that does not end", 'note "begun', 'note "begun"'),
    ("two statements on one line", "let x = 1 let y = 2", "let x = 1\nlet y = 2"),
    ("nothing after the sign", "let x =", "let x = 1"),
    ("an open parenthesis", "let x = (1", "let x = (1)"),
    ("a closing parenthesis too many", "let x = 1)", "let x = 1"),
    ("a bound without its unit", "hold b / a between 2 and 2.5 %", "hold b / a between 2 % and 60 %"),
    ("a bound of another dimension", "hold b at most 2 L", "hold b at most 2 kg"),
    ("a control character", "let x = 1 \x01", "let x = 1 \t"),
    ("a character that turns the direction of writing", 'note "left \u202e right"', 'note "left right"'),
    ("nested too deep", "let x = " + "(" * 61 + "1" + ")" * 61, "let x = " + "(" * 20 + "1" + ")" * 20),
    ("nine optional lines", "\n".join(f"weigh o{i} = 1 g optional counts as other" for i in range(9)),
     "\n".join(f"weigh o{i} = 1 g optional counts as other" for i in range(8))),
    ("a kitchen's statement in a recipe", "spoons us", None),
    ("a rest that is a mass", "rest 3 g", "rest 3 min"),
    ("a fill that is a mass", "fill a", "fill a / 0.9 kg/L"),
    ("an unknown name in a step", 'step "Rub {nobody} in."', 'step "Rub {a} in."'),
    ("a brace left open", 'step "Rub {a in."', 'step "Rub {{a in."'),
]


def cases():
    """(why, a whole recipe that must be refused, one that must not be, or None)"""
    out = [(why, AROUND + bad + "\n", AROUND + good + "\n" if good else None) for why, bad, good in REFUSED]
    out.append(("a language version that is not there", "language 2\n" + AROUND, "language 1\n" + AROUND))
    out.append(("a version of the language in the middle", AROUND + "language 1\n", "# first\nlanguage 1\n" + AROUND))
    out.append(("no header", AROUND.split("\n", 1)[1], AROUND))
    return out
