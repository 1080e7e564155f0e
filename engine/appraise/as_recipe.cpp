#include "engine/appraise/judge.hpp"
#include "engine/language/characters.hpp"
#include "engine/language/command_line.hpp"
#include "engine/language/tidy.hpp"
#include "engine/larder/fold.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace jarful::appraise {

using larder::Basis;
using larder::Role;
using units::Interval;

namespace {

/// A text fit for a .jarful file: no line breaks, quotes, braces, invisible characters or broken
/// ones.
/// @param most bytes
std::string fit(std::string_view text, std::size_t most) {
    std::string out;
    while (!text.empty()) {
        const language::Decoded c = language::decode(text);
        std::string_view bytes = text.substr(0, c.length);
        text.remove_prefix(c.length);
        if (!c.valid)
            bytes = "\xef\xbf\xbd"; // the replacement character
        else if (c.value == '"')
            bytes = "'";
        else if (c.value == '\\')
            bytes = "/";
        else if (c.value < 0x20 || language::is_control(c.value) ||
                 language::turns_direction(c.value))
            bytes = " ";
        if (out.size() + bytes.size() > most) break;
        out += bytes;
    }
    return out;
}

/// A material as the tail of a line can name it: its name, or its id where the name has a comma.
std::string_view called(const larder::Material& m) {
    if (m.vague && m.role == Role::vegetable) return "mixed vegetables";
    return m.name.view().find_first_of(",()/") == std::string_view::npos ? m.name : m.id;
}

class Writer {
  public:
    Writer(const Appraisal& a, std::optional<double> percent)
        : a_(a)
        , percent_(percent) {}

    std::string run() {
        out_ = "# Written from a recipe found elsewhere; grams as fractions of the vegetable.\n";
        if (a_.verdict == Verdict::not_a_ferment) {
            out_ += "# " + fit(a_.reason, 400) + "\n# There is nothing to salt here.\n";
        }
        const std::string title = a_.title.empty() ? "Found recipe" : fit(a_.title, 120);
        out_ += fmt::format("recipe \"{}\"\n", title);
        kind();
        out_ += "\n";
        vegetables();
        water();
        // What the salt is a share of may be named below it.
        std::string before = std::exchange(out_, {});
        rest();
        std::string behind = std::exchange(out_, std::move(before));
        salt();
        out_ += behind;
        vessel();
        for (const std::string& note : a_.assumptions)
            out_ += "# assumed: " + fit(note, 400) + "\n";
        if (!a_.reason.empty())
            out_ += fmt::format("# as found: {} ({})\n", describe(a_.verdict), fit(a_.reason, 400));
        if (!settled() && !a_.decides.empty())
            out_ += "# to be settled: " + fit(a_.decides, 400) + "\n";
        language::Findings findings;
        return language::tidy(language::Source("", out_), findings).value_or(out_);
    }

  private:
    /// Whether there is an amount of salt to write.
    [[nodiscard]] bool settled() const {
        return percent_.has_value() || a_.verdict == Verdict::inside ||
               a_.verdict == Verdict::below || a_.verdict == Verdict::above;
    }

    /// A recipe whose salt is open names no kind yet: `check` would judge it by what is not in it.
    void kind() {
        if (a_.kind.empty())
            out_ += "# fill in: kind …   (" + fit(a_.kind_reason, 200) + ")\n";
        else if (!a_.basis)
            out_ += fmt::format("# fill in: kind {} …   (its method; `{}` shows them)\n", a_.kind,
                                language::command_line({"jarful", "ranges", a_.kind}));
        else
            out_ += fmt::format(
                "{}kind   {}{}{}\n", settled() ? "" : "# fill in: ", a_.kind,
                a_.method.empty() ? "" : " " + a_.method,
                settled() ? "" : "   (once the salt below is settled: --salt-percent writes it)");
    }

    void vessel() {
        if (all_.empty()) return;
        // Between shreds that are tamped and whole pieces: common practice, no source.
        out_ += fmt::format("\n# assumed: how tightly it is packed; weigh a full jar\n"
                            "let    packed = 0.65 kg/L\nfill   {} / packed\nheadspace 15 %\n",
                            sum(all_));
    }

