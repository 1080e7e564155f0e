#include "engine/appraise/sections.hpp"

#include <algorithm>

namespace jarful::appraise {

using Tokens = std::span<const Token>;
using Sort = Measure::Sort;

std::size_t count_words(Tokens tokens) {
    return static_cast<std::size_t>(std::count_if(
        tokens.begin(), tokens.end(), [](const Token& t) { return t.sort == Token::Sort::word; }));
}

bool heading_section(Tokens tokens, Section& section) {
    static constexpr struct {
        Concept words;
        Section opens;
    } headings[] = {
        {Concept::head_equipment, Section::equipment}, {Concept::head_method, Section::method},
        {Concept::head_notes, Section::notes},         {Concept::head_top_up, Section::top_up},
        {Concept::head_serving, Section::serving},     {Concept::head_soak, Section::soak},
        {Concept::head_brine, Section::brine},         {Concept::head_main, Section::main}};
    for (const auto& heading : headings) {
        if (!speaks_of(tokens, heading.words)) continue;
        section = heading.opens;
        return true;
    }
    if (!means(tokens, 0, Concept::head_for)) return false;
    section = Section::main;
    return true;
}

namespace {

bool burden(Tokens tokens, std::size_t at) {
    return means(tokens, at, Concept::burden);
}

bool vessel(Tokens tokens, std::size_t at) {
    return means(tokens, at, {Concept::vessel, Concept::kitchen}) && !burden(tokens, at);
}

/// Where what the equipment is for begins.
bool purpose(Tokens tokens, std::size_t at) {
    return means(tokens, at, {Concept::tail_begins, Concept::upon});
}

/// A mass, a volume or a handful; the size of a jar only if it is asked for.
bool amounts(Tokens tokens, bool sizes = false) {
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        if (i > 0 && tokens[i].sort != Token::Sort::number) continue;
        const auto q = quantity_at(tokens, i, {}, i == 0);
        if (!q || !measured(q->quantity)) continue;
        if (sizes) return true;
        std::size_t next = i + q->tokens;
        while (means(tokens, next, Concept::of_vessel) || is_mark(tokens, next, "-"))
            ++next;
        if (!(q->quantity.is(Sort::volume) ? vessel(tokens, next) : burden(tokens, next)))
            return true;
        i = next;
    }
    return false;
}

/// "1 L jar", "2 (1-quart) jars with lids", "a 2 kg weight": each word before its purpose is known.
/// A mass is that of a weight, a volume that of a vessel: "a 500 g bag" is one of food.
bool plain_equipment(Tokens tokens) {
    bool holds = false;
    bool weighs = false;
    bool mass = false;
    bool volume = false;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        const bool number = tokens[i].sort == Token::Sort::number || i == 0;
        if (const auto q = number ? quantity_at(tokens, i, {}, i == 0) : std::nullopt) {
            mass = mass || q->quantity.weighed();
            volume = volume || q->quantity.is(Sort::volume);
            holds = holds || q->quantity.is(Sort::package);
            if (q->quantity.is(Sort::loose) || q->quantity.is(Sort::percent)) return false;
            i += std::max<std::size_t>(1, q->tokens) - 1;
            continue;
        }
        const bool noun = holds || weighs;
        if (vessel(tokens, i) || burden(tokens, i)) {
            holds = holds || vessel(tokens, i);
            weighs = weighs || burden(tokens, i);
        } else if (noun && means(tokens, i, {Concept::of, Concept::about}) &&
                   amounts(tokens.subspan(i + 1, std::min<std::size_t>(3, tokens.size() - i - 1)),
                           true)) {
            // "a jar of about 1.5 litres"
        } else if (purpose(tokens, i)) {
            if (!noun || amounts(tokens.subspan(i))) return false;
            break;
        } else if (tokens[i].sort == Token::Sort::word && !means(tokens, i, Concept::of_vessel)) {
            return false;
        }
    }
    return (holds || weighs) && (!mass || weighs) && (!volume || holds);
}

/// A word for jars, bowls and tools, anywhere.
bool equipment_word(Tokens tokens) {
    return speaks_of(tokens, {Concept::vessel, Concept::kitchen, Concept::burden});
}

