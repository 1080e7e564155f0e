"""The tables that tests/bench/run makes of figures, and that they have their place in docs/performance.md."""

import pathlib
import sys
import unittest

sys.dont_write_bytecode = True
from figures_tables import BEGIN, END, Figures, markdown, text, written_into

ROOT = pathlib.Path(__file__).resolve().parents[2]
WHERE = {"date": "2026-11-30", "processor": "one", "processors": 2, "compiler": "g++ 12", "load_at_start": 0.1, "load_at_end": 1.25,
         "quick": False}


def figures(weigh_ms=1.7):
    out = Figures()
    out.row("first", "`weigh`", weigh_ms, "ms", [{"name": "hello", "value": 1.4, "kind": "of", "target": 1.5, "peak_kb": 3379, "beyond": True},
                                                 {"name": "pint", "value": 296, "kind": "faster", "target": 60}], 7168)
    out.row("first", "reading", 92.8, "MB/s", [{"name": "JSON", "value": 119, "kind": "least", "target": 0.5}])
    out.row("check", "1,000 recipes", 20.9, "ms", [{"name": "`wc`", "value": 9.2, "kind": "of"}], note="with care")
    return out


class Tables(unittest.TestCase):
    def test_say_ratio_difference_and_what_is_wanted(self):
        table = markdown(figures(), WHERE)
        self.assertIn("On 2026-11-30, in one run, on 2 processors (one), g++ 12; load 0.1", table)
        self.assertIn("| `weigh` | 1.70 ms | 7 MB | hello, 1.40 ms, 3 MB | 1.21, +0.30 ms | at most 1.5 |\n"
                      "|  |  |  | pint, 296 ms | 174 times faster | at least 60 |\n"
                      "| reading | 92.8 MB/s |  | JSON, 119 MB/s | 0.78 | at least 0.5 |\n", table)
        self.assertIn("| 1,000 recipes | 20.9 ms |  | `wc`, 9.20 ms | 2.27 |  |", table)
        self.assertIn("- 1,000 recipes: with care.", table)
        self.assertNotIn("QUICK", table)
        self.assertNotIn("How cost grows", table)

    def test_say_less_than_a_start(self):
        self.assertIn("0.61, −0.54 ms", markdown(figures(0.86), WHERE))

    def test_say_what_is_missed(self):
        self.assertTrue(figures().met())
        late = figures(9.5)
        self.assertFalse(late.met())
        self.assertIn("at most 1.5: **missed**", markdown(late, WHERE))
        self.assertIn("at least 60: **missed**", markdown(late, WHERE))
        self.assertIn("wanted at most 1.5: **missed**", text(late, WHERE))

    def test_say_what_a_page_misses(self):
        out = figures()
        out.page_row("the engine", "1.94 MB")
        out.page_row("an update", "13.0 ms, median of 105", 13.0, 16)
        self.assertTrue(out.met())
        self.assertIn("| the engine | 1.94 MB |  |\n| an update | 13.0 ms, median of 105 | at most 16 |\n", markdown(out, WHERE))
        out.page_row("ready", "1101 ms, median of 5", 1101.0, 300)
        self.assertFalse(out.met())
        self.assertIn("| ready | 1101 ms, median of 5 | at most 300: **missed** |", markdown(out, WHERE))
        self.assertIn("at most 300: **missed**", text(out, WHERE))

    def test_a_quick_run_says_that_it_is_one(self):
        self.assertIn("NO FIGURES TO RELY ON", markdown(figures(), {**WHERE, "quick": True}))

    def test_have_one_place_in_the_page(self):
        page = (ROOT / "docs/performance.md").read_text("utf-8")
        self.assertEqual((page.count(BEGIN), page.count(END)), (1, 1))
        once = written_into(page, "| x |\n")
        self.assertIn(f"{BEGIN}\n| x |\n{END}\n", once)
        self.assertEqual(written_into(once, "| x |\n"), once)
        self.assertEqual(written_into(once, page.split(BEGIN + "\n")[1].split(END)[0]), page)


unittest.main()
