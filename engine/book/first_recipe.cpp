#include "engine/book/first_recipe.hpp"

#include "engine/book/first_method.hpp"
#include "engine/book/first_wish.hpp"
#include "engine/language/parse.hpp"
#include "engine/language/tidy.hpp"
#include "engine/larder/fold.hpp"
#include "engine/plan/plan.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

namespace jarful::book {

using larder::Basis;
using larder::Role;

namespace {

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
        auto text = wish_.way == Way::soaked ? fitted() : composed();
        if (!text) return std::nullopt;
        return WrittenRecipe{*text, std::string(wish_.kind->name),
                             std::string(wish_.ruling->method), wish_.ruling->basis, wish_.percent};
    }

  private:
    // ---- The text. ----

    /// With water that is weighed for this jar.
    [[nodiscard]] bool brined() const {
        return wish_.way == Way::in_brine || wish_.way == Way::whole_heads;
    }

    /// What the produce is called in the jar: soaked, it is weighed once more.
    [[nodiscard]] std::string in_jar() const {
        return wish_.way == Way::soaked ? "drained" : wish_.lead;
    }

    /// Where the range is one of the brine once it has evened out.
    [[nodiscard]] bool evened() const { return wish_.ruling->basis == Basis::of_evened_brine; }

    /// How much of a vegetable is water, in percent: the middle of what the larder knows, or of
    /// nearly all.
    static double own_water_percent(std::string_view material) {
        const larder::Larder larder;
        const larder::Material* known = larder.named(material);
        return known != nullptr && known->water ? std::round(100 * known->water->typical) : 85;
    }

    /// The water that is in the vegetables themselves: `58 % of olives`.
    [[nodiscard]] std::string own_water() const {
        std::string_view lead = wish_.start->tail;
        if (lead.starts_with("as ")) lead.remove_prefix(3);
        std::vector<std::string> parts{
            fmt::format("{} % of {}", print_figure(own_water_percent(lead)), wish_.lead)};
        for (const Addition& a : wish_.additions) {
            if (a.count || a.role != Role::vegetable) continue;
            const double water = own_water_percent(a.called.empty() ? a.name : a.called);
            parts.push_back(fmt::format("{} % of {}", print_figure(water), a.name));
        }
        if (parts.size() == 1) return parts.front();
        std::string out;
        for (const std::string& part : parts)
            out += (out.empty() ? "(" : " + (") + part + ")";
        return out;
    }

    /// The produce and what else takes room.
    [[nodiscard]] std::vector<std::string> roomy() const {
        std::vector<std::string> out{in_jar()};
        for (const Addition& a : wish_.additions)
            if (a.room) out.push_back(a.name);
        return out;
    }

    /// `80 % of (beets + carrot)`, or `cover(cucumbers + carrot, packed)`.
    [[nodiscard]] std::string water() const {
        std::string out(wish_.start->water.empty() ? "80 % of NAME" : wish_.start->water);
        const std::vector<std::string> names = produce_names();
        std::string all = sum(names);
        if (out.starts_with("cover") && names.size() > 1) all = all.substr(1, all.size() - 2);
        out.replace(out.find("NAME"), 4, all);
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
        std::vector<std::string> out{evened() ? "own_water" : in_jar()};
        for (const Addition& a : wish_.additions) {
            if (a.count) continue;
            const Role role = a.role;
            if ((role == Role::vegetable && !evened()) || everything ||
                (role == Role::acid && wish_.ruling->basis != Basis::of_vegetables))
                out.push_back(a.name);
        }
        if (brined()) out.emplace_back("water");
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
        out_ += '\n';
        salt_lines();
        vessel();
        out_ += "\n" + remark("{braces} print what the scale should show.");
        out_ += first_steps(wish_) + first_tending(wish_);
    }

