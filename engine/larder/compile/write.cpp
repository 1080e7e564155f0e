#include "engine/larder/compile/facts.hpp"
#include "engine/larder/compile/packed.hpp"

#include <cstdio>
#include <string_view>

namespace jarful::larder::compile {

namespace {

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

std::string flag(bool value) {
    return value ? "true" : "false";
}

std::string column(const std::string& array, const std::vector<double>& values) {
    std::string out = "constexpr double " + array + "[] = {";
    for (const double value : values)
        out += number(value) + ", ";
    return out + "};\n";
}

/// Writes the tables and gathers what they refer to by its place (constant.hpp).
class Writer {
  public:
    explicit Writer(const Facts& facts)
        : facts_(facts) {}
    [[nodiscard]] std::string written();

  private:
    std::string text(std::string_view words) { return texts_.add(words); }
    std::string list(const std::vector<std::string>& words) {
        std::vector<std::string> entries;
        for (const std::string& word : words)
            entries.push_back(text(word));
        return lists_.add(entries);
    }
    std::string figure(const std::optional<FigureFact>& f) {
        if (!f) return "std::nullopt";
        return "Figure{" + number(f->low) + ", " + number(f->typical) + ", " + number(f->high) +
               ", " + of_enum("Status", f->status) + ", " + text(f->source) + "}";
    }
    static std::string bound(const std::optional<BoundFact>& b) {
        if (!b) return "std::nullopt";
        return "Bound{" + number(b->percent) + ", Entry<RangeRow, row_table>::at(" +
               std::to_string(b->row) + ")}";
    }
    std::string foreign_tables();
    std::string materials();
    std::string families();
    std::string rows();
    std::string kinds();
    std::string cautions();
    std::string timing();

