#include "engine/larder/compile/facts.hpp"
#include "engine/larder/compile/packed.hpp"

#include <cstdio>
#include <string_view>

namespace jarful::larder::compile {

namespace {

std::string quoted(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out.push_back('\\');
        out.push_back(c);
    }
    return out + '"';
}

/// The shortest decimal that reads back as the same double; the larder's figures are short.
std::string number(double value) {
    char buffer[40];
    for (int digits = 6; digits <= 17; ++digits) {
        std::snprintf(buffer, sizeof buffer, "%.*g", digits, value);
        if (std::stod(buffer) == value) break;
    }
    return buffer;
}

std::string optional_number(const std::optional<double>& value) {
    return value ? number(*value) : "std::nullopt";
}

std::string enumerator(std::string_view type, int value) {
    return "static_cast<" + std::string(type) + ">(" + std::to_string(value) + ")";
}

template <typename Enum>
std::string of_enum(std::string_view type, Enum value) {
    return enumerator(type, static_cast<int>(value));
}

std::string figure(const std::optional<FigureFact>& f) {
    if (!f) return "std::nullopt";
    return "Figure{" + number(f->low) + ", " + number(f->typical) + ", " + number(f->high) + ", " +
           of_enum("Status", f->status) + ", " + quoted(f->source) + "}";
}

/// An array of words, or nothing at all for none; `span_of` gives what refers to it.
std::string words(const std::string& array, const std::vector<std::string>& list) {
    if (list.empty()) return {};
    std::string out = "constexpr std::string_view " + array + "[] = {";
    for (const std::string& word : list)
        out += quoted(word) + ", ";
    return out + "};\n";
}

std::string span_of(const std::string& array, bool empty) {
    return empty ? "{}" : array;
}

/// A table of names for each language, and one of these.
std::string foreign_tables(const Facts& facts) {
    if (facts.foreign_names.empty()) return {};
    std::string tables;
    std::string rows = "constexpr ForeignNames foreign_table[] = {\n";
    for (const auto& [tag, names] : facts.foreign_names) {
        tables += packed_table("foreign_names_" + tag, names);
        rows += "{" + quoted(tag) + ", foreign_names_" + tag + "},\n";
    }
    return tables + rows + "};\n";
}

std::string materials(const Facts& facts) {
    std::string lists;
    std::string table = "constexpr Material material_table[] = {\n";
    for (std::size_t i = 0; i < facts.materials.size(); ++i) {
        const MaterialFact& m = facts.materials[i];
        const std::string names = "names_" + std::to_string(i);
        lists += words(names, m.names);
        table += "{" + quoted(m.id) + ", " + quoted(m.name) + ", " + of_enum("Role", m.role) +
                 ", " + span_of(names, m.names.empty()) + ",\n" + figure(m.bulk_density) + ",\n" +
                 figure(m.true_density) + ",\n" + figure(m.water) + ",\n" + figure(m.salt) + ",\n" +
                 figure(m.piece) + ",\n" + figure(m.refuse) + ",\n" + quoted(m.piece_word) + ", " +
                 of_enum("SaltWarning", m.warning) + ", " +
                 (m.vague_hint.empty() ? "false" : "true") + ", " + quoted(m.vague_hint) + ", " +
                 quoted(m.note) + "},\n";
    }
    return lists + table + "};\n";
}

std::string families(const Facts& facts) {
    std::vector<std::string> families;
    for (const MaterialFact& m : facts.materials)
        families.push_back(m.family);
    return words("family_table", families);
}

std::string rows(const Facts& facts) {
    std::string table = "constexpr RangeRow row_table[] = {\n";
    for (const RowFact& r : facts.rows) {
        table += "{" + quoted(r.id) + ", " + quoted(r.kind) + ", " + quoted(r.method) + ", " +
                 of_enum("Basis", r.basis) + ", " + optional_number(r.low) + ", " +
                 optional_number(r.typical) + ", " + optional_number(r.high) + ", " +
                 of_enum("RowRole", r.role) + ",\n" + quoted(r.source) + ",\n" + quoted(r.section) +
                 ", " + of_enum("Status", r.status) + ", " + quoted(r.note) + "},\n";
    }
    return table + "};\n";
}

std::string bound(const std::optional<BoundFact>& b) {
    if (!b) return "std::nullopt";
    return "Bound{" + number(b->percent) + ", &row_table[" + std::to_string(b->row) + "]}";
}

std::string kinds(const Facts& facts) {
    std::string lists;
    std::string table = "constexpr Kind kind_table[] = {\n";
    for (std::size_t i = 0; i < facts.kinds.size(); ++i) {
        const KindFact& k = facts.kinds[i];
        const std::string n = std::to_string(i);
        lists += words("kind_names_" + n, k.names) + words("kind_cautions_" + n, k.cautions);
        lists += "constexpr Ruling rulings_" + n + "[] = {\n";
        for (const RulingFact& r : k.rulings) {
            lists += "{" + quoted(r.method) + ", " + quoted(r.title) + ", " +
                     of_enum("Basis", r.basis) + ", " + bound(r.low) + ", " + bound(r.high) + ", " +
                     optional_number(r.typical) + ",\n" + quoted(r.why) + "},\n";
        }
        lists += "};\n";
        std::string indices;
        for (std::size_t row = 0; row < facts.rows.size(); ++row) {
            if (facts.rows[row].kind == k.name) indices += std::to_string(row) + ", ";
        }
        if (!indices.empty()) {
            lists += "constexpr std::uint16_t kind_rows_" + n + "[] = {" + indices + "};\n";
        }
        table += "{" + quoted(k.name) + ", " + quoted(k.title) + ", " +
                 span_of("kind_names_" + n, k.names.empty()) + ", rulings_" + n + ", " +
                 (k.method_needed ? "true" : "false") + ", " +
                 span_of("kind_rows_" + n, indices.empty()) + ", " +
                 span_of("kind_cautions_" + n, k.cautions.empty()) + "},\n";
    }
    return lists + table + "};\n";
}

std::string cautions(const Facts& facts) {
    std::string table = "constexpr Caution caution_table[] = {\n";
    for (const CautionFact& c : facts.cautions) {
        table += "{" + quoted(c.id) + ", " + quoted(c.title) + ", " + quoted(c.brief) + ", " +
                 quoted(c.text) + ", " +
                 (c.always ? "true" : "false") + ", " + of_enum("Status", c.status) + ", " +
                 quoted(c.source) + "},\n";
    }
    return table + "};\n";
}

std::string timing(const Facts& facts) {
    const auto flag = [](bool value) { return std::string(value ? "true" : "false"); };
    std::string table = "constexpr TimingRow timing_table[] = {\n";
    for (const TimingFact& t : facts.timing) {
        table += "{" + quoted(t.id) + ", " + quoted(t.kind) + ", " + quoted(t.method) + ", " +
                 of_enum("TimingWhat", t.what);
        for (const auto& value : {t.celsius_low, t.celsius_high})
            table += ", " + optional_number(value);
        table += ", " + flag(t.celsius_read);
        for (const auto& value :
             {t.days_low, t.days_high, t.ph_low, t.ph_high, t.acid_low, t.acid_high})
            table += ", " + optional_number(value);
        table += ", " + flag(t.rules_days) + ", " + flag(t.rules_ph) + ",\n" + quoted(t.source) +
                 ", " + quoted(t.section) + ", " + of_enum("Status", t.status) + ", " +
                 quoted(t.note) + "},\n";
    }
    return table + "};\n";
}

std::string column(const std::string& array, const std::vector<double>& values) {
    std::string out = "constexpr double " + array + "[] = {";
    for (const double value : values)
        out += number(value) + ", ";
    return out + "};\n";
}

} // namespace

