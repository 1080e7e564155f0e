#pragma once

#include <array>
#include <cstdint>
#include <random>
#include <string>
#include <string_view>

/// Random recipes as untidy people write them: any spelling of a unit, any blanks, remarks
/// anywhere.
namespace jarful::language::testing {

class RandomRecipe {
  public:
    explicit RandomRecipe(std::uint64_t seed)
        : engine_(seed) {}

    /// One line of a recipe. Most are good; what is ambiguous is refused, as it should be.
    std::string line() {
        switch (below(18)) {
        case 0:
            return "given" + gap() + name() + blanks() + "=" + blanks() + expression(1) + tail();
        case 1:
            return "total" + gap() + name() + blanks() + "=" + expression(2) + label();
        case 2:
            return "share" + gap() + name() + "=" + expression(2) + tail();
        case 3:
            return "count" + gap() + name() + " = " + expression(1) +
                   (one_in(3) ? gap() + "each" + gap() + "jar" : "") + tail();
        case 4:
            return "let" + gap() + name() + blanks() + "=" + blanks() + expression(5) + label();
        case 5:
            return "measure" + gap() + name() + gap() + "about " + range() +
                   (one_in(2) ? " replaces" + gap() + name() : "") + tail();
        case 6:
            return "brine" + gap() + name() + " =" + blanks() + "5" + blanks() + "%" + gap() +
                   "of " + (one_in(2) ? "water" : "brine") + " ," + gap() + "make " +
                   expression(2) + (one_in(2) ? " as canning salt" : "") + label();
        case 7:
            return "fill" + gap() + expression(4);
        case 8:
            return "topup" + gap() + expression(1) + (one_in(2) ? " as  fine   sea salt" : "");
        case 9:
            return "hold" + gap() + expression(3) + gap() + bound() + label();
        case 10:
            return "step" + gap() + text(true);
        case 11:
            return "rest" + gap() + number() + blanks() + pick(times) + values();
        case 12:
            return "tend" + gap() + "burp" + gap() + "every " + whole() + pick(times) +
                   (one_in(2) ? gap() + "from day " + whole() : "") +
                   (one_in(2) ? " to day " + whole() : "") + values();
        case 13:
            return "ready day " + whole() + " to" + gap() + "day " + whole() +
                   (one_in(2) ? " at 18 to 22" + blanks() + "°C" : "") + values();
        case 14:
            return "material" + gap() + text(false) + gap() + "is" + gap() + "salt" +
                   (one_in(2) ? gap() + "salt 90%" : "") +
                   (one_in(2) ? " density 1.0 .. 1.2 kg/litre" : "") +
                   (one_in(2) ? " source" + gap() + text(false) : "");
        case 15:
            return "based" + gap() + "on" + gap() + text(false);
        case 16:
            return "without" + gap() + name();
        default:
            return "weigh" + gap() + name() + blanks() + "=" + blanks() + expression(4) + tail();
        }
    }

    /// A remark behind a line, or nothing.
    std::string remark() { return one_in(4) ? blanks() + "#" + blanks() + "by \"hand\"  " : ""; }
    /// What stands between two lines.
    std::string between() {
        std::string out;
        while (one_in(3))
            out += one_in(2) ? blanks() + "\n" : blanks() + "# a remark of its own \t\n";
        return out;
    }

  private:
    static constexpr std::array<std::string_view, 5> names{"a", "salt", "carrot", "büro_9",
                                                           "coriander_seed"};
    static constexpr std::array<std::string_view, 13> units{
        "kg",     "grams", "g/lb", "kilograms/litre", "us   cup", "teaspoons",    "%",
        "pieces", "°C",    "cm^2", "metric tbsp",     "days",     "imperial pint"};
    static constexpr std::array<std::string_view, 5> times{"min", "hours", "days", "day", "weeks"};
    static constexpr std::array<std::string_view, 5> words{"fine shreds", "{{half}}", "\\\"so\\\"",
                                                           "# no remark", "ä \\\\"};

    std::uint32_t below(std::uint32_t n) {
        return std::uniform_int_distribution<std::uint32_t>(0, n - 1)(engine_);
    }
    bool one_in(std::uint32_t n) { return below(n) == 0; }
    template <std::size_t N>
    std::string pick(const std::array<std::string_view, N>& list) {
        return std::string(list[below(N)]);
    }

