#include "engine/book/first_recipe.hpp"

#include "engine/book/first_kinds.hpp"
#include "engine/language/characters.hpp"
#include "engine/language/parse.hpp"
#include "engine/language/tidy.hpp"
#include "engine/larder/fold.hpp"
#include "engine/plan/plan.hpp"
#include "engine/tend/outlook.hpp"
#include "engine/units/amount.hpp"
#include "engine/units/nearest.hpp"

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

std::string number(double value) {
    return units::print_number(value, 4);
}

/// What the tail of a line can call a material.
std::string_view called(const larder::Material& m) {
    return m.name.find_first_of(",()/") == std::string_view::npos ? m.name : m.id;
}

struct Addition {
    std::string name;
    const larder::Material* material = nullptr;
    std::string line; ///< behind "weigh " or "count "
    bool count = false;
};

class Writer {
  public:
    Writer(const FirstRecipe& wish, language::Findings& findings)
        : wish_(wish)
        , findings_(findings) {}

    std::optional<WrittenRecipe> run() {
        if (!title() || !kind() || !salt()) return std::nullopt;
        for (const std::string& one : wish_.with)
            addition(one);
        if (findings_.has_faults()) return std::nullopt;
        compose();
        auto text = checked();
        if (!text) return std::nullopt;
        return WrittenRecipe{*text, std::string(kind_->name), std::string(ruling_->method),
                             ruling_->basis, percent_};
    }

  private:
    bool fault(const char* code, std::string message, std::string advice = {}) {
        findings_.fault(code, std::nullopt, std::move(message), std::move(advice));
        return false;
    }

    // ---- What was said. ----

    bool title() {
        const std::string& t = wish_.title;
        const bool blank = t.find_first_not_of(" \t") == std::string::npos;
        if (blank || language::count_characters(t) > 120)
            return fault("bad-title", "A recipe has a title of 1 to 120 characters.",
                         "Write it in quotes: `jarful new \"Winter kraut\" --kind kraut`.");
        language::Findings faults;
        const auto source = language::read_source("", t, faults);
        if (!source || faults.has_faults() || t.find_first_of("\r\n\t") != std::string::npos)
            return fault("bad-title", "This title holds characters that no line of text has.",
                         "Write it with letters, digits and blanks.");
        return true;
    }

    bool kind() {
        const std::string& words = wish_.kind;
        std::string method;
        // "cucumbers salt-stock" is a kind and its method, though names of kinds may have blanks.
        if (const std::size_t blank = words.rfind(' '); blank != std::string::npos) {
            method = words.substr(blank + 1);
            kind_ = larder::find_kind(words.substr(0, blank));
        }
        if (kind_ == nullptr || larder::find_ruling(*kind_, method) == nullptr) {
            if (const larder::Kind* whole = larder::find_kind(words)) {
                kind_ = whole;
                method.clear();
            }
        }
        if (kind_ == nullptr) {
            const auto near = larder::nearest_kind(words);
            return fault(
                "unknown-kind", fmt::format("There is no kind of ferment called \"{}\".", words),
                near ? fmt::format("Did you mean \"{}\"? `jarful ranges` lists them.", *near)
                     : "`jarful ranges` lists the kinds.");
        }
        if (method.empty() && kind_->method_needed)
            return fault(
                "method-needed",
                fmt::format("{} is made in more than one way, and the salt differs.", kind_->name),
                fmt::format("Write the method, too: {}.", methods("--kind \"{} {}\"")));
        ruling_ = larder::find_ruling(*kind_, method);
        if (ruling_ == nullptr)
            return fault(
                "unknown-method",
                fmt::format("{} is not made by a method called \"{}\".", kind_->name, method),
                methods("").empty() ? "Leave the method out."
                                    : "The methods: " + methods("{1}") + ".");
        start_ = &start_of(kind_->name, ruling_->method);
        lead_ = std::string(start_->name);
        return true;
    }

    [[nodiscard]] std::string methods(const std::string& form) const {
        std::string out;
        for (const larder::Ruling& r : kind_->rulings) {
            if (r.method.empty()) continue;
            out +=
                (out.empty() ? "" : ", ") + fmt::format(fmt::runtime(form), kind_->name, r.method);
        }
        return out;
    }