    const Facts& facts_;
    TextBlob texts_;
    Pool lists_, rulings_, row_lists_;
};

/// A table of names for each language, and one of these.
std::string Writer::foreign_tables() {
    if (facts_.foreign_names.empty()) return {};
    std::string tables;
    std::string rows = "constexpr ForeignNames foreign_table[] = {\n";
    for (const auto& [tag, names] : facts_.foreign_names) {
        tables += packed_table("foreign_names_" + tag, names);
        rows += "{\"" + tag + "\", foreign_names_" + tag + "},\n";
    }
    return tables + rows + "};\n";
}

std::string Writer::materials() {
    std::string table = "constexpr Material material_table[] = {\n";
    for (const MaterialFact& m : facts_.materials) {
        table += "{" + text(m.id) + ", " + text(m.name) + ", " + of_enum("Role", m.role) + ", " +
                 list(m.names) + ",\n" + figure(m.bulk_density) + ",\n" + figure(m.true_density) +
                 ",\n" + figure(m.water) + ",\n" + figure(m.salt) + ",\n" + figure(m.piece) +
                 ",\n" + figure(m.refuse) + ",\n" + text(m.piece_word) + ", " +
                 of_enum("SaltWarning", m.warning) + ", " + flag(!m.vague_hint.empty()) + ", " +
                 text(m.vague_hint) + ", " + text(m.note) + "},\n";
    }
    return table + "};\n";
}

std::string Writer::families() {
    std::string table = "constexpr Text family_table[] = {\n";
    for (const MaterialFact& m : facts_.materials)
        table += text(m.family) + ",\n";
    return table + "};\n";
}

std::string Writer::rows() {
    std::string table = "constinit const RangeRow row_table[] = {\n";
    for (const RowFact& r : facts_.rows) {
        table += "{" + text(r.id) + ", " + text(r.kind) + ", " + text(r.method) + ", " +
                 of_enum("Basis", r.basis) + ", " + optional_number(r.low) + ", " +
                 optional_number(r.typical) + ", " + optional_number(r.high) + ", " +
                 of_enum("RowRole", r.role) + ",\n" + text(r.source) + ",\n" + text(r.section) +
                 ", " + of_enum("Status", r.status) + ", " + text(r.note) + "},\n";
    }
    return table + "};\n";
}

std::string Writer::kinds() {
    std::string table = "constexpr Kind kind_table[] = {\n";
    for (const KindFact& k : facts_.kinds) {
        std::vector<std::string> rulings;
        for (const RulingFact& r : k.rulings) {
            rulings.push_back("{" + text(r.method) + ", " + text(r.title) + ", " +
                              of_enum("Basis", r.basis) + ", " + bound(r.low) + ", " +
                              bound(r.high) + ", " + optional_number(r.typical) + ",\n" +
                              text(r.why) + "}");
        }
        std::vector<std::string> rows;
        for (std::size_t row = 0; row < facts_.rows.size(); ++row) {
            if (facts_.rows[row].kind == k.name) rows.push_back(std::to_string(row));
        }
        table += "{" + text(k.name) + ", " + text(k.title) + ", " + list(k.names) + ", " +
                 rulings_.add(rulings) + ", " + flag(k.method_needed) + ", " +
                 row_lists_.add(rows) + ", " + list(k.cautions) + "},\n";
    }
    return table + "};\n";
}

std::string Writer::cautions() {
    std::string table = "constexpr Caution caution_table[] = {\n";
    for (const CautionFact& c : facts_.cautions) {
        table += "{" + text(c.id) + ", " + text(c.title) + ", " + text(c.brief) + ", " +
                 text(c.text) + ", " + flag(c.always) + ", " + of_enum("Status", c.status) + ", " +
                 text(c.source) + "},\n";
    }
    return table + "};\n";
}

std::string Writer::timing() {
    std::string table = "constexpr TimingRow timing_table[] = {\n";
    for (const TimingFact& t : facts_.timing) {
        table += "{" + text(t.id) + ", " + text(t.kind) + ", " + text(t.method) + ", " +
                 of_enum("TimingWhat", t.what);
        for (const auto& value : {t.celsius_low, t.celsius_high})
            table += ", " + optional_number(value);
        table += ", " + flag(t.celsius_read);
        for (const auto& value :
             {t.days_low, t.days_high, t.ph_low, t.ph_high, t.acid_low, t.acid_high})
            table += ", " + optional_number(value);
        table += ", " + flag(t.rules_days) + ", " + flag(t.rules_ph) + ",\n" + text(t.source) +
                 ", " + text(t.section) + ", " + of_enum("Status", t.status) + ", " + text(t.note) +
                 "},\n";
    }
    return table + "};\n";
}

std::string Writer::written() {
    std::string out =
        "// Written by jarful_larder_compile from engine/larder/data. Do not edit.\n"
        "#include \"engine/larder/tables.hpp\"\n\n"
        "// Longer than the standard asks for, and no compiler that builds this minds.\n"
        "#ifdef __clang__\n"
        "#pragma clang diagnostic ignored \"-Woverlength-strings\"\n"
        "#endif\n\n"
        "namespace jarful::larder::tables {\nnamespace {\n";
    out += materials() + families() + packed_table("material_name_table", facts_.material_names) +
           foreign_tables() + kinds() + packed_table("kind_name_table", facts_.kind_names) +
           cautions() + timing() + column("brine_celsius", facts_.brine.celsius) +
           column("brine_percent", facts_.brine.percent) +
           column("brine_density", facts_.brine.density);
    out += "} // namespace\n\n" + rows() + rulings_.array("Ruling", "rulings") +
           lists_.array("Text", "lists") + row_lists_.array("std::uint16_t", "row_lists") +
           "constinit const std::span<const Material> materials = material_table;\n"
           "constinit const std::span<const Text> families = family_table;\n"
           "constinit const PackedTable material_names = material_name_table;\n"
           "constinit const std::span<const ForeignNames> foreign_names = " +
           (facts_.foreign_names.empty() ? "{}" : "foreign_table") +
           ";\n"
           "constinit const std::span<const RangeRow> range_rows = row_table;\n"
           "constinit const std::span<const Kind> kinds = kind_table;\n"
           "constinit const PackedTable kind_names = kind_name_table;\n"
           "constinit const std::span<const Caution> cautions = caution_table;\n"
           "constinit const std::span<const TimingRow> timing_rows = timing_table;\n"
           "constinit const BrineGrid brine = {brine_celsius, brine_percent, brine_density, " +
           number(facts_.brine.error) + ", " + of_enum("Status", facts_.brine.status) + ", " +
           text(facts_.brine.source) + "};\n\n";
    // The characters last: by now every text is among them.
    out += texts_.array("texts") + "\n} // namespace jarful::larder::tables\n";
    return out;
}

} // namespace

std::string write_tables(const Facts& facts) {
    return Writer(facts).written();
}

} // namespace jarful::larder::compile
