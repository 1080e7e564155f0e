#include "engine/tend/record.hpp"
#include "engine/units/amount.hpp"

#include <algorithm>
#include <array>
#include <cmath>

// Entries of a record, and how they are put right.

namespace jarful::tend {

namespace {

using What = Logged::What;

/// What is noted of one sort; empty where nothing is.
std::vector<Logged> of_note(const Note& note, What what) {
    const auto figure = [&](const std::optional<double>& value) {
        return value ? std::vector<Logged>{{what, "", *value, false, ""}} : std::vector<Logged>{};
    };
    switch (what) {
    case What::ph:
        return figure(note.ph);
    case What::temperature:
        return figure(note.celsius);
    case What::filled:
        return figure(note.filled_ml);
    case What::deed: {
        std::vector<Logged> out;
        for (const std::string& deed : note.did)
            out.push_back({what, "", 0, false, deed});
        return out;
    }
    case What::text:
        if (!note.text.empty()) return {{what, "", 0, false, note.text}};
        return {};
    case What::weighed:
        break;
    }
    return {};
}

/// Puts `after` in the place of what the note has.
void change(Note& note, const Logged& before, const std::optional<Logged>& after) {
    const auto figure = [&](std::optional<double>& value) {
        value = after ? std::optional(after->value) : std::nullopt;
    };
    switch (before.what) {
    case What::ph:
        return figure(note.ph);
    case What::temperature:
        return figure(note.celsius);
    case What::filled:
        return figure(note.filled_ml);
    case What::deed: {
        const auto there = std::find(note.did.begin(), note.did.end(), before.words);
        if (after)
            *there = after->words;
        else
            note.did.erase(there);
        return;
    }
    case What::text:
        note.text = after ? after->words : std::string();
        return;
    case What::weighed:
        break;
    }
}

bool correct_weighing(Record& record, const Correction& correction) {
    const auto there =
        std::find_if(record.weighings.rbegin(), record.weighings.rend(), [&](const Weighed& one) {
            return !one.taken_back && one.date == correction.of &&
                   correction.before.same({What::weighed, one.name, one.amount, one.pieces, ""});
        });
    if (there == record.weighings.rend()) return false;
    if (correction.after) {
        there->amount = correction.after->value;
        there->pieces = correction.after->pieces;
    } else {
        there->taken_back = true;
    }
    there->corrections.push_back(correction);
    return true;
}

/// What was typed of an entry, taken apart.
struct Typed {
    std::optional<What> what;
    std::string_view name; ///< of what was weighed
    std::string_view rest; ///< an amount, a deed or a text
};

std::string_view trimmed(std::string_view words) {
    const std::size_t begin = std::min(words.find_first_not_of(' '), words.size());
    words.remove_prefix(begin);
    while (words.ends_with(' '))
        words.remove_suffix(1);
    return words;
}

Typed take_apart(std::string_view words, std::optional<What> what) {
    struct Key {
        std::string_view word;
        What what;
    };
    static constexpr std::array keys{Key{"ph ", What::ph},
                                     Key{"at ", What::temperature},
                                     Key{"temp ", What::temperature},
                                     Key{"filled ", What::filled},
                                     Key{"did ", What::deed},
                                     Key{"weighed ", What::weighed}};
    Typed out{what, "", trimmed(words)};
    for (const Key& key : keys) {
        const std::string_view start = out.rest.substr(0, key.word.size());
        const bool same =
            std::equal(start.begin(), start.end(), key.word.begin(), key.word.end(),
                       [](char a, char b) { return (a >= 'A' && a <= 'Z' ? a + 32 : a) == b; });
        if (!same || (what && *what != key.what)) continue;
        out.what = key.what;
        out.rest = trimmed(out.rest.substr(key.word.size()));
        break;
    }
    const std::size_t equals = out.rest.find('=');
    if (equals != std::string_view::npos && out.what.value_or(What::weighed) == What::weighed) {
        out.name = trimmed(out.rest.substr(0, equals));
        out.rest = trimmed(out.rest.substr(equals + 1));
        out.what = What::weighed;
    }
    return out;
}

bool meant(const Logged& entry, const Typed& typed) {
    if (typed.what && *typed.what != entry.what) return false;
    if (entry.what == What::deed) return entry.words == typed.rest;
    if (entry.what == What::text)
        return !typed.rest.empty() && entry.words.find(typed.rest) != std::string::npos;
    const auto amount = units::read_amount(typed.rest);
    if (!amount) return false;
    Logged same = entry;
    switch (entry.what) {
    case What::ph:
        if (!amount->plain_number) return false;
        break;
    case What::temperature:
        if (!amount->temperature_point) return false;
        same.value = amount->value - units::zero_celsius;
        return entry.same(same);
    case What::filled:
        if (amount->dimension != units::dim::volume) return false;
        break;
    default:
        if (entry.pieces != amount->plain_number ||
            (!entry.pieces && amount->dimension != units::dim::mass) ||
            (!typed.name.empty() && typed.name != entry.name))
            return false;
    }
    same.value = amount->value;
    return entry.same(same);
}

} // namespace

bool Logged::same(const Logged& other) const {
    const double size = std::max({1.0, std::fabs(value), std::fabs(other.value)});
    return what == other.what && name == other.name && pieces == other.pieces &&
           words == other.words && std::fabs(value - other.value) <= 1e-6 * size;
}

bool Note::empty() const {
    return !ph && !celsius && !filled_ml && did.empty() && text.empty();
}

bool correct(Record& record, Correction correction) {
    if (correction.before.what == What::weighed) return correct_weighing(record, correction);
    // Of several of one day the last.
    for (auto note = record.notes.rbegin(); note != record.notes.rend(); ++note) {
        if (note->date != correction.of) continue;
        const std::vector<Logged> there = of_note(*note, correction.before.what);
        if (std::none_of(there.begin(), there.end(),
                         [&](const Logged& one) { return one.same(correction.before); }))
            continue;
        change(*note, correction.before, correction.after);
        note->corrections.push_back(std::move(correction));
        return true;
    }
    return false;
}

std::vector<std::pair<Date, Logged>> entries_of(const Record& record, Logged::What what) {
    std::vector<std::pair<Date, Logged>> out;
    if (what == What::weighed) {
        for (const Weighed& one : record.weighings)
            if (!one.taken_back && one.date)
                out.emplace_back(*one.date, Logged{what, one.name, one.amount, one.pieces, ""});
        return out;
    }
    for (const Note& note : record.notes)
        for (Logged& entry : of_note(note, what))
            out.emplace_back(note.date, std::move(entry));
    return out;
}

std::vector<std::pair<Date, Logged>> entries_meant(const Record& record, std::string_view words,
                                                   std::optional<Logged::What> what) {
    const Typed typed = take_apart(words, what);
    std::vector<std::pair<Date, Logged>> out;
    for (const What sort :
         {What::weighed, What::ph, What::temperature, What::filled, What::deed, What::text})
        for (auto& one : entries_of(record, sort))
            if (meant(one.second, typed)) out.push_back(std::move(one));
    return out;
}

} // namespace jarful::tend
