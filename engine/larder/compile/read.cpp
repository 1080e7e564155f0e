#include "engine/larder/compile/reader.hpp"
#include "engine/larder/fold.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace jarful::larder::compile {

namespace {

/// Takes `names_de` and its like out of an entry: any tag of two small letters.
void take_foreign_names(Reader& reader, json& entry, MaterialFact& m, const std::string& where) {
    if (!entry.is_object()) return;
    std::vector<std::string> keys;
    for (const auto& [name, value] : entry.items()) {
        const auto letter = [&, &key = name](std::size_t i) {
            return key[i] >= 'a' && key[i] <= 'z';
        };
        if (name.size() == 8 && name.starts_with("names_") && letter(6) && letter(7))
            keys.push_back(name);
    }
    for (const std::string& key : keys) {
        m.foreign[key.substr(6)] = reader.texts(entry, key.c_str(), where);
        entry.erase(key);
    }
}

void read_materials(Reader& reader, const std::string& file, Facts& facts) {
    for (json entry : reader.load(file, "materials")) {
        MaterialFact m;
        m.id = reader.text(entry, "id", file);
        const std::string where = file + ", " + m.id;
        take_foreign_names(reader, entry, m, where);
        reader.only(entry, where,
                    {"id", "name", "role", "family", "names", "bulk_density", "true_density",
                     "water", "salt", "piece", "refuse", "piece_word", "warning", "vague_hint",
                     "note"});
        m.name = reader.text(entry, "name", where);
        m.role = reader.word<Role>(entry, "role", where,
                                   {{"vegetable", Role::vegetable},
                                    {"salt", Role::salt},
                                    {"water", Role::water},
                                    {"aromatic", Role::aromatic},
                                    {"seasoning", Role::seasoning},
                                    {"acid", Role::acid},
                                    {"other", Role::other}});
        m.family = reader.text(entry, "family", where, false);
        m.names = reader.texts(entry, "names", where);
        m.bulk_density = reader.figure(entry, "bulk_density", where, 3.0);
        m.true_density = reader.figure(entry, "true_density", where, 3.0);
        m.water = reader.figure(entry, "water", where, 1.0);
        m.salt = reader.figure(entry, "salt", where, 1.0);
        m.piece = reader.figure(entry, "piece", where, 20000.0);
        m.refuse = reader.figure(entry, "refuse", where, 1.0);
        m.piece_word = reader.text(entry, "piece_word", where, false);
        m.vague_hint = reader.text(entry, "vague_hint", where, false);
        m.note = reader.text(entry, "note", where, false);
        if (m.piece.has_value() != !m.piece_word.empty()) {
            reader.fault(where, "a piece needs its word, and a word its piece");
        }
        if (entry.contains("warning")) {
            m.warning = reader.word<SaltWarning>(entry, "warning", where,
                                                 {{"may_cloud", SaltWarning::may_cloud},
                                                  {"not_recommended", SaltWarning::not_recommended},
                                                  {"reduced_sodium", SaltWarning::reduced_sodium},
                                                  {"curing", SaltWarning::curing}});
        }
        facts.materials.push_back(std::move(m));
    }
}

/// Claims a folded name for an entry; a fault if another entry has it already.
void claim(Reader& reader, NameTable& table, const std::string& name, std::size_t index,
           const std::string& where, const std::string& other_id) {
    const auto [place, added] = table.try_emplace(name, index);
    if (!added && place->second != index) {
        reader.fault(where, "claims the name \"" + name + "\", which is " + other_id + "'s");
    }
}

/// The names of each foreign language. They are looked up as they stand: plurals are listed.
std::map<std::string, NameTable> foreign_tables(Reader& reader,
                                                const std::vector<MaterialFact>& materials) {
    std::map<std::string, NameTable> tables;
    for (std::size_t i = 0; i < materials.size(); ++i) {
        for (const auto& [tag, names] : materials[i].foreign) {
            if (names.empty()) continue;
            NameTable& table = tables[tag];
            const std::string where = "material " + materials[i].id + ", names_" + tag;
            std::set<std::string> own;
            for (const std::string& name : names) {
                const std::string key = fold(name);
                if (!own.insert(key).second) reader.fault(where, "lists \"" + name + "\" twice");
                const auto found = table.find(key);
                claim(reader, table, key, i, where,
                      found == table.end() ? std::string() : materials[found->second].id);
            }
        }
    }
    return tables;
}

template <typename Entry, typename Id>
NameTable name_table(Reader& reader, const std::vector<Entry>& entries, Id id_of,
                     const std::string& what) {
    NameTable table;
    const auto other = [&](const std::string& name) {
        const auto found = table.find(name);
        return found == table.end() ? std::string() : id_of(entries[found->second]);
    };
    const auto all_names = [&](const Entry& entry) {
        std::vector<std::string> names = entry.names;
        names.push_back(entry.name);
        names.push_back(id_of(entry));
        return names;
    };
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const std::string where = what + " " + id_of(entries[i]);
        std::set<std::string> own{fold(entries[i].name)};
        for (const std::string& name : entries[i].names) {
            if (!own.insert(fold(name)).second) {
                reader.fault(where, "lists the name \"" + name + "\" twice");
            }
        }
        for (const std::string& name : all_names(entries[i])) {
            claim(reader, table, fold(name), i, where, other(fold(name)));
        }
    }
    // Singular forms come second, so that a listed plural ("peppers") keeps its own meaning.
    const NameTable listed = table;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        for (const std::string& name : all_names(entries[i])) {
            const std::string one = singular(fold(name));
            if (listed.contains(one)) continue;
            claim(reader, table, one, i, what + " " + id_of(entries[i]), other(one));
        }
    }
    return table;
}