std::string write_tables(const Facts& facts) {
    std::string out = "// Written by jarful_larder_compile from engine/larder/data. Do not edit.\n"
                      "#include \"engine/larder/tables.hpp\"\n\n"
                      "namespace jarful::larder::tables {\nnamespace {\n";
    out += materials(facts) + families(facts) +
           packed_table("material_name_table", facts.material_names) + foreign_tables(facts) +
           rows(facts) + kinds(facts) + packed_table("kind_name_table", facts.kind_names) +
           cautions(facts) + timing(facts) + column("brine_celsius", facts.brine.celsius) +
           column("brine_percent", facts.brine.percent) +
           column("brine_density", facts.brine.density);
    out += "} // namespace\n\n"
           "constinit const std::span<const Material> materials = material_table;\n"
           "constinit const std::span<const std::string_view> families = family_table;\n"
           "constinit const PackedTable material_names = material_name_table;\n"
           "constinit const std::span<const ForeignNames> foreign_names = " +
           span_of("foreign_table", facts.foreign_names.empty()) +
           ";\n"
           "constinit const std::span<const RangeRow> range_rows = row_table;\n"
           "constinit const std::span<const Kind> kinds = kind_table;\n"
           "constinit const PackedTable kind_names = kind_name_table;\n"
           "constinit const std::span<const Caution> cautions = caution_table;\n"
           "constinit const std::span<const TimingRow> timing_rows = timing_table;\n"
           "constinit const BrineGrid brine = {brine_celsius, brine_percent, brine_density, " +
           number(facts.brine.error) + ", " + of_enum("Status", facts.brine.status) + ", " +
           quoted(facts.brine.source) + "};\n\n} // namespace jarful::larder::tables\n";
    return out;
}

} // namespace jarful::larder::compile