    void produce() {
        out_ += '\n' + remark("`given` is what you weigh first; set it at the counter, as in " +
                              wish_.lead + "=1.3kg. Everything else follows from it.");
        out_ +=
            fmt::format("given  {} = {} {}\n", wish_.lead, wish_.start->amount, wish_.start->tail);
        out_ += fmt::format("let    packed = {}   \"weigh a full jar, and write what you find\"\n",
                            wish_.start->packed);
        if (wish_.way == Way::soaked) bath();
        if (!wish_.additions.empty())
            out_ += remark("`as` says what a name stands for; `count` is whole pieces.");
        for (const Addition& a : wish_.additions) {
            out_ += fmt::format("{}  {} = {}{}\n", a.count ? "count" : "weigh", a.name, a.line,
                                a.called.empty() ? "" : " as " + a.called);
        }
    }

    /// What is poured off, and the weight that is left.
    void bath() {
        out_ +=
            remark("The bath is poured off (`discarded`); `keeps` is how much of its salt stays "
                   "behind, by common practice: nothing is published.");
        out_ += fmt::format("weigh  bath = 100 % of {} discarded as water\n"
                            "weigh  bath_salt = 6 % of bath discarded keeps 15..30 % as coarse "
                            "sea salt\n",
                            wish_.lead);
        out_ +=
            remark("`measure` is weighed later, rinsed and drained: say what the scale shows, as "
                   "in drained=790g.");
        out_ += fmt::format("measure drained about 72..88 % of {0} replaces {0}\n", wish_.lead);
    }

