"""Random recipes about which there is something to judge, for compare_judged.py: layers on top, optional lines, bounds
that are expressions, weights taken later, seasonings, stated ±, coarse scales."""
import random


class Case:
    def __init__(self, seed):
        r = self.r = random.Random(seed)
        self.produce = ["cabbage"]
        self.kind = r.choice(["kraut", "kraut", "mixed", "kimchi"])
        size = 10 ** r.uniform(2.5, 3.7)
        self.lines = ['recipe "Random"', f"kind {self.kind}", f"given cabbage = {self.amount(size, r.random() < 0.25)}"]
        for name, most in (("carrot", 30), ("apple", 25), ("onion", 15)):
            self.vegetable(name, most)
        self.soaked = self.kind == "kimchi" and r.random() < 0.7
        if self.soaked:
            self.soak(size)
        self.wet = self.kind == "mixed" or self.kind == "kimchi" and r.random() < 0.3
        if self.wet:
            self.lines.append(f"weigh water = {r.uniform(30, 120):.2f} % of cabbage")
        if r.random() < 0.3:
            self.seasoning()
        self.salt()
        if r.random() < 0.45:
            self.lines.append(f"cap salt_cap = {r.uniform(0.05, 0.9):.3f} % of cabbage as canning salt")
        if r.random() < 0.35:
            self.lines.append(f"let packed = {self.sum_of(self.produce)} * {r.uniform(0.9, 1.1):.2f}")
            self.produce_or_let = self.produce + ["packed"]
        else:
            self.produce_or_let = self.produce
        for _ in range(r.randint(0, 3)):
            self.hold()
        self.text = "\n".join(self.lines) + "\n"
        self.kitchen = self.scales()

    def amount(self, grams, unsure):
        text = self.r.choice([f"{grams:.1f} g", f"{grams:.0f} g", f"{grams / 1000:.4f} kg", f"{grams / 453.59237:.2f} lb"])
        if unsure:
            text += self.r.choice([f" ± {self.r.uniform(0.2, 2):.1f} %", f" ± {max(1, grams * 0.01):.0f} g"])
        return text

    def vegetable(self, name, most):
        r = self.r
        if r.random() < 0.5:
            return
        optional = " optional" if r.random() < 0.5 else ""
        spread = r.random()
        percent = r.uniform(2, most)
        share = f"{percent:.2f} %" if spread < 0.8 else f"{percent:.1f}..{percent * 1.1:.1f} %"
        self.lines.append(f"weigh {name} = {share} of cabbage{optional} counts as vegetable")
        self.produce.append(name)

    def soak(self, size):
        r = self.r
        about = f"{r.uniform(70, 80):.1f}..{r.uniform(85, 95):.1f} % of cabbage"
        if r.random() < 0.3:
            about = f"{size * 0.75:.0f}..{size * 0.95:.0f} g"
        self.lines += ["weigh bath = 100 % of cabbage discarded as water",
                       f"weigh bath_salt = {r.uniform(4, 8):.2f} % of bath discarded keeps {r.randint(10, 20)}..{r.randint(20, 35)} % counts as salt",
                       f"measure drained about {about} replaces cabbage"]
        self.produce[0] = "drained"

    def seasoning(self):
        r = self.r
        low, wet = r.uniform(10, 22), r.uniform(55, 70)
        optional = " optional" if r.random() < 0.3 else ""
        self.lines += [f'material "house sauce" is seasoning salt {low:.1f}..{low + r.uniform(0, 3):.1f} % '
                       f'water {wet:.1f}..{wet + 2:.1f} %',
                       f"weigh sauce = {r.uniform(0.5, 3):.2f} % of cabbage{optional} as house sauce"]

    def salt(self):
        r = self.r
        low, high = {"kraut": (2, 3), "mixed": (2, 4), "kimchi": (2, 5)}[self.kind]
        near = r.random()
        percent = (r.uniform(low * 0.99, low * 1.15) if near < 0.4 else r.uniform(high * 0.85, high * 1.01) if near < 0.6
                   else r.uniform(low * 0.9, high * 1.05))
        if self.soaked:
            percent *= 0.6
        base = self.produce + (["water"] if self.wet else [])
        self.lines.append(f"weigh salt = {percent:.3f} % of {self.sum_of(base)} as canning salt")

    @staticmethod
    def sum_of(names):
        return names[0] if len(names) == 1 else "(" + " + ".join(names) + ")"

    def hold(self):
        r = self.r
        names = self.produce_or_let + ["salt"] + (["water"] if self.wet else [])
        what, of = r.choice(names), r.choice([self.produce[0], self.sum_of(self.produce)])
        near = {"salt": r.uniform(1.5, 3.5), "water": r.uniform(30, 120), self.produce[0]: r.uniform(60, 110),
                "packed": r.uniform(90, 150)}.get(what, r.uniform(2, 35))
        low, high = near * r.uniform(0.3, 1), near * r.uniform(1, 2.5)
        shape = r.random()
        if shape < 0.4:
            value, unit = what, f" % of {of}"
        elif shape < 0.75:
            value, unit = f"{what} / {of}", " %"
        elif shape < 0.85:
            value, unit = f"{what} + {r.randint(1, 9)} g", f" % of {of}"
        elif shape < 0.93:
            value, unit = f"min({what}, {r.choice(names)})", f" % of {of}"
        else:
            value, unit = f"({what} + {self.produce[0]}) / ({of} + salt)", " %"
            low, high = low + 90, high + 95
        ends = r.choice(["most", "least", "between"])
        self.lines.append(f"hold {value} between {low:.2f}{unit} and {high:.2f}{unit}" if ends == "between" else
                          f"hold {value} at {ends} {high if ends == 'most' else low:.2f}{unit}")

    def scales(self):
        r = self.r
        step = r.choice([0.1, 0.1, 0.2, 0.5, 0.5, 1, 1, 2, 5, 10, 20, 50])
        within = f" within {step * r.uniform(0, 1.5):.2f} g" if r.random() < 0.8 else ""
        lines = ['kitchen "Random"', f"scale bench reads {step} g up to {r.choice([1, 2, 5, 8])} kg{within}"]
        if r.random() < 0.35:
            lines.append(f"scale pocket reads 0.1 g up to {r.choice([200, 500])} g within 0.1 g")
        return "\n".join(lines) + "\n"