    bool salt() {
        if (!ruling_->typical && !(ruling_->low && ruling_->high))
            return fault(
                "no-first-salt",
                fmt::format("How much salt {}{}{} takes is said by no publication that the larder "
                            "has, and by no practice.",
                            kind_->name, ruling_->method.empty() ? "" : " ", ruling_->method),
                fmt::format("`jarful ranges {}` says why.", kind_->name));
        percent_ = ruling_->typical
                       ? *ruling_->typical
                       : std::round((ruling_->low->percent + ruling_->high->percent) * 5) / 10;
        if (!wish_.salt) return true;
        const auto amount = units::read_amount(*wish_.salt);
        if (!amount || amount->dimension != units::dim::plain || amount->plain_number ||
            amount->range || !(amount->value > 0) || amount->value >= 0.5)
            return fault("bad-addition", fmt::format("\"{}\" is no share of salt.", *wish_.salt),
                         fmt::format("Write a percentage {}: --salt {}%.",
                                     larder::describe(ruling_->basis), number(percent_)));
        percent_ = amount->value * 100;
        return true;
    }

    /// "carrot=6%": a line of its own.
    void addition(const std::string& words) {
        const std::size_t equals = words.find('=');
        if (equals == std::string::npos || equals == 0 || equals + 1 == words.size()) {
            fault("bad-addition", fmt::format("\"{}\" is not read as NAME=AMOUNT.", words),
                  "Write, for example, --with carrot=6%,caraway=1.5g/kg. Decimals have a point.");
            return;
        }
        Addition a;
        std::string said = words.substr(0, equals);
        std::replace_if(
            said.begin(), said.end(), [](char c) { return c == ' ' || c == '-'; }, '_');
        const auto name = language::normalise_name(said);
        const auto taken = [&](const Addition& other) { return other.name == *name; };
        if (!name || language::is_reserved(*name)) {
            fault("bad-addition", fmt::format("\"{}\" cannot be a name.", said),
                  "A name begins with a letter, and is no unit and no word of the language.");
            return;
        }
        if (*name == lead_ || *name == "salt" || *name == "water" || *name == "packed" ||
            *name == "stock" || *name == "poured" ||
            std::any_of(additions_.begin(), additions_.end(), taken)) {
            fault("bad-addition", fmt::format("\"{}\" is in the recipe already.", *name),
                  *name == "salt" ? "Say how much with --salt." : "Leave it out of --with.");
            return;
        }
        a.name = *name;
        if (material(a) && amount(a, words.substr(equals + 1))) additions_.push_back(std::move(a));
    }

    bool material(Addition& a) {
        std::string plain = a.name;
        std::replace(plain.begin(), plain.end(), '_', ' ');
        const auto match = larder_.find(plain);
        if (!match) {
            std::string near;
            for (const std::string_view name : larder_.nearest(plain))
                near += (near.empty() ? "" : ", ") + std::string(name);
            return fault("bad-addition",
                         fmt::format("The larder does not know what \"{}\" is.", plain),
                         near.empty() ? "Leave it out, and write its line with a `material` line."
                                      : "Did you mean one of: " + near + "?");
        }
        if (match->material->vague)
            return fault("bad-addition", fmt::format("\"{}\" may be more than one thing.", plain),
                         std::string(match->material->vague_hint));
        if (match->material->role == Role::salt)
            return fault("bad-addition", "The salt has an option of its own.",
                         "Say how much with --salt.");
        a.material = match->material;
        return true;
    }

