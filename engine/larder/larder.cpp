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

} // namespace

const Material* find_foreign(std::string_view name, std::string_view tag) {
    for (std::size_t i = 0; i < tables::foreign_names.size(); ++i) {
        if (tables::foreign_names[i].tag != tag) continue;
        const WordTable::Entry* entry = foreign_names()[i].find(fold(name));
        return entry == nullptr ? nullptr : &tables::materials[entry->number];
    }
    return nullptr;
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
    for (const std::string& key : {folded, singular(folded)}) {
        if (const auto index = find(tables::material_names, key)) return &tables::materials[*index];
    }
    return nullptr;
}

} // namespace jarful::larder
