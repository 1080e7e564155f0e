#pragma once

#include <cmath>
#include <cstdint>
#include <cstdio>
#include <random>
#include <string>
#include <utility>
#include <vector>

/// Random recipes about which there is something to judge: layers on top, optional lines, bounds
/// that are expressions, weights that are taken later, coarse scales.
namespace jarful::test {

inline std::string figure(double x) {
    char text[64];
    std::snprintf(text, sizeof text, "%.4f", x);
    return text;
}

/// A recipe, and once more with every bound written the other way: `apple at most 12 % of cabbage`
/// for `apple / cabbage at most 12 %`.
struct JudgedRecipe {
    std::string text, otherwise;
    std::string kitchen;
    std::vector<std::string> optional;
    bool cap = false, measured = false;
};

class JudgedRecipes {
  public:
    explicit JudgedRecipes(std::uint64_t seed)
        : engine_(seed) {}

    JudgedRecipe next() {
        out_ = {};
        produce_ = {"cabbage"};
        lines_ = "recipe \"Random\"\n";
        const bool wet = one_in(3);
        const bool soaked = !wet && one_in(4);
        lines_ += soaked ? "kind kimchi\n" : wet ? "kind mixed\n" : "kind kraut\n";
        const double size = std::exp(real(std::log(150.0), std::log(4000.0)));
        lines_ += "given cabbage = " + figure(size) + " g" +
                  (one_in(5) ? " ± " + figure(size * real(0.002, 0.02)) + " g" : "") + "\n";
        vegetable("carrot", 0.3);
        vegetable("apple", 0.25);
        vegetable("onion", 0.15);
        if (soaked) soak(size);
        if (wet) lines_ += "weigh water = " + figure(real(40, 120)) + " % of cabbage\n";
        salt(wet, soaked);
        if (one_in(2)) cap();
        const int bounds = whole(0, 3);
        out_.text = out_.otherwise = lines_;
        for (int i = 0; i < bounds; ++i)
            bound(wet);
        out_.kitchen = kitchen();
        return std::move(out_);
    }

    int whole(int low, int high) { return std::uniform_int_distribution(low, high)(engine_); }
    double real(double low, double high) {
        return std::uniform_real_distribution(low, high)(engine_);
    }
    bool one_in(int n) { return whole(1, n) == 1; }

  private:
    void vegetable(const std::string& name, double most) {
        if (one_in(2)) return;
        const bool optional = one_in(2);
        lines_ += "weigh " + name + " = " + figure(100 * real(0.02, most)) + " % of cabbage " +
                  (optional ? "optional counts as vegetable\n" : "counts as vegetable\n");
        if (optional) out_.optional.push_back(name);
        produce_.push_back(name);
    }

    void soak(double size) {
        lines_ +=
            "weigh bath = 100 % of cabbage discarded as water\n"
            "weigh bath_salt = " +
            figure(real(4, 8)) +
            " % of bath discarded keeps 15..30 % counts as salt\n"
            "measure drained about " +
            (one_in(3) ? figure(size * 0.75) + ".." + figure(size * 0.95) + " g"
                       : figure(real(70, 80)) + ".." + figure(real(85, 95)) + " % of cabbage") +
            " replaces cabbage\n";
        produce_.front() = "drained";
        out_.measured = true;
    }

    void salt(bool wet, bool soaked) {
        // Near an end of the range, where it matters, more often than not.
        const double middle = one_in(3)   ? real(1.6, 3.4)
                              : one_in(2) ? real(1.95, 2.3)
                                          : real(2.7, 3.1);
        const double percent = soaked ? middle * 0.6 : wet && one_in(2) ? middle + 1 : middle;
        std::string of = sum(produce_);
        if (wet) of = "(" + of + " + water)";
        lines_ += "weigh salt = " + figure(percent) + " % of " + of + " as canning salt\n";
    }

    void cap() {
        lines_ += "cap salt_cap = " + figure(real(0.05, 0.9)) + " % of cabbage as canning salt\n";
        out_.cap = true;
    }

    /// A bound near what the recipe comes to, written in both ways.
    void bound(bool wet) {
        std::vector<std::string> bounded = produce_;
        if (wet) bounded.emplace_back("water");
        bounded.emplace_back("salt");
        const std::string of = one_in(2) ? produce_.front() : sum(produce_);
        const std::string what =
            bounded[static_cast<std::size_t>(whole(0, static_cast<int>(bounded.size()) - 1))];
        double near = what == "salt"    ? real(1.8, 3.2)
                      : what == "water" ? real(40, 120)
                                        : real(2, 35);
        if (what == produce_.front()) near = real(60, 110);
        const std::string low = figure(near * real(0.6, 1.0));
        const std::string high = figure(near * real(1.0, 1.5));
        const std::string share = "hold " + what + " / " + of;
        const std::string amount = "hold " + what;
        const auto add = [&](const std::string& a, const std::string& b) {
            out_.text += amount + a + "\n";
            out_.otherwise += share + b + "\n";
        };
        switch (whole(0, 2)) {
        case 0:
            return add(" at most " + high + " % of " + of, " at most " + high + " %");
        case 1:
            return add(" at least " + low + " % of " + of, " at least " + low + " %");
        default:
            return add(" between " + low + " % of " + of + " and " + high + " % of " + of,
                       " between " + low + " % and " + high + " %");
        }
    }

    static std::string sum(const std::vector<std::string>& names) {
        std::string out;
        for (const std::string& name : names)
            out += (out.empty() ? "" : " + ") + name;
        return names.size() == 1 ? out : "(" + out + ")";
    }

    std::string kitchen() {
        static constexpr double steps[] = {0.1, 0.5, 1, 1, 2, 5, 10, 50};
        const double step = steps[whole(0, 7)];
        std::string out = "kitchen \"Random\"\nscale bench reads " + figure(step) + " g up to " +
                          std::to_string(whole(2, 8)) + " kg within " +
                          figure(step * real(0, 1.5)) + " g\n";
        if (one_in(3)) out += "scale pocket reads 0.1 g up to 500 g within 0.1 g\n";
        return out;
    }

    std::mt19937_64 engine_;
    JudgedRecipe out_;
    std::string lines_;
    std::vector<std::string> produce_;
};

} // namespace jarful::test