    std::string blanks() { return std::string(below(3), one_in(8) ? '\t' : ' '); }
    std::string gap() { return one_in(8) ? "\t" : one_in(16) ? "\xC2\xA0 " : " " + blanks(); }
    std::string name() { return pick(names); }
    std::string whole() { return std::to_string(1 + below(30)); }

    std::string number() {
        static constexpr std::array<std::string_view, 7> numbers{"1",     "2", "2.20", "1/2",
                                                                 "1 1/2", "½", "007"};
        return pick(numbers);
    }

    std::string range() { return number() + (one_in(2) ? ".." : " .. ") + "900" + blanks() + "g"; }

    std::string amount() {
        switch (below(8)) {
        case 0:
            return number();
        case 1:
            return range();
        case 2:
            return "1.80" + blanks() + "kg" + (one_in(2) ? " +/- " : "±") + "5 g";
        case 3:
            return "2" + blanks() + "lb" + gap() + "3 ounces";
        default:
            return number() + blanks() + pick(units);
        }
    }

    std::string expression(int depth) {
        if (depth == 0 || one_in(4)) return one_in(2) ? name() : amount();
        const auto inner = [&] { return expression(depth - 1); };
        const auto in = [&](const std::string& text) {
            return one_in(2) ? "(" + blanks() + text + blanks() + ")" : text;
        };
        switch (below(12)) {
        case 0:
            return in(inner()) + blanks() + "*" + blanks() + in(inner());
        case 1:
            return in(inner()) + " /" + gap() + in(inner());
        case 2:
            return in(inner()) + " + " + in(inner());
        case 3:
            return in(inner()) + gap() + "- " + in(inner());
        case 4:
        case 5:
            return amount() + gap() + "of" + gap() + in(inner());
        case 6:
            return amount() + " per" + gap() + (one_in(2) ? "kilogram" : in(inner()));
        case 7:
            return "-" + blanks() + in(inner());
        case 8:
            return in(inner()) + blanks() + "^" + blanks() + (one_in(2) ? "2" : "(-2)");
        case 9:
            return "max(" + inner() + " ," + gap() + inner() + ")";
        case 10:
            return "(if " + condition(2) + " then " + inner() + " else " + inner() + ")";
        default:
            return "(" + inner() + ")";
        }
    }

    std::string condition(int depth) {
        if (depth == 0 || one_in(3)) return name() + (one_in(2) ? "<=" : " > ") + amount();
        const std::string one = condition(depth - 1);
        switch (below(4)) {
        case 0:
            return one + " and " + condition(depth - 1);
        case 1:
            return one + gap() + "or " + condition(depth - 1);
        case 2:
            return "not (" + one + ")";
        default:
            return "not " + one;
        }
    }

    std::string bound() {
        switch (below(3)) {
        case 0:
            return "between " + expression(1) + gap() + "and " + expression(1);
        case 1:
            return "at" + gap() + "least " + expression(2);
        default:
            return "at most " + expression(2);
        }
    }

    std::string tail() {
        std::string out;
        if (one_in(4))
            out += gap() + "optional";
        else if (one_in(6))
            out += gap() + "discarded" + (one_in(2) ? " keeps 15 .. 30%" : "");
        if (one_in(2)) out += gap() + "as" + gap() + "fine" + gap() + "sea salt";
        if (one_in(4)) out += gap() + "counts as" + gap() + "vegetable";
        return out + label();
    }

    /// A text, perhaps over several lines, perhaps on a line of its own.
    std::string text(bool with_values) {
        std::string out = one_in(8) ? remark() + "\n" + blanks() : "";
        do {
            if (out.ends_with("\"")) out += remark() + "\n" + blanks();
            out += "\"" + pick(words) + (with_values && one_in(2) ? "{ " + name() + "/3}" : "") +
                   pick(words) + "\"";
        } while (one_in(4));
        return out;
    }
    std::string label() { return one_in(3) ? gap() + text(false) : ""; }
    std::string values() { return one_in(3) ? gap() + text(true) : ""; }

    std::mt19937_64 engine_;
};

} // namespace jarful::language::testing
