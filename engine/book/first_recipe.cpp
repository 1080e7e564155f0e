#include "engine/book/first_recipe.hpp"

#include "engine/book/first_wish.hpp"
#include "engine/language/parse.hpp"
#include "engine/language/tidy.hpp"
#include "engine/larder/fold.hpp"
#include "engine/plan/plan.hpp"
#include "engine/tend/outlook.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace jarful::book {

using larder::Basis;
using larder::Role;

namespace {

/// The room that a first recipe is meant for.
constexpr double celsius = 20;

/// A sentence in remark lines of at most 78 columns.
std::string remark(std::string_view words) {
    std::string out;
    std::string line = "#";
    while (!words.empty()) {
        const std::size_t end = std::min(words.find(' '), words.size());
        const std::string_view word = words.substr(0, end);
        words.remove_prefix(std::min(end + 1, words.size()));
        if (line.size() + 1 + word.size() > 78 && line.size() > 1) {
            out += line + "\n";
            line = "#";
        }
        line += ' ';
        line += word;
    }
    return out + line + "\n";
}

std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        out += c;
    }
    return out;
}

class Writer {
  public:
    Writer(const FirstRecipe& said, Wish wish, language::Findings& findings)
        : said_(said)
        , wish_(std::move(wish))
        , findings_(findings) {}

    std::optional<WrittenRecipe> run() {
        compose();
        auto text = checked();
        if (!text) return std::nullopt;
        return WrittenRecipe{*text, std::string(wish_.kind->name),
                             std::string(wish_.ruling->method), wish_.ruling->basis, wish_.percent};
    }

  private:
    // ---- The text. ----

    [[nodiscard]] bool brined() const {
        // What is a share of the vegetables alone makes its own brine.
        return (!wish_.start->water.empty() && wish_.ruling->basis != Basis::of_vegetables) ||
               stock() || evened();
    }

    /// A stock that is made beforehand, where the range is one of the brine's own strength.
    [[nodiscard]] bool stock() const { return wish_.ruling->basis == Basis::of_brine; }

    /// Where the range is one of the brine once it has evened out.
    [[nodiscard]] bool evened() const { return wish_.ruling->basis == Basis::of_evened_brine; }

    /// What is in the vegetable itself: the middle of what the larder knows, or of nearly all.
    [[nodiscard]] double own_water_percent() const {
        const larder::Larder larder;
        std::string material(wish_.start->tail);
        if (material.starts_with("as ")) material.erase(0, 3);
        const larder::Material* known = larder.named(material);
        return known != nullptr && known->water ? std::round(100 * known->water->typical) : 85;
    }

    [[nodiscard]] std::string water() const {
        std::string out(wish_.start->water.empty() ? "80 % of NAME" : wish_.start->water);
        out.replace(out.find("NAME"), 4, wish_.lead);
        return out;
    }

    static std::string sum(const std::vector<std::string>& names) {
        std::string out;
        for (const std::string& name : names)
            out += (out.empty() ? "" : " + ") + name;
        return names.size() == 1 ? out : "(" + out + ")";
    }

    /// What the salt is a share of.
    [[nodiscard]] std::vector<std::string> base(bool everything) const {
        if (evened()) return {"own_water", "water"};
        std::vector<std::string> out{wish_.lead};
        for (const Addition& a : wish_.additions) {
            if (a.count) continue;
            const Role role = a.role;
            if (role == Role::vegetable || everything ||
                (role == Role::acid && wish_.ruling->basis != Basis::of_vegetables))
                out.push_back(a.name);
        }
        if (brined() && !stock()) out.emplace_back("water");
        return out;
    }

    void compose() {
        out_ = remark("The first version of a house recipe. Every line may be changed: `jarful "
                      "check` says whether the salt still holds, `jarful weigh` turns it into "
                      "grams for what is on the counter.");
        out_ += fmt::format("recipe \"{}\" version 1\n", escaped(said_.title));
        out_ += "kind   " + std::string(wish_.kind->name) +
                (wish_.ruling->method.empty() ? "" : " " + std::string(wish_.ruling->method)) +
                "\n";
        for (const std::string_view id : wish_.kind->cautions)
            if (const larder::Caution* c = larder::find_caution(id))
                out_ += remark(fmt::format("Take care: {}. {}", c->title, c->text));
        produce();
        salt_lines();
        vessel();
        method();
    }

