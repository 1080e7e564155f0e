"""Worked examples for evaluate.py: from docs/language.md, and by hand."""
import math

from evaluate import Refused, evaluate

POUND, OUNCE = 453.59237, 28.349523125  # NIST Handbook 44, Appendix C
CUP_US = 236.5882365  # 231 cubic inches / 16, inch 25.4 mm (NIST SP 811, Appendix B.8)

# (an expression, its value in g, cm, mL, s, K)
VALUES = [
    ("1.80 kg", 1800), ("2.2 %", 0.022), ("3", 3), ("1.80kg", 1800), ("2.2%", 0.022),
    ("1/2 tsp", 4.92892159375 / 2), ("1 1/2 tsp", 4.92892159375 * 1.5), ("1½ tsp", 4.92892159375 * 1.5),
    ("½ cup", CUP_US / 2), ("2 lb 3 oz", 2 * POUND + 3 * OUNCE), ("1 h 30 min", 5400),
    ("2..3 tbsp", 2.5 * 14.78676478125), ("1.80 kg ± 5 g", 1800), ("1.80 kg +/- 2 %", 1800), ("2.2 % ± 0.1 %", 0.022),
    ("0.9 kg/L", 0.9), ("10 g/lb", 10 / POUND), ("5 cm^2", 5), ("1 us cup", CUP_US), ("1 metric tbsp", 15),
    ("1 imperial pint", 568.26125), ("1 us gallon", 3785.411784), ("1 metric cup", 250), ("1 imperial floz", 28.4130625),
    ("1 in", 2.54), ("2 week", 1209600), ("20 °C", 293.15), ("32 °F", 273.15), ("20 °C + 9 °F", 298.15),
    ("25 °C - 5 °C", 293.15), ("20 °C + (5 °C)", 298.15), ("50 % of⅘mm", 0.04), ("500 g..1 kg", 750), ("21..24 °C", 295.65), ("2 litre", 2000), ("3 pounds", 3 * POUND),
    ("1.5 g per kg", 0.0015), ("3 tbsp per 5 lb", 3 * 14.78676478125 / (5 * POUND)), ("6 % of x", 120),
    ("2.2 % of (x + y)", 55), ("(2.2 % of x) + y", 544), ("1 per kg of x", 2), ("10 g/lb of x", 20000 / POUND),
    ("x / kg of y", 1000), ("x / 0.9 kg/L", 2000 / 0.9), ("x * y per x", 500), ("100 kg / 2 per kg", 1e5 * 500),
    ("-2^2", -4), ("2^-1", 0.5), ("(-2)^2", 4), ("2^(1/2)", math.sqrt(2)), ("(1/2)^2", 0.25), ("1.5^2", 2.25),
    ("(5 cm)^2", 25), ("2 - -3", 5), ("3 - 2", 1), ("7 - 2 - 1", 4), ("8 / 4 / 2", 1), ("6 / (1/2)", 12), ("6 /4", 1.5),
    ("round(x / 3, 5 g)", 665), ("round(2.5)", 3), ("round(-2.5)", -3), ("round(7.5 g, 5 g)", 10), ("floor(-2.5)", -3),
    ("ceil(-2.5)", -2), ("floor(9, 4)", 8), ("min(x, y, 3 kg)", 500), ("max(2, 7, 3)", 7), ("abs(-4 g)", 4),
    ("sqrt(16 cm^2)", 4), ("if x > y then 1 else 2", 1), ("if 3 <= 3 and not 2 < 1 then 5 else 6", 5),
    ("if 1 > 2 and 1 > 2 or 1 < 2 then 1 else 2", 1), ("if not (1 < 2 or 2 < 1) then 1 else 2", 2),
    ("if 1 > 2 then 1 else if 2 > 1 then 7 else 9", 7), ("if 20 °C < 70 °F then 1 else 2", 1), ("all_produce", 2500),
    ("4 in^2", 25.8064), ("3 h per day", 0.125), ("- -3", 3), ("-x per kg", -2), ("2 g/us cup", 2 / CUP_US),
    ("2 *  ( 3+x/kg )", 10), ("6 min / 2 h", 0.05), ("2 lb 1 1/2 oz", 2 * POUND + 1.5 * OUNCE),
]
REFUSED = [
    "1,5 kg", ".5 kg", "5. kg", "1e3 g", "2-3 tbsp", "1-1/2 cup", "3-2", "3 g/cabbage", "kg", "2.2 % of x + y", "x + 1 % of y",
    "x / 2 of y", "1/2^2", "5 cm ^ 2", "6 / 1/2", "2^3^2", "1 < 2", "if x then 1 else 2", "1 + (2 < 3)", "1 kg + 1 L",
    "min(1,2)", "min(1 g, 2)", "if 1 < 2 then 1 g else 2", "round(3 g)", "round(3 g, 2)", "sqrt(3 g)", "1 / 0", "nobody",
    "1 < 2 < 3", "3 oz 2 lb", "2 lb 3 mL", "x^(1/2)", "1/0", "metric gallon", "1 metric gallon", "(1", "1)", "1 +", "",
]


def run():
    """0 if all is as expected."""
    faults = 0

    def fault(text):
        nonlocal faults
        faults += 1
        print("self test:", text)

    frame = "let it = {}\ngiven x = 2 kg counts as vegetable # two\ngiven y = 500 g counts as vegetable\n"
    for text, expected in VALUES:
        try:
            got = evaluate(frame.format(text))["it"][1].v
        except Exception as problem:  # any failure here is a fault of the evaluator
            fault(f"{text}: {problem!r}")
            continue
        if not math.isclose(got, expected, rel_tol=1e-14):
            fault(f"{text}: {got!r}, expected {expected!r}")
    for text in REFUSED:
        try:
            got = evaluate(frame.format(text))["it"][1].v
            fault(f"{text}: must be refused, gave {got!r}")
        except Refused:
            pass
    whole = """\ufeff# What we make\r
recipe "Quay Street winter kraut" version 4\r
kind   kraut\r
weigh  carrot  = 6 % of cabbage\r
weigh  salt    = 2.2 % of (cabbage + carrot)        as fine sea salt\r
given  cabbage = 1.80 kg                            "cored # and \\"shredded\\""\r
  "3 mm"\r
weigh  caraway = 1.5 g per kg of cabbage            as caraway seed\r
count  bay     = 1 per kg of cabbage                as bay leaf\r
"""
    expected = {"cabbage": 1800, "carrot": 108, "salt": 41.976, "caraway": 2.7, "bay": 1.8}
    got = evaluate(whole)
    if got.keys() != expected.keys() or any(not math.isclose(got[k][1].v, v, rel_tol=1e-14) for k, v in expected.items()):
        fault(f"the page's first recipe: {({k: v[1].v for k, v in got.items()})}")
    for text in ("let a = b\nlet b = a\n", "let a = 1\nlet a = 2\n", "let g = 1\n", "let round = 1\n", "given a = 1 L\n",
                 "count a = 1 g\n", "weigh a = 3\n", "let 1a = 2\n", "let a = a\n"):
        try:
            evaluate(text)
            fault(f"{text!r} must be refused")
        except Refused:
            pass
    if evaluate("let caf\u00e9 = 2\nlet b = cafe\u0301 + 1\n")["b"][1].v != 3:
        fault("names are compared after normalisation")
    print(f"self test: {len(VALUES) + len(REFUSED) + 11} cases, {faults} faults")
    return 1 if faults else 0
