#!/usr/bin/env python3
"""Makes a book of many recipes, to measure with: make_book.py FOLDER [COUNT].

Every recipe has 40 lines, as a cook would write them: comments, quantities in percent, per weight
and in spoons, a bound of the house, steps. No two are the same; all are inside their ranges. The
same COUNT always makes the same bytes.
"""

import os
import sys

KITCHEN = """\
# The kitchen of a book made up to measure with.
kitchen "Quay Street"
scale bench reads 1 g up to 5 kg within 1 g
scale pocket reads 0.1 g up to 500 g within 0.1 g
jar tall holds 1.50 L brimful across 10 cm have 3
jar squat holds 0.75 L brimful across 9 cm have 4
spoons us
room 19 °C
"""

RECIPE = """\
# Number {number} of the made-up book: what the garden gives in week {week}.
# Everything here is invented; only the ranges that it is held to are not.
recipe "Quay Street kraut {number}" version {version}
kind kraut
by "the Tuesday group"
source "invented for measuring, week {week}"
note "Shred as fine as last time, three millimetres: the coarse one took {days} days longer, and stayed tough at the core."

# What is weighed at the counter.
given  cabbage = {cabbage} kg                       "cored and shredded, 3 mm"

# What goes by it.
weigh  carrot  = {carrot} % of cabbage
weigh  onion   = {onion} % of cabbage
weigh  salt    = {salt} % of (cabbage + carrot + onion)   as fine sea salt
weigh  caraway = {caraway} g per kg of cabbage      as caraway seed
weigh  juniper = {juniper} tsp per kg of cabbage    as juniper berry
count  bay     = 1 per kg of cabbage                as bay leaf

# How it is packed.
let    packed  = 0.{packed} kg/L
fill   (cabbage + carrot + onion) / packed
headspace 12 %
topup  2 %

# What the house wants.
hold   salt / (cabbage + carrot + onion) between 2.0 % and 2.5 %   "below it goes soft, above it stalls"
hold   carrot / cabbage at most 10 %   "more, and it tastes of carrot"

# What is done.
step   "Rub {{salt}} into {{cabbage}} in three goes, {{salt / 3}} each."
rest   {rest} min
step   "Add the carrot, {{carrot}}, and the onion, {{onion}}, and rub once more."
step   "Press again until the juice stands above the shreds; if it does not, wait {rest} minutes more before adding any water."
step   "Fill the jar in handfuls, each pressed before the next; {{bay}} leaves between, none at the top where they would float."
tend   burp every 1 day from day 1 to day {burp}
tend   taste every 3 days from day {taste} "sour enough, and still with some bite"
tend   skim every 2 days from day 4 to day {ready} "a thin white film is yeast, and comes off"
ready  day {ready} to day {later} at 18 to 22 °C
keep   cold for 6 months "with the lid screwed down and the brine above the shreds"
"""


def recipe(number):
    return RECIPE.format(
        number=number,
        week=1 + number % 52,
        version=1 + number % 7,
        days=1 + number % 9,
        cabbage=f"{1 + number % 300 / 100:.2f}",
        carrot=2 + number % 7,
        onion=1 + number % 5,
        salt=f"{2.05 + number % 41 / 100:.2f}",
        caraway=f"{1 + number % 15 / 10:.1f}",
        juniper=f"{1 + number % 4 / 4:.2f}",
        packed=80 + number % 15,
        rest=20 + number % 21,
        burp=5 + number % 5,
        taste=12 + number % 7,
        ready=18 + number % 5,
        later=26 + number % 6,
    )


def main():
    if len(sys.argv) not in (2, 3):
        sys.exit(__doc__.splitlines()[0])
    folder = sys.argv[1]
    count = int(sys.argv[2]) if len(sys.argv) == 3 else 10_000
    os.makedirs(folder, exist_ok=True)
    with open(os.path.join(folder, "kitchen.jarful"), "w", encoding="utf-8") as out:
        out.write(KITCHEN)
    for number in range(count):
        # A hundred to a folder: a book has chapters.
        chapter = os.path.join(folder, f"chapter-{number // 100:04}")
        if number % 100 == 0:
            os.makedirs(chapter, exist_ok=True)
        name = os.path.join(chapter, f"kraut-{number:06}.jarful")
        with open(name, "w", encoding="utf-8") as out:
            out.write(recipe(number))


if __name__ == "__main__":
    main()