void read_rows(Reader& reader, Facts& facts) {
    std::set<std::string> ids;
    for (const json& entry : reader.load("ranges.json", "rows")) {
        RowFact row;
        row.id = reader.text(entry, "id", "ranges.json");
        const std::string where = "ranges.json, " + row.id;
        reader.only(entry, where,
                    {"id", "kind", "method", "basis", "low", "typical", "high", "role", "source",
                     "section", "status", "note"});
        if (!ids.insert(row.id).second) reader.fault(where, "is there twice");
        row.kind = reader.text(entry, "kind", where);
        row.method = reader.text(entry, "method", where);
        row.basis = reader.basis(entry, where);
        row.low = reader.number(entry, "low", where);
        row.typical = reader.number(entry, "typical", where);
        row.high = reader.number(entry, "high", where);
        const double low = row.low.value_or(row.typical.value_or(0));
        const double high = row.high.value_or(100);
        const double typical = row.typical.value_or(low);
        if (!(0 <= low && low <= typical && typical <= high && high <= 100)) {
            reader.fault(where, "low, typical and high are not in that order within 0 to 100 %");
        }
        row.role = reader.word<RowRole>(entry, "role", where,
                                        {{"limit", RowRole::limit},
                                         {"recommendation", RowRole::recommendation},
                                         {"studied", RowRole::studied},
                                         {"composition", RowRole::composition},
                                         {"recipe_derived", RowRole::recipe_derived},
                                         {"practice", RowRole::practice},
                                         {"judgement", RowRole::judgement}});
        row.source = reader.source(entry, where);
        row.nameless = reader.nameless(entry);
        row.section = reader.text(entry, "section", where, false);
        row.status = reader.status(entry, where);
        row.note = reader.text(entry, "note", where, false);
        facts.rows.push_back(std::move(row));
    }
}

bool states(const RowFact& row, double percent) {
    return row.low == percent || row.typical == percent || row.high == percent;
}

std::optional<BoundFact> read_bound(Reader& reader, const json& entry, const char* member,
                                    const std::string& outer, Basis basis, const std::string& kind,
                                    const Facts& facts) {
    if (!entry.contains(member)) return std::nullopt;
    const std::string where = outer + ", " + member;
    const json& bound = entry.at(member);
    reader.only(bound, where, {"percent", "row"});
    const std::string id = reader.text(bound, "row", where);
    const auto row = std::find_if(facts.rows.begin(), facts.rows.end(),
                                  [&](const RowFact& r) { return r.id == id; });
    if (row == facts.rows.end()) {
        reader.fault(where, "rests on an unknown row \"" + id + "\"");
        return std::nullopt;
    }
    const std::optional<double> percent = reader.number(bound, "percent", where);
    if (!percent) {
        reader.fault(where, "has no percent");
        return std::nullopt;
    }
    if (!states(*row, *percent)) reader.fault(where, "is not a figure of its row " + id);
    if (row->basis != basis) reader.fault(where, "is on another basis than its row " + id);
    if (row->nameless) reader.fault(where, "rests on a source that has no name, row " + id);
    if (row->kind != kind) reader.fault(where, "rests on a row of another kind, " + id);
    return BoundFact{*percent, static_cast<std::size_t>(row - facts.rows.begin())};
}