    bool amount(Addition& a, const std::string& text) {
        std::size_t length = 0;
        const auto first = units::read_number(text);
        const std::string of = " of " + lead_;
        if (first && text.size() > first->length + 1 && text[first->length] == '/') {
            // "1/kg": pieces for every kilogram.
            const auto unit = units::read_unit(text.substr(first->length + 1));
            if (unit && unit->dimension() == units::dim::mass) {
                a.count = true;
                a.line = text.substr(0, first->length) + " per " + unit->text() + of;
                return true;
            }
        }
        const auto amount = units::read_amount_prefix(text, length);
        if (amount && length == text.size() && amount->value > 0 && !amount->temperature_point) {
            const units::CompoundUnit& unit = amount->unit;
            if (amount->percent) {
                a.line = text + of;
                return true;
            }
            if (unit.size == 2 && unit.factors[0].exponent == 1 && unit.factors[1].exponent == -1 &&
                units::unit(unit.factors[1].id).dimension == units::dim::mass && first) {
                a.line = fmt::format("{} {} per {}{}", text.substr(0, first->length),
                                     units::unit(unit.factors[0].id).symbol,
                                     units::unit(unit.factors[1].id).symbol, of);
                return true;
            }
            a.count = amount->plain_number || amount->dimension == units::dim::count;
            a.line = text;
            if (a.count || amount->dimension == units::dim::mass ||
                amount->dimension == units::dim::volume)
                return true;
        }
        return fault("bad-addition", fmt::format("\"{}={}\" is no amount.", a.name, text),
                     "Write a percentage of the produce (6%), so much for each kilogram (1.5g/kg, "
                     "1/kg), a weight (20g), a spoon (1tsp) or a number of pieces (2).");
    }

    // ---- The text. ----

    [[nodiscard]] bool brined() const {
        return !start_->water.empty() || ruling_->basis == Basis::of_brine;
    }

    /// A stock that is made beforehand, where the range is one of the brine's own strength.
    [[nodiscard]] bool stock() const { return ruling_->basis == Basis::of_brine; }

    [[nodiscard]] std::string water() const {
        std::string out(start_->water.empty() ? "80 % of NAME" : start_->water);
        out.replace(out.find("NAME"), 4, lead_);
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
        std::vector<std::string> out{lead_};
        for (const Addition& a : additions_) {
            if (a.count) continue;
            const Role role = a.material->role;
            if (role == Role::vegetable || everything ||
                (role == Role::acid && ruling_->basis != Basis::of_vegetables))
                out.push_back(a.name);
        }
        if (brined() && !stock()) out.emplace_back("water");
        return out;
    }

    void compose() {
        out_ = remark("The first version of a house recipe. Every line may be changed: `jarful "
                      "check` says whether the salt still holds, `jarful weigh` turns it into "
                      "grams for what is on the counter.");
        out_ += fmt::format("recipe \"{}\" version 1\n", escaped(wish_.title));
        out_ += "kind   " + std::string(kind_->name) +
                (ruling_->method.empty() ? "" : " " + std::string(ruling_->method)) + "\n";
        for (const std::string_view id : kind_->cautions)
            if (const larder::Caution* c = larder::find_caution(id))
                out_ += remark(fmt::format("Take care: {}. {}", c->title, c->text));
        produce();
        salt_lines();
        vessel();
        method();
    }

    void produce() {
        out_ += '\n' + remark("`given` is what you weigh first; set it at the counter, as in " +
                              lead_ + "=1.3kg. Everything else follows from it.");
        out_ += fmt::format("given  {} = {} {}\n", lead_, start_->amount, start_->tail);
        out_ += fmt::format("let    packed = {}   \"weigh a full jar, and write what you find\"\n",
                            start_->packed);
        if (!additions_.empty())
            out_ += remark("`as` says what a name stands for; `count` is whole pieces.");
        for (const Addition& a : additions_) {
            const bool same = larder::fold(a.material->name) == larder::fold(a.name);
            out_ += fmt::format("{}  {} = {}{}\n", a.count ? "count" : "weigh", a.name, a.line,
                                same ? "" : " as " + std::string(called(*a.material)));
        }
    }