    void produce() {
        out_ += '\n' + remark("`given` is what you weigh first; set it at the counter, as in " +
                              wish_.lead + "=1.3kg. Everything else follows from it.");
        out_ +=
            fmt::format("given  {} = {} {}\n", wish_.lead, wish_.start->amount, wish_.start->tail);
        out_ += fmt::format("let    packed = {}   \"weigh a full jar, and write what you find\"\n",
                            wish_.start->packed);
        if (!wish_.additions.empty())
            out_ += remark("`as` says what a name stands for; `count` is whole pieces.");
        for (const Addition& a : wish_.additions) {
            out_ += fmt::format("{}  {} = {}{}\n", a.count ? "count" : "weigh", a.name, a.line,
                                a.called.empty() ? "" : " as " + a.called);
        }
    }

    void salt_lines() {
        out_ += '\n';
        if (stock()) {
            out_ += remark(range_words() + " A stock is made beforehand; only what is poured "
                                           "counts in the jar.");
            out_ += fmt::format("brine  stock = {} % of brine, make 100 % of {} as fine sea salt\n"
                                "weigh  poured = {} as stock\n",
                                print_figure(wish_.percent), wish_.lead, water());
            return;
        }
        if (brined()) {
            out_ += remark(water().starts_with("cover")
                               ? "`cover` is what fills the gaps between the pieces."
                               : "About what covers the pieces; weigh what you pour, and write "
                                 "that.");
            out_ += "weigh  water = " + water() + "\n";
        }
        if (evened()) {
            out_ += remark("Water in the " + spoken() +
                           " thins the brine too; it varies, and the "
                           "larder says from what to what.");
            out_ += fmt::format("let    own_water = {} % of {}\n",
                                print_figure(own_water_percent()), wish_.lead);
        }
        const bool everything = wish_.ruling->basis == Basis::of_everything;
        const double of_rest =
            everything || evened() ? 100 * wish_.percent / (100 - wish_.percent) : wish_.percent;
        std::string why = range_words();
        if (everything)
            why += fmt::format(" {} % of the rest is {} % of everything, the salt itself included.",
                               print_figure(of_rest), print_figure(wish_.percent));
        if (evened())
            why += fmt::format(" {} % of all that water is {} % of the brine.",
                               print_figure(of_rest), print_figure(wish_.percent));
        const std::vector<std::string> names = base(everything);
        if (names.size() > 1) why += " The parentheses hold all that it is a share of.";
        out_ += remark(why);
        out_ += fmt::format("weigh  salt = {} % of {} as fine sea salt\n", print_figure(of_rest),
                            sum(names));
        out_ += remark("A bound of the house, if you want one narrower than that:");
        out_ += fmt::format("# hold   salt / {} at least {} %   \"less goes soft\"\n", sum(names),
                            print_figure(std::round(of_rest * 9) / 10));
    }

    [[nodiscard]] std::string range_words() const {
        const auto end = [](const std::optional<larder::Bound>& bound) {
            if (!bound) return std::string();
            const larder::RangeRow* row = bound->row;
            std::string out = print_figure(bound->percent) + " %";
            if (row != nullptr)
                out += row->status == larder::Status::common_practice
                           ? fmt::format(" ({})", larder::standing(*row))
                           : fmt::format(" ({}{}{}; {})", row->source,
                                         row->section.empty() ? "" : ", ", row->section,
                                         larder::standing(*row));
            return out;
        };
        std::string out;
        if (wish_.ruling->low && wish_.ruling->high &&
            wish_.ruling->low->row == wish_.ruling->high->row)
            out = fmt::format("{} to {}", print_figure(wish_.ruling->low->percent),
                              end(wish_.ruling->high));
        else if (wish_.ruling->low && wish_.ruling->high)
            out = end(wish_.ruling->low) + " to " + end(wish_.ruling->high);
        else if (wish_.ruling->low)
            out = "at least " + end(wish_.ruling->low);
        else if (wish_.ruling->high)
            out = "at most " + end(wish_.ruling->high);
        else
            return fmt::format("There is no range for this kind; {} % {} is a figure of practice.",
                               print_figure(wish_.percent), larder::describe(wish_.ruling->basis));
        return fmt::format("Salt {}: the range is {}.", larder::describe(wish_.ruling->basis), out);
    }

    void vessel() {
        out_ += "\n" + remark("How much room it takes, and how much stays free: it rises.");
        out_ += "fill   " + wish_.lead + " / packed\nheadspace 15 %\n";
        if (!brined())
            out_ += fmt::format("# If the juice does not cover: so much salt for 100 g of water.\n"
                                "topup  {} %\n",
                                print_figure(wish_.percent));
    }

