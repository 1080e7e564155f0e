#include "engine/book/first_method.hpp"

#include "engine/tend/outlook.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <utility>

namespace jarful::book {

using larder::Role;

namespace {

/// The room that a first recipe is meant for.
constexpr double celsius = 20;
/// The first day on which something is tasted where nothing is published: common practice, no
/// source.
constexpr int tasted_from = 14;

/// A text on lines of at most 100 characters, which belong together; what stands in braces stays
/// whole.
std::string step(std::string_view words) {
    constexpr std::size_t most = 100;
    std::string out = "step   \"";
    while (words.size() > most) {
        std::size_t cut = 0;
        bool braces = false;
        for (std::size_t i = 0; i < words.size() && (i <= most || cut == 0); ++i) {
            if (words[i] == '{' || words[i] == '}') braces = words[i] == '{';
            if (words[i] == ' ' && !braces) cut = i;
        }
        if (cut == 0) break;
        out += std::string(words.substr(0, cut)) + "\"\n       \"";
        words.remove_prefix(cut + 1);
    }
    return out + std::string(words) + "\"\n";
}

std::string listed(const std::vector<std::string>& words) {
    std::string out;
    for (std::size_t i = 0; i < words.size(); ++i)
        out += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
    return out;
}

/// The additions of a sort, as a step names them: "{carrot} of carrot and {bay} bay". Empty where
/// there are none.
template <class Wanted>
std::string named(const Wish& wish, Wanted wanted) {
    std::vector<std::string> words;
    for (const Addition& a : wish.additions)
        if (wanted(a))
            words.push_back(
                fmt::format("{{{}}} {}{}", a.name, a.count ? "" : "of ", spoken(a.name)));
    return listed(words);
}

bool vegetable(const Addition& a) {
    return a.role == Role::vegetable && !a.count;
}
bool liquid(const Addition& a) {
    return a.role == Role::acid || a.role == Role::seasoning || a.role == Role::water;
}
bool between(const Addition& a) {
    return !vegetable(a) && !liquid(a);
}

/// `before` and the words, or nothing.
std::string with(std::string_view before, const std::string& words) {
    return words.empty() ? std::string() : std::string(before) + words;
}

/// The produce and the vegetables beside it.
std::string all_of_it(const Wish& wish) {
    return "the " + spoken(wish.lead) + with(" with ", named(wish, vegetable));
}

std::string prepared(const Wish& wish) {
    const std::string first(wish.start->first);
    return step(first + ", and weigh " +
                (first.find(spoken(wish.lead)) == std::string::npos ? "the " + spoken(wish.lead)
                                                                    : "what is to go in") +
                ".");
}

std::string dry_salted(const Wish& wish) {
    const std::string rest = named(wish, [](const Addition& a) { return !vegetable(a); });
    return prepared(wish) +
           step("Mix {salt} of salt into " + all_of_it(wish) +
                ", half of it, {salt / 2}, at a time." +
                (rest.empty() ? "" : " Mix in " + rest + ".")) +
           "rest   30 min   \"The salt draws the juice.\"\n" +
           step("Pack into clean jars and press until the juice stands above; weight it under.");
}

/// What goes in between the produce: ", with {garlic} of garlic and {bay} bay between".
std::string with_between(const Wish& wish) {
    const std::string words = named(wish, between);
    return words.empty() ? std::string() : ", with " + words + " between";
}

/// "Pack the beans into clean jars, with {bay} bay between".
std::string packed(const Wish& wish) {
    return "Pack " + all_of_it(wish) + " into clean jars" + with_between(wish);
}

std::string in_brine(const Wish& wish) {
    return prepared(wish) +
           step("Dissolve {salt} of salt in {water} of water" +
                with(", with ", named(wish, liquid)) + ".") +
           step(packed(wish) + ", pour on the brine and weight them under.");
}

std::string stock_brine(const Wish& wish) {
    return prepared(wish) +
           step("Make {stock} of the brine: stir its salt into its water until it is clear.") +
           step(packed(wish) + ", pour on {poured} of the brine" +
                with(" and ", named(wish, liquid)) + " and weight them under.");
}

std::string soaked(const Wish& wish) {
    const std::string lead = spoken(wish.lead);
    const std::string paste = named(wish, [](const Addition& a) { return !vegetable(a); });
    return prepared(wish) +
           step("Stir {bath_salt} of salt into {bath} of water, put in the " + lead +
                " and weight it under.") +
           "rest   12 h\n" +
           step("Rinse the " + lead +
                " twice in cold water, taste a thick rib (pleasantly salty, no more), and let it "
                "drain.") +
           "rest   2 h\n" +
           step("Weigh the " + lead + " again. For {drained} of it, take {salt} of salt" +
                (paste.empty() ? "" : ", mix it with " + paste) + " and rub it in" +
                with(", with ", named(wish, vegetable)) + ".") +
           step("Pack tightly into clean jars, pressing out the air: it swells and weeps.");
}

std::string mash(const Wish& wish) {
    const std::string rest = named(wish, [](const Addition& a) { return !vegetable(a); });
    return prepared(wish) +
           step("Grind " + all_of_it(wish) + " coarsely with {salt} of salt" +
                with(", and stir in ", rest) + ".") +
           step("Pack without air pockets, wipe the glass, smooth the top, and put an airlock on.");
}

std::string whole_heads(const Wish& wish) {
    return prepared(wish) +
           step("Fill the cores with {in_the_cores} of the salt; dissolve the rest, "
                "{salt - in_the_cores} of {salt}, in {water} of water" +
                with(", with ", named(wish, liquid)) + ".") +
           step("Set " + all_of_it(wish) + " in the crock, cores up, tight" + with_between(wish) +
                ". Pour on the brine, plate and weights on.");
}

std::string source_of(const larder::TimingRow& row) {
    return remark(fmt::format("By {}{}{}; {}:", row.source, row.section.empty() ? "" : ", ",
                              row.section, larder::describe(row.status)));
}

/// What is looked after while it works, by the way.
std::string looked_after(const Wish& wish) {
    switch (wish.way) {
    case Way::soaked:
        return "tend   burp every 12 h from day 1 to day 3\n"
               "tend   press every 1 day from day 1 to day 5   \"Push it under its juice.\"\n";
    case Way::mash:
        return "tend   look every 1 day from day 1 to day 14   \"Risen? Rap the jar on a folded "
               "cloth: the gas comes up.\"\n"
               "tend   skim every 2 days from day 3 to day 28\n";
    case Way::whole_heads:
        return "tend   turn every 2 days from day 2 to day 10   \"Draw off brine at the bottom, "
               "pour it back on top.\"\n"
               "tend   skim every 2 days from day 3\n";
    case Way::dry_salted:
    case Way::in_brine:
    case Way::stock_brine:
        break;
    }
    return "tend   burp every 1 day from day 1 to day 7\n"
           "tend   look every 2 days from day 2   \"Everything still under the brine?\"\n";
}

} // namespace

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

std::string first_steps(const Wish& wish) {
    switch (wish.way) {
    case Way::dry_salted:
        return dry_salted(wish);
    case Way::in_brine:
        return in_brine(wish);
    case Way::stock_brine:
        return stock_brine(wish);
    case Way::soaked:
        return soaked(wish);
    case Way::mash:
        return mash(wish);
    case Way::whole_heads:
        return whole_heads(wish);
    }
    return {};
}

std::string first_tending(const Wish& wish) {
    std::string out = looked_after(wish);
    const tend::Outlook outlook = tend::outlook(wish.kind->name, wish.ruling->method, celsius);
    const bool known =
        outlook.window && !outlook.window->estimate() && outlook.window->days.from >= 1;
    const int ready = known ? outlook.window->days.from : tasted_from;
    if (!outlook.ph_by || outlook.ph_by->day > ready)
        out += fmt::format("tend   test on day {}   \"Nobody eats it before it is at pH 4.6 or "
                           "below.\"\n",
                           ready);
    if (outlook.ph_by) {
        out += source_of(*outlook.ph_by->row);
        out +=
            fmt::format("tend   test on day {}   \"At pH 4.6 or below by now, at the latest?\"\n",
                        outlook.ph_by->day);
    }
    if (known) {
        out += source_of(*outlook.window->row);
        const int last = outlook.window->days.to;
        out += fmt::format("ready  day {}{} at {} °C\n", ready,
                           last > ready ? fmt::format(" to day {}", last) : std::string(),
                           static_cast<int>(celsius));
    } else {
        out += remark("When it was ready, once you know:");
        out += fmt::format("# ready  day {} to day {} at 18 to 22 °C\n", ready, 2 * ready);
    }
    return out + "# keep   cold for 3 months\n";
}

} // namespace jarful::book