/// Of a line that opens with a count, the thing: "1 cabbage knife"; not "3 roots to fill the jar".
bool counts_equipment(Tokens tokens, std::size_t first) {
    std::size_t end = first;
    while (
        end < tokens.size() &&
        (tokens[end].sort == Token::Sort::word || (tokens[end].text == "-" && tokens[end].glued)) &&
        !purpose(tokens, end) && !means(tokens, end, Concept::of))
        ++end;
    // "1 jar of 2 litres", "1 bowl of glass"; not "1 bucket of" what may go into the jar.
    if (means(tokens, end, Concept::of) && end + 1 < tokens.size() &&
        tokens[end + 1].sort != Token::Sort::number && tokens[end + 1].number == 0 &&
        !tokens[end + 1].is.any({Concept::of_vessel, Concept::kitchen}))
        return false;
    return end > first && end <= first + 6 && equipment_word(tokens.subspan(end - 1, 1));
}

} // namespace

bool remark(Tokens tokens) {
    if (tokens.empty()) return true;
    const bool weighed = amounts(tokens);
    // What stands on labels and below titles, some of it with amounts that are no ingredients.
    const auto word = std::find_if(tokens.begin(), tokens.end(),
                                   [](const Token& t) { return t.sort == Token::Sort::word; });
    if (word != tokens.end() &&
        (word->is.any(Concept::label_with_amount) || (!weighed && word->is.any(Concept::label))))
        return true;
    if (weighed || speaks_of(tokens, {Concept::salty_word, Concept::brine})) return false;
    // "3 to 4 weeks", "4.8 from 30 votes"; not "3 roots, 3 days old".
    const auto q = quantity_at(tokens, 0, {});
    for (std::size_t i = q ? q->tokens : 0; i < tokens.size(); ++i) {
        if (means(tokens, i, {Concept::time, Concept::counted})) return true;
        if (q && tokens[i].sort == Token::Sort::word && !means(tokens, i, Concept::count_joint))
            return false;
    }
    return false;
}

bool equipment(Tokens tokens) {
    if (!equipment_word(tokens) ||
        speaks_of(tokens, {Concept::salty_word, Concept::water, Concept::brine}))
        return false;
    // "Something to weigh it down, a stone for one", "Ingredients for a 1 L jar:"
    if (means(tokens, 0, Concept::something)) return !amounts(tokens);
    const auto q = quantity_at(tokens, 0, {});
    if ((q && q->quantity.is(Sort::package)) || amounts(tokens, true))
        return plain_equipment(tokens);
    if (q) return counts_equipment(tokens, q->tokens);
    // "Cheesecloth and a jar"; not "roots for the jar".
    std::size_t end = 0;
    while (end < tokens.size() && !purpose(tokens, end))
        ++end;
    return equipment_word(tokens.first(end));
}

bool names_dish(std::string_view text, Tokens tokens) {
    return speaks_of(tokens, Concept::dish) || larder::find_kind(text) != nullptr;
}

bool shares_use(Tokens tokens) {
    constexpr Concepts leaves = {Concept::use_serving, Concept::use_bath};
    if (!speaks_of(tokens, leaves)) return false;
    const auto find = [&](std::size_t from, Concepts some) {
        while (from < tokens.size() && !means(tokens, from, some))
            ++from;
        return from;
    };
    const std::size_t first = find(0, Concept::purpose);
    const std::size_t second = find(first, Concept::sum);
    return second < tokens.size() && !speaks_of(tokens.subspan(first, second - first), leaves) &&
           speaks_of(tokens.subspan(second), leaves);
}

bool only_if_needed(Tokens tokens) {
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        if (means(tokens, i, Concept::topping_up)) return true;
        // "peeled if needed" speaks of the peeling.
        const bool of_a_deed = i > 0 && means(tokens, i - 1,
                                              {Concept::cut, Concept::trimmed, Concept::wash,
                                               Concept::rinse, Concept::drain, Concept::heat});
        if (!of_a_deed && means(tokens, i, Concept::if_needed)) return true;
    }
    return false;
}

std::size_t end_of_amount(Tokens tokens) {
    for (std::size_t i = 1; i < tokens.size(); ++i) {
        const bool joint =
            means(tokens, i, {Concept::sum, Concept::either}) || is_mark(tokens, i, "+");
        if (means(tokens, i, Concept::more_word) ||
            (joint && means(tokens, i + 1, {Concept::some_more, Concept::some_other})))
            return i;
    }
    return tokens.size();
}

bool denies_bath(Tokens tokens) {
    for (std::size_t i = 1; i < tokens.size(); ++i) {
        if (!means(tokens, i, Concept::bath)) continue;
        const std::size_t first = i >= 2 ? i - 2 : 0;
        if (speaks_of(tokens.subspan(first, i - first), {Concept::negation, Concept::without}))
            return true;
    }
    return false;
}

} // namespace jarful::appraise