    void method() {
        out_ += "\n" + remark("{braces} print what the scale should show.");
        if (stock()) {
            out_ += "step   \"Pack the " + spoken() +
                    " into clean jars, pour on {poured} of the brine and weight them under.\"\n";
        } else if (brined()) {
            out_ += "step   \"Dissolve {salt} of salt in {water} of water.\"\n"
                    "step   \"Pack the " +
                    spoken() + " into clean jars, pour on the brine and weight them under.\"\n";
        } else {
            out_ += "step   \"Mix {salt} of salt into the " + spoken() +
                    ", half of it, {salt / 2}, at a time.\"\n"
                    "rest   30 min   \"The salt draws the juice.\"\n"
                    "step   \"Pack into clean jars and press until the juice stands above; weight "
                    "it under.\"\n";
        }
        out_ += "tend   burp every 1 day from day 1 to day 7\n"
                "tend   look every 2 days from day 2   \"Everything still under the brine?\"\n";
        const tend::Outlook outlook =
            tend::outlook(wish_.kind->name, wish_.ruling->method, celsius);
        if (outlook.ph_by) {
            out_ += source_of(*outlook.ph_by->row);
            out_ += fmt::format(
                "tend   test on day {}   \"At pH 4.6 or below by now, at the latest?\"\n",
                outlook.ph_by->day);
        }
        if (outlook.window && !outlook.window->estimate() && outlook.window->days.from >= 1) {
            out_ += source_of(*outlook.window->row);
            out_ += fmt::format("ready  day {} to day {} at 20 °C\n", outlook.window->days.from,
                                outlook.window->days.to);
        } else {
            out_ += remark("When it was ready, once you know:");
            out_ += "# ready  day 14 to day 28 at 18 to 22 °C\n";
        }
        out_ += "# keep   cold for 3 months\n";
    }

    static std::string source_of(const larder::TimingRow& row) {
        return remark(fmt::format("By {}{}{}; {}:", row.source, row.section.empty() ? "" : ", ",
                                  row.section, larder::describe(row.status)));
    }

    [[nodiscard]] std::string spoken() const {
        std::string out = wish_.lead;
        std::replace(out.begin(), out.end(), '_', ' ');
        return out;
    }

    // ---- Whether it holds. ----

    std::optional<std::string> checked() {
        language::Findings faults;
        auto source = language::read_source("the new recipe", out_, faults);
        auto text = source ? language::tidy(std::move(*source), faults) : std::nullopt;
        std::optional<plan::CheckResult> result;
        if (text) {
            const language::Document document =
                language::parse(language::Source("the new recipe", *text), faults);
            kitchen::Kitchen kitchen = kitchen::default_kitchen();
            kitchen.house = said_.house;
            kitchen.materials = said_.materials;
            result = plan::check(document, kitchen, faults);
        }
        if (!result || !faults.empty()) {
            const auto& all = faults.all();
            findings_.fault(
                "bad-addition", std::nullopt,
                "With this the recipe would not hold: " +
                    (all.empty() ? std::string("it cannot be read.") : all.front().message),
                all.empty() ? "" : all.front().advice);
            return std::nullopt;
        }
        const bool ranged = wish_.ruling->low || wish_.ruling->high;
        if (ranged && result->verdict != plan::Verdict::inside) {
            findings_.fault(
                "salt-out-of-range", std::nullopt,
                "The salt would not be inside the range: " +
                    (result->salt ? result->salt->reason : result->no_salt_reason),
                fmt::format("Say another share with --salt, {}, or take out what brings salt of "
                            "its own.",
                            larder::describe(wish_.ruling->basis)));
            return std::nullopt;
        }
        return text;
    }

    const FirstRecipe& said_;
    const Wish wish_;
    language::Findings& findings_;
    std::string out_;
};

} // namespace

std::optional<WrittenRecipe> first_recipe(const FirstRecipe& wish, language::Findings& findings) {
    auto understood = understand(wish, findings);
    if (!understood) return std::nullopt;
    return Writer(wish, std::move(*understood), findings).run();
}

std::string file_name(std::string_view title) {
    std::string out;
    for (const char c : larder::fold(title)) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        if (plain) {
            out += c;
        } else if (!out.empty() && out.back() != '-') {
            out += '-';
        }
        if (out.size() >= 60) break;
    }
    while (out.ends_with('-'))
        out.pop_back();
    if (out.empty()) out = "recipe";
    if (out == "kitchen" || out == "house") out += "-recipe";
    return out + ".jarful";
}

} // namespace jarful::book
