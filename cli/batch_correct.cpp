#include "cli/batch_correct.hpp"

#include "cli/options.hpp"
#include "cli/terminal.hpp"

#include <algorithm>

namespace jarful::cli {

namespace {

using tend::Logged;
using What = Logged::What;
using Found = std::vector<std::pair<tend::Date, Logged>>;

std::nullopt_t nothing_noted(const std::string& why) {
    complain("Nothing was noted: " + why);
    return std::nullopt;
}

/// What is right instead, each value by itself; the text only where there is nothing else.
std::vector<Logged> values_of(const tend::Note& note, const std::vector<tend::Weighed>& weighings) {
    std::vector<Logged> out;
    for (const tend::Weighed& one : weighings)
        out.push_back({What::weighed, one.name, one.amount, one.pieces, ""});
    if (note.ph) out.push_back({What::ph, "", *note.ph, false, ""});
    if (note.celsius) out.push_back({What::temperature, "", *note.celsius, false, ""});
    if (note.filled_ml) out.push_back({What::filled, "", *note.filled_ml, false, ""});
    for (const std::string& deed : note.did)
        out.push_back({What::deed, "", 0, false, deed});
    if (out.empty() && !note.text.empty()) out.push_back({What::text, "", 0, false, note.text});
    return out;
}

/// The last few entries that could have been meant.
std::string there_are(const tend::Record& record, std::optional<What> what) {
    Found all;
    for (const What sort :
         {What::weighed, What::ph, What::temperature, What::filled, What::deed, What::text})
        if (!what || *what == sort)
            for (auto& one : tend::entries_of(record, sort))
                all.push_back(std::move(one));
    std::stable_sort(all.begin(), all.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    constexpr std::size_t most = 6;
    std::string out;
    for (std::size_t i = all.size() > most ? all.size() - most : 0; i < all.size(); ++i)
        out += (out.empty() ? "" : "; ") + tend::print_entry(all[i].second) + " on " +
               tend::print_date(all[i].first);
    return out.empty() ? "Nothing of the sort is in the record." : "There is: " + out + ".";
}

/// The one entry that is meant.
std::optional<std::pair<tend::Date, Logged>>
find(const CorrectionWords& typed, std::optional<What> what, const tend::Record& record) {
    const std::string& words = typed.corrects ? *typed.corrects : *typed.withdraws;
    Found found = tend::entries_meant(record, words, what);
    if (typed.on) {
        const auto day = tend::read_date(*typed.on);
        if (!day)
            return nothing_noted(in_quotes(*typed.on) +
                                 " is no day of a calendar. Write it as in --on 2026-11-25.");
        std::erase_if(found, [&](const auto& one) { return one.first != *day; });
    }
    if (found.empty())
        return nothing_noted("the record has no " + in_quotes(words) +
                             (typed.on ? " on " + *typed.on : "") + ". " + there_are(record, what));
    const auto same = [&](const auto& one) {
        return one.first == found.front().first && one.second.same(found.front().second);
    };
    if (!std::all_of(found.begin(), found.end(), same)) {
        std::string list;
        for (const auto& [day, entry] : found)
            list += (list.empty() ? "" : "; ") + tend::print_entry(entry) + " on " +
                    tend::print_date(day);
        return nothing_noted(in_quotes(words) + " may be more than one: " + list +
                             ". Say more of it, or its day with --on.");
    }
    return found.back();
}

} // namespace

std::optional<std::string> correction_line(const CorrectionWords& typed, const tend::Note& note,
                                           const std::vector<tend::Weighed>& weighings,
                                           const tend::Record& record) {
    if (typed.corrects && typed.withdraws)
        return nothing_noted("--corrects and --withdraws are two lines. Say one of them.");
    std::vector<Logged> values = values_of(note, weighings);
    const bool text = !values.empty() && values.front().what == What::text;
    if (typed.withdraws && !values.empty() && !text)
        return nothing_noted("--withdraws takes an entry back, and nothing comes in its place. "
                             "With a new value it is --corrects.");
    if (typed.corrects && values.empty())
        return nothing_noted("what is right instead? Say it as well, as in --ph 4.1; or take the "
                             "entry back with --withdraws.");
    if (values.size() > 1)
        return nothing_noted("one entry is corrected at a time, and several values are given.");
    tend::Correction out;
    out.date = note.date;
    if (typed.corrects) out.after = values.front();
    if (typed.withdraws || !text) out.why = note.text;
    auto meant = find(typed, out.after ? std::optional(out.after->what) : std::nullopt, record);
    if (!meant) return std::nullopt;
    out.of = meant->first;
    out.before = std::move(meant->second);
    if (out.before.what == What::weighed && out.after && out.before.name != out.after->name)
        return nothing_noted("what was noted is " + out.before.name +
                             ", and the new weight is of " + out.after->name +
                             ". Take the one back with --withdraws, and note the "
                             "other.");
    if (out.after && out.after->same(out.before))
        return nothing_noted("that is what the record says.");
    return tend::print_correction(out);
}

} // namespace jarful::cli
