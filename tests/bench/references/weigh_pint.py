"""Twelve quantities with units, read from a file, printed in grams: with pint."""

import sys

import pint

units = pint.UnitRegistry()
known = {}
for line in open(sys.argv[1], encoding="utf-8"):
    name, expression = line.split("=", 1)
    value = units.parse_expression(expression.strip(), **known)
    known[name.strip()] = value
    print(name.strip(), f"{value.to('g').magnitude:.1f} g")