    std::string name_for(const Line& line) {
        std::string base = larder::fold(line.material->name);
        std::string name;
        for (const char c : base)
            name += (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') ? c : '_';
        if (name.empty() || (name[0] >= '0' && name[0] <= '9')) name = "x_" + name;
        std::string one = name;
        for (int i = 2; !names_.insert(one).second; ++i)
            one = name + "_" + std::to_string(i);
        return one;
    }

    static bool counts(const Line& line) {
        return line.sort == LineSort::ingredient && !line.left_out && line.role && line.material;
    }

    static std::string place(const Line& line) {
        return line.number == 0 ? "in the method" : fmt::format("line {}", line.number);
    }

    void comment(const Line& line) {
        out_ += fmt::format("# {}: {}\n", place(line), fit(line.text, 200));
        for (const std::string& note : line.notes)
            out_ += "#   " + fit(note, 300) + "\n";
    }

    /// What a line is taken for: of what is optional, all of it.
    static double taken(const Line& line) {
        return line.optional ? line.grams->high : line.grams->middle();
    }

    static std::string_view optional(const Line& line) { return line.optional ? " optional" : ""; }

    /// The vegetables, the given one first: what is optional cannot be it.
    [[nodiscard]] std::vector<const Line*> vegetable_lines() const {
        std::vector<const Line*> out;
        for (const Line& line : a_.lines) {
            const bool sole =
                line.role && line.material && line.material->id == "garlic" && no_vegetable();
            if (counts(line) && (line.role == Role::vegetable || sole)) out.push_back(&line);
        }
        const auto given = std::find_if(out.begin(), out.end(), [](const Line* line) {
            return !line->optional && line->grams && line->grams->middle() > 0;
        });
        if (given != out.end()) std::rotate(out.begin(), given, given + 1);
        return out;
    }

    void vegetables() {
        bool lead = true;
        for (const Line* one : vegetable_lines()) {
            const Line& line = *one;
            const bool sole = line.role != Role::vegetable;
            comment(line);
            if (!line.grams || !(line.grams->middle() > 0)) {
                out_ += fmt::format("#   fill in: how much {}\n", line.material->name);
                continue;
            }
            const double grams = taken(line);
            if (!line.grams->point())
                out_ += fmt::format("#   assumed: {} to {} g; weigh it\n",
                                    units::print_number(line.grams->low, 3),
                                    units::print_number(line.grams->high, 3));
            const std::string name = name_for(line);
            const std::string tail =
                fmt::format("as {}{}", called(*line.material), sole ? " counts as vegetable" : "");
            const std::string may = lead ? std::string() : std::string(optional(line));
            if (lead || !(lead_grams_ > 0)) {
                out_ += fmt::format("given  {} = {} g {}\n", name, weighed(grams), tail);
                lead_ = name;
                lead_grams_ = grams;
                lead = false;
            } else {
                out_ += fmt::format("weigh  {} = {} % of {}{} {}\n", name,
                                    weighed(grams / lead_grams_ * 100), lead_, may, tail);
            }
            all_.push_back(name);
            masses_[name] = grams;
        }
        if (lead) stand_in();
    }

    /// No weight of a vegetable is known: a kilogram stands for it, as all the rest is a share of
    /// it.
    void stand_in() {
        const Line* known = nullptr;
        for (const Line* line : vegetable_lines()) {
            if (known == nullptr && !line->optional) known = line;
        }
        const std::string_view material =
            known != nullptr ? called(*known->material) : std::string_view("mixed vegetables");
        lead_ = known != nullptr ? name_for(*known) : "vegetables";
        names_.insert(lead_);
        out_ +=
            "# Its weight is not said: 1000 g stand for what you weigh. Amounts in grams are no "
            "share of it.\n";
        out_ += fmt::format(
            "given  {} = 1000 g as {}{}\n", lead_, material,
            known != nullptr && known->role != Role::vegetable ? " counts as vegetable" : "");
        all_.push_back(lead_);
    }

    [[nodiscard]] bool no_vegetable() const {
        return std::none_of(a_.lines.begin(), a_.lines.end(),
                            [](const Line& l) { return counts(l) && l.role == Role::vegetable; });
    }

    void water() {
        for (const Line& line : a_.lines) {
            const bool liquid = line.material != nullptr && is_liquid(*line.material);
            if (!counts(line) || (line.role != Role::water && line.role != Role::acid &&
                                  line.role != Role::seasoning && !liquid))
                continue;
            comment(line);
            const std::string name = name_for(line);
            if (!line.grams || !(lead_grams_ > 0)) {
                out_ += line.role == Role::water && a_.water_g && lead_grams_ > 0 &&
                                a_.water_g->high > 0
                            ? fmt::format(
                                  "weigh  {} = {} % of {} as {}   # assumed; weigh what you pour\n",
                                  name, weighed(a_.water_g->middle() / lead_grams_ * 100), lead_,
                                  called(*line.material))
                            : fmt::format("#   fill in: weigh {} = … g\n", name);
                if (line.role == Role::water && a_.water_g && lead_grams_ > 0 &&
                    a_.water_g->high > 0) {
                    water_.push_back(name);
                    masses_[name] = a_.water_g->middle();
                }
                continue;
            }
            out_ += fmt::format("weigh  {} = {} % of {}{} as {}{}\n", name,
                                weighed(taken(line) / lead_grams_ * 100), lead_, optional(line),
                                called(*line.material), liquid ? " counts as water" : "");
            masses_[name] = taken(line);
            if (line.role == Role::seasoning) others_.push_back(name);
            if (line.role == Role::water || line.role == Role::acid || liquid)
                water_.push_back(name);
        }
    }

    void salt() {
        const larder::Material* material = nullptr;
        bool all_weighed = true; // every salt line has grams of its own
        double salt_g = 0;
        for (const Line& line : a_.lines) {
            if (!counts(line) || line.role != Role::salt) continue;
            comment(line);
            all_weighed = all_weighed && line.grams && !line.per;
            if (line.grams) salt_g += line.grams->middle();
            if (material == nullptr) material = line.material;
        }
        const bool bad =
            material != nullptr && (material->warning == larder::SaltWarning::curing ||
                                    material->warning == larder::SaltWarning::reduced_sodium);
        if (bad) {
            out_ += "#   that is not salt for this: canning salt stands in its place\n";
            material = nullptr;
        }
        const std::string grain = material == nullptr || material->vague
                                      ? "canning salt"
                                      : std::string(called(*material));
        if (material != nullptr && material->vague)
            out_ += "#   assumed: canning salt; by weight every plain salt is the same\n";
        if (percent_) return house_salt(grain);
        std::string whole = sum(all_);
        std::optional<Interval> percent = a_.of_vegetables;
        if (a_.basis == Basis::of_vegetables_and_water || a_.basis == Basis::of_brine ||
            a_.basis == Basis::of_evened_brine || a_.basis == Basis::of_everything) {
            if (!water_.empty() && a_.basis != Basis::of_everything) {
                std::vector<std::string> names = a_.basis == Basis::of_brine ? water_ : all_;
                if (a_.basis != Basis::of_brine)
                    names.insert(names.end(), water_.begin(), water_.end());
                whole = sum(names);
                parts_ = names;
                percent = a_.of_vegetables_and_water;
                if (a_.basis == Basis::of_brine && a_.of_brine) {
                    const auto of_water = [](double p) { return 100 * p / (100 - p); };
                    percent = Interval{of_water(a_.of_brine->low), of_water(a_.of_brine->high)};
                }
            }
        }
        // What seasonings bring is counted with them.
        double whole_g = 0;
        for (const std::string& name : whole == sum(all_) ? all_ : parts_)
            whole_g += masses_[name];
        const bool by_lines = all_weighed && salt_g > 0 && whole_g > 0 && !bad;
        if (by_lines) percent = Interval(100 * salt_g / whole_g);
        if (!percent || bad || !settled())
            return leave_open(bad ? std::nullopt : by_lines ? a_.percent : percent, whole, grain);
        if (percent->width() > 0.02)
            out_ += fmt::format("#   as found: {} to {} %; the middle stands here\n",
                                number(percent->low), number(percent->high));
        out_ += fmt::format("weigh  salt_in = {} % of {} as {}\n", weighed(percent->middle()),
                            whole, grain);
        if (a_.verdict == Verdict::inside) return;
        out_ += "#   to be settled: that is outside the range; --salt-percent writes another\n";
        if (a_.right_g_per_kg)
            out_ += fmt::format("#   right would be {} to {} g for each kg of {}\n",
                                number(a_.right_g_per_kg->low), number(a_.right_g_per_kg->high),
                                a_.right_of);
    }

    /// A salt to be filled in. @param found what the list says of it, which does not decide
    void leave_open(const std::optional<Interval>& found, const std::string& whole,
                    const std::string& grain) {
        if (found)
            out_ += number(found->low) == number(found->high)
                        ? fmt::format("#   as found: {} %, which does not decide it\n",
                                      number(found->low))
                        : fmt::format("#   as found: {} to {} %, which does not decide it\n",
                                      number(found->low), number(found->high));
        out_ += fmt::format("# fill in: weigh salt_in = … % of {}   as {}\n", whole, grain);
        if (a_.right_g_per_kg)
            out_ += fmt::format("#   right would be {} to {} g for each kg of {}\n",
                                number(a_.right_g_per_kg->low), number(a_.right_g_per_kg->high),
                                a_.right_of);
    }

    /// The house's own percentage, of what the range is of.
    void house_salt(const std::string& grain) {
        std::vector<std::string> names = all_;
        double share = *percent_;
        const Basis basis = a_.basis.value_or(Basis::of_vegetables);
        const bool brine = basis == Basis::of_brine || basis == Basis::of_drained_brine ||
                           basis == Basis::of_water;
        if (brine && water_.empty()) {
            out_ += fmt::format("#   assumed: as much water; weigh what you pour\n"
                                "weigh  water_in = 80 % of {} as water\n",
                                lead_);
            water_.emplace_back("water_in");
        }
        if (brine) names = water_;
        if (basis == Basis::of_vegetables_and_water || basis == Basis::of_everything)
            names.insert(names.end(), water_.begin(), water_.end());
        if (basis == Basis::of_everything)
            names.insert(names.end(), others_.begin(), others_.end());
        if (basis == Basis::of_everything || basis == Basis::of_brine ||
            basis == Basis::of_drained_brine)
            share = 100 * share / (100 - share);
        out_ += "#   the salt that you asked for, in place of the list's\n";
        out_ +=
            fmt::format("weigh  salt_in = {} % of {} as {}\n", weighed(share), sum(names), grain);
    }

    void rest() {
        for (const Line& line : a_.lines) {
            if (line.could_matter) {
                out_ += fmt::format("# not understood: line {}: {}\n", line.number,
                                    fit(line.text, 200));
                continue;
            }
            if (!counts(line) || (line.role != Role::aromatic && line.role != Role::other))
                continue;
            if ((line.material->id == "garlic" && no_vegetable()) || is_liquid(*line.material))
                continue;
            comment(line);
            if (!line.grams || !(lead_grams_ > 0) || line.grams->middle() <= 0 ||
                line.material->vague) {
                out_ += fmt::format("#   by hand{}: {}\n", line.optional ? ", optional" : "",
                                    line.material->name);
                continue;
            }
            const std::string name = name_for(line);
            out_ += fmt::format("weigh  {} = {} % of {}{} as {}\n", name,
                                weighed(taken(line) / lead_grams_ * 100), lead_, optional(line),
                                called(*line.material));
            others_.push_back(name);
        }
    }

    static std::string number(double value) { return units::print_number(value, 4); }

    /// An amount that is weighed: never 0, which would leave the thing out.
    static std::string weighed(double value) {
        const std::string text = number(value);
        return text == "0" ? "0.001" : text;
    }

    static std::string sum(const std::vector<std::string>& names) {
        if (names.size() == 1) return names.front();
        std::string out = "(";
        for (const std::string& name : names)
            out += (out.size() > 1 ? " + " : "") + name;
        return out + ")";
    }

    const Appraisal& a_;
    std::optional<double> percent_; ///< the house's own salt, of what the range is of
    std::string out_;
    std::string lead_;
    double lead_grams_ = 0;
    std::map<std::string, double> masses_;
    std::vector<std::string> all_, water_, parts_, others_;
    std::set<std::string> names_{"salt_in", "water_in", "packed"};
};

} // namespace

std::string as_recipe(const Appraisal& appraisal, std::optional<double> salt_percent) {
    return Writer(appraisal, salt_percent).run();
}

} // namespace jarful::appraise
