#include "engine/book/first_wish.hpp"

#include "engine/language/characters.hpp"
#include "engine/language/command_line.hpp"
#include "engine/language/parse.hpp"
#include "engine/larder/fold.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace jarful::book {

using larder::Role;

namespace {

/// What the tail of a line can call a material.
std::string_view called(const larder::Material& m) {
    return m.name.view().find_first_of(",()/") == std::string_view::npos ? m.name : m.id;
}

/// The middle of a range, to a tenth of a percent where that is still inside.
double middle(const larder::Ruling& ruling) {
    const double exact = (ruling.low->percent + ruling.high->percent) / 2;
    const double round = std::round(exact * 10) / 10;
    return round >= ruling.low->percent && round <= ruling.high->percent ? round : exact;
}

class WishReader {
  public:
    WishReader(const FirstRecipe& said, language::Findings& findings)
        : said_(said)
        , findings_(findings) {
        for (const larder::OwnMaterial& own : said.materials)
            larder_.add(own);
    }

    std::optional<Wish> run() {
        if (!title() || !kind() || !salt()) return std::nullopt;
        for (const std::string& one : said_.with)
            addition(one);
        if (findings_.has_faults()) return std::nullopt;
        return std::move(wish_);
    }

  private:
    bool fault(const char* code, std::string message, std::string advice = {}) {
        findings_.fault(code, std::nullopt, std::move(message), std::move(advice));
        return false;
    }

    [[nodiscard]] const larder::Kind* find_kind(std::string_view name) const {
        return said_.house != nullptr ? said_.house->find_kind(name) : larder::find_kind(name);
    }

    bool title() {
        const std::string& t = said_.title;
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
        const std::string& words = said_.kind;
        std::string method;
        // "cucumbers salt-stock" is a kind and its method, though names of kinds may have blanks.
        if (const std::size_t blank = words.rfind(' '); blank != std::string::npos) {
            method = words.substr(blank + 1);
            wish_.kind = find_kind(words.substr(0, blank));
        }
        if (wish_.kind == nullptr || larder::find_ruling(*wish_.kind, method) == nullptr) {
            if (const larder::Kind* whole = find_kind(words)) {
                wish_.kind = whole;
                method.clear();
            }
        }
        if (wish_.kind == nullptr) {
            const auto near = said_.house != nullptr ? said_.house->nearest_kind(words)
                                                     : larder::nearest_kind(words);
            return fault(
                "unknown-kind", fmt::format("There is no kind of ferment called \"{}\".", words),
                near ? fmt::format("Did you mean \"{}\"? `jarful ranges` lists them.", *near)
                     : "`jarful ranges` lists the kinds.");
        }
        if (method.empty() && wish_.kind->method_needed)
            return fault("method-needed",
                         fmt::format("{} is made in more than one way, and the salt differs.",
                                     wish_.kind->name),
                         fmt::format("Write the method, too: {}.", methods("--kind \"{} {}\"")));
        wish_.ruling = larder::find_ruling(*wish_.kind, method);
        if (wish_.ruling == nullptr)
            return fault(
                "unknown-method",
                fmt::format("{} is not made by a method called \"{}\".", wish_.kind->name, method),
                methods("").empty() ? "Leave the method out."
                                    : "The methods: " + methods("{1}") + ".");
        wish_.start = &start_of(wish_.kind->name, wish_.ruling->method);
        wish_.lead = std::string(wish_.start->name);
        wish_.way = way();
        return true;
    }

    [[nodiscard]] Way way() const {
        if (wish_.ruling->basis == larder::Basis::of_brine) return Way::stock_brine;
        if (wish_.start->way) return *wish_.start->way;
        if (wish_.ruling->basis == larder::Basis::of_evened_brine) return Way::in_brine;
        // What is a share of the vegetables alone makes its own brine.
        const bool dry =
            wish_.ruling->basis == larder::Basis::of_vegetables || wish_.start->water.empty();
        return dry ? Way::dry_salted : Way::in_brine;
    }

    /// Names that the recipe's own lines have.
    [[nodiscard]] bool taken(std::string_view name) const {
        static constexpr std::array<std::string_view, 9> own{"salt",      "water",   "packed",
                                                             "stock",     "poured",  "bath",
                                                             "bath_salt", "drained", "own_water"};
        return name == wish_.lead || name == "in_the_cores" ||
               std::find(own.begin(), own.end(), name) != own.end() ||
               std::any_of(wish_.additions.begin(), wish_.additions.end(),
                           [&](const Addition& other) { return other.name == name; });
    }

