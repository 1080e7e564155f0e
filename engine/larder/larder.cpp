#include "engine/larder/larder.hpp"

#include "engine/larder/family.hpp"
#include "engine/larder/fold.hpp"
#include "engine/larder/foreign.hpp"
#include "engine/larder/tables.hpp"
#include "engine/units/nearest.hpp"

#include <algorithm>

namespace jarful::larder {

std::span<const Material> materials() {
    return tables::materials;
}
std::span<const RangeRow> range_rows() {
    return tables::range_rows;
}
std::span<const Kind> kinds() {
    return tables::kinds;
}
std::span<const Caution> cautions() {
    return tables::cautions;
}

std::span<const TimingRow> timing_rows() {
    return tables::timing_rows;
}

const Caution* find_caution(std::string_view id) {
    const auto all = tables::cautions;
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const Caution& c) { return c.id == id; });
    return found == all.end() ? nullptr : &*found;
}

const RangeRow* find_range_row(std::string_view id) {
    const auto all = tables::range_rows;
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const RangeRow& row) { return row.id == id; });
    return found == all.end() ? nullptr : &*found;
}

const Kind* find_kind(std::string_view name) {
    const std::string folded = fold(name);
    for (const std::string& key : {folded, singular(folded)}) {
        if (const auto index = find(tables::kind_names, key)) {
            return &tables::kinds[*index];
        }
    }
    return nullptr;
}

std::optional<std::string_view> nearest_kind(std::string_view misspelt) {
    std::vector<std::string_view> names;
    const WordTable table(tables::kind_names);
    for (const WordTable::Entry& entry : table.entries())
        names.push_back(entry.word);
    const auto name = units::nearest(fold(misspelt), names);
    if (!name) return std::nullopt;
    return find_kind(*name)->name;
}

const Ruling* find_ruling(const Kind& kind, std::string_view method) {
    if (method.empty()) return kind.method_needed ? nullptr : &kind.rulings.front();
    const std::string folded = fold(method);
    for (const Ruling& ruling : kind.rulings) {
        if (!ruling.method.empty() && fold(ruling.method) == folded) return &ruling;
    }
    return nullptr;
}

namespace {

/// The names of the other languages, in the order of the tables; unpacked when they are first asked
/// for, as every word of a list from elsewhere is looked up in each of them.
const std::vector<WordTable>& foreign_names() {
    static const std::vector<WordTable> all = [] {
        std::vector<WordTable> out;
        for (const tables::ForeignNames& language : tables::foreign_names)
            out.emplace_back(language.names);
        return out;
    }();
    return all;
}

/// The program's own names, unpacked likewise.
const WordTable& own_names() {
    static const WordTable all(tables::material_names);
    return all;
}

} // namespace

const Material* find_foreign(std::string_view name, std::string_view tag) {
    for (std::size_t i = 0; i < tables::foreign_names.size(); ++i) {
        if (tables::foreign_names[i].tag != tag) continue;
        const WordTable::Entry* entry = foreign_names()[i].find(fold(name));
        return entry == nullptr ? nullptr : &tables::materials[entry->number];
    }
    return nullptr;
}

namespace {

/// Tells every word that is one slip away.
template <class Found>
void one_slip_away(std::string_view word, const Found& found) {
    std::string other;
    const auto letters = [&](std::size_t at, std::size_t end) {
        for (char c = 'a'; c <= 'z'; ++c) {
            other.assign(word, 0, at);
            other += c;
            found(other.append(word, end));
        }
    };
    for (std::size_t i = 0; i <= word.size(); ++i) {
        letters(i, i); // one is missing
        if (i == word.size()) continue;
        letters(i, i + 1); // another one
        other.assign(word, 0, i);
        found(other.append(word, i + 1)); // one too many
        if (i + 1 == word.size()) continue;
        other = word;
        std::swap(other[i], other[i + 1]);
        found(other);
    }
}

} // namespace

std::optional<Spelling> spelt_right(std::string_view folded, std::string_view tag) {
    constexpr std::size_t fewest = 6; // shorter ones are as near to too many others
    constexpr std::size_t most = 24;
    if (folded.size() < fewest || folded.size() > most) return std::nullopt;
    std::optional<Spelling> out;
    bool several = false;
    one_slip_away(folded, [&](const std::string& word) {
        const WordTable::Entry* const entry = own_names().find(word);
        const Material* const one =
            entry != nullptr ? &tables::materials[entry->number] : find_foreign(word, tag);
        if (one == nullptr) return;
        several = several || (out && out->material != one);
        out = {word, one};
    });
    return several ? std::nullopt : out;
}

std::string_view family_of(const Material& material) {
    const auto all = tables::materials;
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (&all[i] == &material) return tables::families[i];
    }
    return {};
}

const Material* find_exact(std::string_view name) {
    const std::string folded = fold(name);
    const WordTable::Entry* entry = own_names().find(folded);
    if (entry == nullptr && folded.find('s') != std::string::npos)
        entry = own_names().find(singular(folded));
    return entry == nullptr ? nullptr : &tables::materials[entry->number];
}

} // namespace jarful::larder