    void salt_lines() {
        out_ += '\n';
        if (stock()) {
            out_ += remark(range_words() + " A stock is made beforehand; only what is poured "
                                           "counts in the jar.");
            out_ += fmt::format("brine  stock = {} % of brine, make 100 % of {} as fine sea salt\n"
                                "weigh  poured = {} as stock\n",
                                number(percent_), lead_, water());
            return;
        }
        if (brined()) {
            out_ += remark(water().starts_with("cover")
                               ? "`cover` is what fills the gaps between the pieces."
                               : "About what covers the pieces; weigh what you pour, and write "
                                 "that.");
            out_ += "weigh  water = " + water() + "\n";
        }
        const bool everything = ruling_->basis == Basis::of_everything;
        const double of_rest = everything ? 100 * percent_ / (100 - percent_) : percent_;
        std::string why = range_words();
        if (everything)
            why += fmt::format(" {} % of the rest is {} % of everything, the salt itself included.",
                               number(of_rest), number(percent_));
        const std::vector<std::string> names = base(everything);
        if (names.size() > 1) why += " The parentheses hold all that it is a share of.";
        out_ += remark(why);
        out_ +=
            fmt::format("weigh  salt = {} % of {} as fine sea salt\n", number(of_rest), sum(names));
        out_ += remark("A bound of the house, if you want one narrower than that:");
        out_ += fmt::format("# hold   salt / {} at least {} %   \"less goes soft\"\n", sum(names),
                            number(std::round(of_rest * 9) / 10));
    }

    [[nodiscard]] std::string range_words() const {
        const auto end = [](const std::optional<larder::Bound>& bound) {
            if (!bound) return std::string();
            const larder::RangeRow* row = bound->row;
            std::string out = number(bound->percent) + " %";
            if (row != nullptr)
                out += row->status == larder::Status::common_practice
                           ? fmt::format(" ({})", larder::describe(row->status))
                           : fmt::format(" ({}{}{}; {})", row->source,
                                         row->section.empty() ? "" : ", ", row->section,
                                         larder::describe(row->status));
            return out;
        };
        std::string out;
        if (ruling_->low && ruling_->high && ruling_->low->row == ruling_->high->row)
            out = fmt::format("{} to {}", number(ruling_->low->percent), end(ruling_->high));
        else if (ruling_->low && ruling_->high)
            out = end(ruling_->low) + " to " + end(ruling_->high);
        else if (ruling_->low)
            out = "at least " + end(ruling_->low);
        else if (ruling_->high)
            out = "at most " + end(ruling_->high);
        else
            return fmt::format("There is no range for this kind; {} % {} is a figure of practice.",
                               number(percent_), larder::describe(ruling_->basis));
        return fmt::format("Salt {}: the range is {}.", larder::describe(ruling_->basis), out);
    }

    void vessel() {
        out_ += "\n" + remark("How much room it takes, and how much stays free: it rises.");
        out_ += "fill   " + lead_ + " / packed\nheadspace 15 %\n";
        if (!brined())
            out_ += fmt::format("# If the juice does not cover: so much salt for 100 g of water.\n"
                                "topup  {} %\n",
                                number(percent_));
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
        const tend::Outlook outlook = tend::outlook(kind_->name, ruling_->method, celsius);
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
        std::string out = lead_;
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
            result = plan::check(document, kitchen::default_kitchen(), faults);
        }
        if (!result || !faults.empty()) {
            const auto& all = faults.all();
            fault("bad-addition",
                  "With this the recipe would not hold: " +
                      (all.empty() ? std::string("it cannot be read.") : all.front().message),
                  all.empty() ? "" : all.front().advice);
            return std::nullopt;
        }
        const bool ranged = ruling_->low || ruling_->high;
        if (ranged && result->verdict != plan::Verdict::inside) {
            fault("salt-out-of-range",
                  "The salt would not be inside the range: " +
                      (result->salt ? result->salt->reason : result->no_salt_reason),
                  fmt::format("Say another share with --salt, {}, or take out what brings salt of "
                              "its own.",
                              larder::describe(ruling_->basis)));
            return std::nullopt;
        }
        return text;
    }

    const FirstRecipe& wish_;
    language::Findings& findings_;
    larder::Larder larder_;
    const larder::Kind* kind_ = nullptr;
    const larder::Ruling* ruling_ = nullptr;
    const Start* start_ = nullptr;
    std::string lead_;
    double percent_ = 0;
    std::vector<Addition> additions_;
    std::string out_;
};

} // namespace

std::optional<WrittenRecipe> first_recipe(const FirstRecipe& wish, language::Findings& findings) {
    return Writer(wish, findings).run();
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