    [[nodiscard]] std::string methods(const std::string& form) const {
        std::string out;
        for (const larder::Ruling& r : wish_.kind->rulings) {
            if (r.method.empty()) continue;
            out += (out.empty() ? "" : ", ") +
                   fmt::format(fmt::runtime(form), wish_.kind->name, r.method);
        }
        return out;
    }

    bool salt() {
        if (!wish_.ruling->typical && !(wish_.ruling->low && wish_.ruling->high))
            return fault(
                "no-first-salt",
                fmt::format("How much salt {}{}{} takes is said by no publication that the larder "
                            "has, and by no practice.",
                            wish_.kind->name, wish_.ruling->method.empty() ? "" : " ",
                            wish_.ruling->method),
                "`" + language::command_line({"jarful", "ranges", wish_.kind->name}) +
                    "` says why.");
        wish_.percent = wish_.ruling->typical ? *wish_.ruling->typical : middle(*wish_.ruling);
        if (!said_.salt) return true;
        const auto amount = units::read_amount(*said_.salt);
        if (!amount || amount->dimension != units::dim::plain || amount->plain_number ||
            amount->range || !(amount->value > 0) || amount->value >= 0.5)
            return fault("bad-addition", fmt::format("\"{}\" is no share of salt.", *said_.salt),
                         fmt::format("Write a percentage {}: --salt {}%.",
                                     larder::describe(wish_.ruling->basis),
                                     print_figure(wish_.percent)));
        wish_.percent = amount->value * 100;
        wish_.said = true;
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
        if (!name || language::is_reserved(*name)) {
            fault("bad-addition", fmt::format("\"{}\" cannot be a name.", said),
                  "A name begins with a letter, and is no unit and no word of the language.");
            return;
        }
        if (taken(*name)) {
            fault("bad-addition", fmt::format("\"{}\" is in the recipe already.", *name),
                  *name == "salt" ? "Say how much with --salt." : "Leave it out of --with.");
            return;
        }
        a.name = *name;
        if (material(a) && amount(a, words.substr(equals + 1)))
            wish_.additions.push_back(std::move(a));
    }

    bool material(Addition& a) {
        std::string plain = a.name;
        std::replace(plain.begin(), plain.end(), '_', ' ');
        const larder::Material* const known = larder_.named(plain);
        if (known == nullptr) {
            std::string near;
            for (const std::string_view name : larder_.offered(plain))
                near += (near.empty() ? "" : ", ") + std::string(name);
            return fault("bad-addition",
                         fmt::format("The larder does not know what \"{}\" is.", plain),
                         near.empty() ? "Leave it out, and write its line with a `material` line."
                                      : "Did you mean one of: " + near + "?");
        }
        if (known->vague)
            return fault("bad-addition", fmt::format("\"{}\" may be more than one thing.", plain),
                         std::string(known->vague_hint));
        if (known->role == Role::salt)
            return fault("bad-addition", "The salt has an option of its own.",
                         "Say how much with --salt.");
        a.role = known->role;
        if (larder::fold(known->name) != larder::fold(a.name)) a.called = called(*known);
        return true;
    }

    bool amount(Addition& a, const std::string& text) {
        if (!read_amount(a, text))
            return fault("bad-addition", fmt::format("\"{}={}\" is no amount.", a.name, text),
                         "Write a percentage of the produce (6%), so much for each kilogram "
                         "(1.5g/kg, 1/kg), a weight (20g), a spoon (1tsp) or a number of pieces "
                         "(2).");
        a.room = !a.count && (a.room || a.role == Role::vegetable);
        return true;
    }

    bool read_amount(Addition& a, const std::string& text) const {
        std::size_t length = 0;
        const auto first = units::read_number(text);
        const std::string of = " of " + wish_.lead;
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
                a.room = a.room || a.role == Role::aromatic || a.role == Role::other;
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
        return false;
    }

    const FirstRecipe& said_;
    language::Findings& findings_;
    larder::Larder larder_;
    Wish wish_;
};

} // namespace

std::string spoken(std::string_view name) {
    std::string out(name);
    std::replace(out.begin(), out.end(), '_', ' ');
    return out;
}

std::string print_figure(double value) {
    return units::print_number(value, 4);
}

std::optional<Wish> understand(const FirstRecipe& said, language::Findings& findings) {
    return WishReader(said, findings).run();
}

} // namespace jarful::book