void read_kinds(Reader& reader, Facts& facts) {
    for (const json& entry : reader.load("kinds.json", "kinds")) {
        KindFact kind;
        kind.name = reader.text(entry, "name", "kinds.json");
        const std::string where = "kinds.json, " + kind.name;
        reader.only(entry, where,
                    {"name", "title", "names", "cautions", "rulings", "method_needed"});
        kind.title = reader.text(entry, "title", where);
        kind.names = reader.texts(entry, "names", where);
        kind.cautions = reader.texts(entry, "cautions", where);
        for (const std::string& id : kind.cautions) {
            if (std::none_of(facts.cautions.begin(), facts.cautions.end(),
                             [&](const CautionFact& c) { return c.id == id; })) {
                reader.fault(where, "names an unknown caution \"" + id + "\"");
            }
        }
        kind.method_needed = reader.flag(entry, "method_needed", where);
        std::set<std::string> methods;
        for (const json& ruling : reader.list(entry, "rulings", where)) {
            RulingFact r;
            r.title = reader.text(ruling, "title", where);
            const std::string place = where + ", " + r.title;
            reader.only(ruling, place,
                        {"method", "title", "basis", "low", "high", "typical", "why"});
            r.method = reader.text(ruling, "method", place, false);
            if (!methods.insert(r.method).second) reader.fault(place, "has a method twice");
            r.basis = reader.basis(ruling, place);
            r.low = read_bound(reader, ruling, "low", place, r.basis, kind.name, facts);
            r.high = read_bound(reader, ruling, "high", place, r.basis, kind.name, facts);
            r.typical = reader.number(ruling, "typical", place);
            if (r.low && r.high && !(r.low->percent < r.high->percent)) {
                reader.fault(place, "its low is not below its high");
            }
            const bool stated =
                std::any_of(facts.rows.begin(), facts.rows.end(), [&](const RowFact& row) {
                    return row.kind == kind.name && row.basis == r.basis && r.typical &&
                           states(row, *r.typical);
                });
            if (r.typical && !stated) reader.fault(place, "its typical is a figure of no row");
            r.why = reader.text(ruling, "why", place);
            kind.rulings.push_back(std::move(r));
        }
        if (kind.rulings.empty()) reader.fault(where, "has no ruling");
        if (methods.size() > 1 && methods.contains(""))
            reader.fault(where, "has a nameless method");
        facts.kinds.push_back(std::move(kind));
    }
    for (const RowFact& row : facts.rows) {
        // The rows of top-up brines and of heavy salting belong to no kind of ferment.
        const bool known = row.kind == "top-up" || row.kind == "any" ||
                           std::any_of(facts.kinds.begin(), facts.kinds.end(),
                                       [&](const KindFact& k) { return k.name == row.kind; });
        if (!known) reader.fault("ranges.json, " + row.id, "has an unknown kind " + row.kind);
    }
}

void read_cautions(Reader& reader, Facts& facts) {
    std::set<std::string> ids;
    for (const json& entry : reader.load("cautions.json", "cautions")) {
        CautionFact caution;
        caution.id = reader.text(entry, "id", "cautions.json");
        const std::string where = "cautions.json, " + caution.id;
        reader.only(entry, where, {"id", "title", "brief", "text", "always", "status", "source"});
        if (!ids.insert(caution.id).second) reader.fault(where, "is there twice");
        caution.title = reader.text(entry, "title", where);
        caution.brief = reader.text(entry, "brief", where);
        caution.text = reader.text(entry, "text", where);
        caution.always = reader.flag(entry, "always", where);
        caution.status = reader.status(entry, where);
        caution.source = reader.source(entry, where);
        facts.cautions.push_back(std::move(caution));
    }
}

void read_brine(Reader& reader, Facts& facts) {
    const std::string where = "brine.json";
    const json root = reader.load(where, "");
    if (!root.is_object()) return;
    reader.only(root, where,
                {"note", "source", "status", "error_kg_m3", "celsius", "percent", "density"});
    BrineFact& brine = facts.brine;
    const auto column = [&](const char* member) {
        std::vector<double> out;
        for (const json& item : reader.list(root, member, where)) {
            out.push_back(item.is_number() ? item.get<double>() : std::nan(""));
        }
        for (std::size_t i = 1; i < out.size(); ++i) {
            if (!(out[i - 1] < out[i])) reader.fault(where, std::string(member) + " does not rise");
        }
        if (out.size() < 4) reader.fault(where, std::string(member) + " is too short");
        return out;
    };
    brine.celsius = column("celsius");
    brine.percent = column("percent");
    const json rows = reader.list(root, "density", where);
    if (rows.size() != brine.celsius.size()) reader.fault(where, "has not a row per temperature");
    for (const json& row : rows) {
        if (row.size() != brine.percent.size()) reader.fault(where, "has a row of another length");
        for (const json& item : row) {
            const double value = item.is_number() ? item.get<double>() : 0;
            if (!(value > 900 && value < 1300)) reader.fault(where, "has an absurd density");
            brine.density.push_back(value);
        }
    }
    brine.error = reader.number(root, "error_kg_m3", where).value_or(0);
    if (!(brine.error > 0)) reader.fault(where, "has no error_kg_m3");
    brine.status = reader.status(root, where);
    brine.source = reader.source(root, where);
}

} // namespace

Facts read_facts(const std::string& folder, std::vector<std::string>& faults) {
    Reader reader(folder, faults);
    Facts facts;
    reader.load_sources();
    for (const char* file : {"salts.json", "produce.json", "aromatics.json", "seasonings.json",
                             "acids.json", "others.json"}) {
        read_materials(reader, file, facts);
    }
    facts.material_names = name_table(
        reader, facts.materials, [](const MaterialFact& m) { return m.id; }, "material");
    facts.foreign_names = foreign_tables(reader, facts.materials);
    read_rows(reader, facts);
    read_cautions(reader, facts);
    read_kinds(reader, facts);
    facts.kind_names = name_table(
        reader, facts.kinds, [](const KindFact& k) { return k.name; }, "kind");
    read_timing(reader, facts);
    read_brine(reader, facts);
    reader.refuse_unused_sources();
    return facts;
}

} // namespace jarful::larder::compile