    void salt_lines() {
        switch (wish_.way) {
        case Way::stock_brine:
            return stock();
        case Way::soaked:
            return paste();
        default:
            break;
        }
        if (brined()) {
            out_ += remark(water().starts_with("cover")
                               ? "`cover` is what fills the gaps between the pieces."
                               : "About what covers the pieces; weigh what you pour, and write "
                                 "that.");
            out_ += "weigh  water = " + water() + "\n";
        }
        if (evened()) {
            out_ += remark("The water in the " + spoken(wish_.lead) +
                           " thins the brine too. It varies, and the larder says from what to "
                           "what.");
            out_ += "let    own_water = " + own_water() + "\n";
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
        if (wish_.way == Way::whole_heads) {
            out_ += remark("Salt reaches the heart of a head slowly: a third goes into the core.");
            out_ += "let    in_the_cores = salt / 3\n";
        }
        out_ += remark("A bound of the house, if you want one narrower than that:");
        out_ += fmt::format("# hold   salt / {} at least {} %   \"less goes soft\"\n", sum(names),
                            print_figure(std::round(of_rest * 9) / 10));
    }

    void stock() {
        out_ += remark(range_words() + " A stock is made beforehand; only what is poured counts in "
                                       "the jar.");
        out_ += fmt::format("brine  stock = {} % of brine, make 100 % of {} as fine sea salt\n"
                            "weigh  poured = {} as stock\n",
                            print_figure(wish_.percent), sum(produce_names()), water());
    }

    [[nodiscard]] std::vector<std::string> produce_names() const {
        std::vector<std::string> out{wish_.lead};
        for (const Addition& a : wish_.additions)
            if (a.role == Role::vegetable && !a.count) out.push_back(a.name);
        return out;
    }

    /// The salt of the paste, for which the bath has left some already.
    void paste() {
        out_ += remark(range_words() +
                       fmt::format(" With what stays of the bath, this comes to about {} %.",
                                   print_figure(wish_.percent)));
        out_ += fmt::format("weigh  salt = {} % of {} as fine sea salt\n", print_figure(of_paste_),
                            sum(base(false)));
        out_ += remark("A bound of the house, if you want one narrower than that:");
        out_ += "# hold   all_salt / everything at most 3.6 %   \"more is for keeping\"\n";
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
        const bool rises = wish_.way == Way::mash || wish_.way == Way::soaked;
        out_ += "\n" + remark("How much room it takes, and how much stays free: it rises.");
        out_ += "fill   " + sum(roomy()) + " / packed\nheadspace " +
                (wish_.way == Way::mash ? "25 %\n"
                 : rises                ? "20 %\n"
                                        : "15 %\n");
        if (wish_.way == Way::dry_salted || wish_.way == Way::mash)
            out_ += fmt::format("# If the juice does not cover: so much salt for 100 g of water.\n"
                                "topup  {} %\n",
                                print_figure(wish_.percent));
    }

    // ---- Whether it holds. ----

    /// The text in its tidy form, and what the program says of it.
    struct Checked {
        std::string text;
        std::optional<plan::CheckResult> result;
        language::Findings findings;

        [[nodiscard]] bool sound() const { return result && findings.empty(); }
        [[nodiscard]] bool inside() const {
            return sound() && result->verdict == plan::Verdict::inside;
        }
    };

    [[nodiscard]] Checked check() {
        compose();
        Checked out;
        auto source = language::read_source("the new recipe", out_, out.findings);
        auto text = source ? language::tidy(std::move(*source), out.findings) : std::nullopt;
        if (!text) return out;
        out.text = std::move(*text);
        const language::Document document =
            language::parse(language::Source("the new recipe", out.text), out.findings);
        kitchen::Kitchen kitchen = kitchen::default_kitchen();
        kitchen.house = said_.house;
        kitchen.materials = said_.materials;
        out.result = plan::check(document, kitchen, out.findings);
        return out;
    }

    [[nodiscard]] bool ranged() const { return wish_.ruling->low || wish_.ruling->high; }

    std::optional<std::string> composed() { return accepted(check()); }

    /// The salt of the paste with which everything in the jar comes to what is wanted. What the
    /// bath leaves behind is not known to a gram: if nothing else was said, the figure goes up from
    /// what is typical until the whole of it is inside.
    std::optional<std::string> fitted() {
        constexpr double step = 0.1;
        const double most = wish_.ruling->high ? wish_.ruling->high->percent : wish_.percent;
        Checked tried = fit();
        while (!wish_.said && ranged() && tried.sound() && !tried.inside() &&
               wish_.percent + step < most) {
            wish_.percent = std::round((wish_.percent + step) * 10) / 10;
            tried = fit();
        }
        return accepted(std::move(tried));
    }

    /// Which share of the paste makes the salt what is wanted: nearly a straight line, so that a
    /// secant finds it in a few steps.
    Checked fit() {
        const auto figure = [&](double share) {
            of_paste_ = share;
            Checked tried = check();
            const bool judged = tried.sound() && tried.result->salt.has_value();
            const double percent = judged ? tried.result->salt->figure.percent : 0;
            return std::pair(std::move(tried), percent - wish_.percent);
        };
        double before = 0.5;
        double share = 2;
        double off_before = figure(before).second;
        auto [tried, off] = figure(share);
        for (int i = 0; i < 8 && std::fabs(off) > 0.002 && off != off_before; ++i) {
            const double next = share - off * (share - before) / (off - off_before);
            before = std::exchange(share, std::max(0.05, std::round(next * 1000) / 1000));
            off_before = off;
            std::tie(tried, off) = figure(share);
        }
        return std::move(tried);
    }

    std::optional<std::string> accepted(Checked checked) {
        if (!checked.sound()) {
            const auto& all = checked.findings.all();
            findings_.fault(
                "bad-addition", std::nullopt,
                "With this the recipe would not hold: " +
                    (all.empty() ? std::string("it cannot be read.") : all.front().message),
                all.empty() ? "" : all.front().advice);
            return std::nullopt;
        }
        if (!ranged() || checked.inside()) return std::move(checked.text);
        const plan::CheckResult& result = *checked.result;
        findings_.fault("salt-out-of-range", std::nullopt,
                        "The salt would not be inside the range: " +
                            (result.salt ? result.salt->reason : result.no_salt_reason),
                        fmt::format("Say another share with --salt, {}, or take out what brings "
                                    "salt of its own.",
                                    larder::describe(wish_.ruling->basis)));
        return std::nullopt;
    }

    const FirstRecipe& said_;
    Wish wish_;
    language::Findings& findings_;
    std::string out_;
    double of_paste_ = 0; ///< the salt of a paste, in percent
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
