#include "engine/appraise/compile/row.hpp"
#include "engine/larder/compile/packed.hpp"
#include "engine/larder/fold.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <map>
#include <set>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

/// Compiles lexicons, measures and patterns into C++:
/// `jarful_lexicon_compile OUTPUT PATTERNS MEASURES LEXICON...`.
/// Exit status 0 if the tables were written, 1 if the data is faulty, 2 for wrong use.
namespace {

using namespace jarful;
using appraise::Concept;
using appraise::concept_named;
using appraise::Concepts;
using appraise::concepts_in;
using appraise::Row;
using appraise::split;
using larder::compile::packed_table;
using nlohmann::ordered_json;

[[noreturn]] void stop(const std::string& where, const std::string& what) {
    throw std::runtime_error(where + ": " + what);
}

std::string in_quotes(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out.push_back('\\');
        out.push_back(c);
    }
    return out + '"';
}

std::string written(Concepts c) {
    std::string out = "{";
    for (std::size_t i = 0; i < Concepts::parts; ++i)
        out += (i > 0 ? ", " : "") + std::to_string(c.part(i)) + "U";
    return out + "}";
}

std::string written(double value) {
    std::ostringstream out;
    out.precision(17);
    out << value;
    return out.str();
}

std::string written(bool value) {
    return value ? "true" : "false";
}

bool flag(const ordered_json& json, const char* member) {
    return json.contains(member) && json.at(member).get<bool>();
}

/// The words of a member of a lexicon; none if it is missing.
std::vector<std::string> words_in(const ordered_json& json, const char* member) {
    if (!json.contains(member)) return {};
    return split(json.at(member).get<std::string>(), ' ');
}

// ---- Measures ----

struct MeasureTable {
    std::map<std::string, std::size_t> places; ///< by id
    std::string text;

    [[nodiscard]] std::string pointer(const std::string& id, const std::string& where) const {
        const auto place = places.find(id);
        if (place == places.end()) stop(where, "there is no measure \"" + id + "\"");
        return "&all_measures[" + std::to_string(place->second) + "]";
    }
};

MeasureTable measures_of(const ordered_json& json) {
    static const std::set<std::string> sorts{"mass",  "volume",  "count",
                                             "loose", "package", "length"};
    static const std::set<std::string> known{"unit",      "sort",     "size",  "metric",
                                             "customary", "imperial", "bound", "part"};
    MeasureTable out;
    for (const auto& [id, m] : json.at("measures").items())
        out.places.try_emplace(id, out.places.size());
    out.text = "constexpr Measure all_measures[" + std::to_string(out.places.size()) + "] = {\n";
    for (const auto& [id, m] : json.at("measures").items()) {
        const std::string where = "measure " + id;
        for (const auto& [member, value] : m.items()) {
            if (!known.contains(member)) stop(where, "does not know \"" + member + "\"");
        }
        const auto sort = m.at("sort").get<std::string>();
        if (!sorts.contains(sort)) stop(where, "there is no sort \"" + sort + "\"");
        const auto size = m.value("size", std::vector<double>{});
        if (size.size() > 2 ||
            (!size.empty() && !(size.front() > 0 && size.front() <= size.back())))
            stop(where, "its size is one number, or the least and the most");
        out.text +=
            "    {" + in_quotes(m.value("unit", id)) + ", Measure::Sort::" + sort + ", {" +
            (size.empty() ? "" : written(size.front()) + ", " + written(size.back())) + "}, " +
            written(flag(m, "metric")) + ", " + written(flag(m, "customary")) + ", " +
            written(flag(m, "part")) + ", " +
            (m.contains("imperial") ? out.pointer(m.at("imperial").get<std::string>(), where)
                                    : "nullptr") +
            ", " + in_quotes(m.value("bound", "")) + "},\n";
    }
    out.text += "};\n";
    return out;
}

/// A name of a measure, gathered over the languages.
struct Name {
    std::string id;
    std::size_t language = 0; ///< the first that has it
    bool shared = false;      ///< more than one has it
    bool behind_number = false;
};
using Names = std::map<std::string, Name>;

void gather(Names& names, const ordered_json& json, std::size_t language,
            const std::string& where) {
    std::set<std::string> here;
    for (const auto& [id, list] : json.at("measures").items()) {
        for (const std::string& word : split(list.get<std::string>(), ' ')) {
            const std::string folded = larder::fold(word);
            if (folded.empty()) stop(where, "\"" + word + "\" is no name of a measure");
            if (std::count(folded.begin(), folded.end(), ' ') > 3)
                stop(where, "\"" + word + "\" has more than four words");
            if (!here.insert(folded).second) stop(where, "\"" + word + "\" is there twice");
            const auto [place, added] = names.try_emplace(folded, Name{id, language, false, false});
            place->second.shared = place->second.shared || !added;
        }
    }
    for (const std::string& word : words_in(json, "measures_behind_numbers")) {
        const auto place = names.find(larder::fold(word));
        if (place == names.end()) stop(where, "\"" + word + "\" is no measure");
        place->second.behind_number = true;
    }
}

/// Rows of a table that are written once however many words share them.
class SharedRows {
  public:
    std::size_t place_of(const std::string& row) {
        const auto [place, added] = places_.try_emplace(row, rows_.size());
        if (added) rows_.push_back(row);
        return place->second;
    }
    [[nodiscard]] std::string table(const std::string& type, const std::string& name) const {
        std::string out = "constexpr " + type + " " + name + "[] = {\n";
        for (const std::string& row : rows_)
            out += "    " + row + ",\n";
        return out + "};\n";
    }

  private:
    std::map<std::string, std::size_t> places_;
    std::vector<std::string> rows_;
};

using Places = std::map<std::string, std::size_t>;

std::string table(const Names& names, const MeasureTable& measures) {
    SharedRows rows;
    Places places;
    for (const auto& [word, name] : names) {
        // Where the base has it, or several, it does not tell the language.
        const bool tells = !name.shared && name.language > 0;
        places[word] =
            rows.place_of("{" + measures.pointer(name.id, word) + ", " +
                          (tells ? "&all[" + std::to_string(name.language) + "]" : "nullptr") +
                          ", " + written(name.behind_number) + "}");
    }
    return rows.table("MeasureMeaning", "all_measure_meanings") +
           packed_table("all_measure_names", places);
}

// ---- Words ----

struct Entry {
    Concepts concepts;
    double number = 0;
    bool opens = false;
};
using Words = std::map<std::string, Entry>;

/// The words of a table with the places of what they mean.
Places places_of(const Words& words, SharedRows& meanings) {
    Places out;
    for (const auto& [word, entry] : words) {
        out[word] = meanings.place_of("{" + written(entry.concepts) + ", " + written(entry.number) +
                                      ", " + written(entry.opens) + "}");
    }
    return out;
}

Places places_of(const std::set<std::string>& words, SharedRows&) {
    Places out;
    for (const std::string& word : words)
        out[word] = 0;
    return out;
}

/// The words of a lexicon by how they are looked up.
struct Lists {
    Words words, stems, tails, phrases, spelled;
    std::set<std::string> tells, as_written;
};

void take_word(Lists& lists, std::string word, Concept what, const std::string& where) {
    if (word.starts_with('=')) {
        lists.spelled[word.substr(1)].concepts.add(what);
        return;
    }
    Words* place = word.starts_with('*') ? &lists.tails
                   : word.ends_with('*') ? &lists.stems
                                         : &lists.words;
    std::erase(word, '*');
    const std::string folded = larder::fold(word);
    const std::size_t blank = folded.find(' ');
    if (folded.empty()) stop(where, "\"" + word + "\" is no word");
    if (place != &lists.words && (folded.size() < 3 || blank != std::string::npos))
        stop(where, "\"" + word + "\" is too short, or more than one word");
    if (blank != std::string::npos) {
        place = &lists.phrases;
        lists.words[folded.substr(0, blank)].opens = true;
    }
    (*place)[folded].concepts.add(what);
}

Lists lists_of(const ordered_json& json, const std::string& where) {
    Lists lists;
    for (const auto& [key, list] : json.at("concepts").items()) {
        const Concept c = concept_named(key, where);
        // A long list stands in several lines.
        const std::vector<std::string> lines = list.is_array()
                                                   ? list.get<std::vector<std::string>>()
                                                   : std::vector{list.get<std::string>()};
        for (const std::string& line : lines)
            for (const std::string& word : split(line, ' '))
                take_word(lists, word, c, where + ", " + key);
    }
    for (const auto& [word, value] : json.at("numbers").items())
        lists.words[larder::fold(word)].number = value.get<double>();
    for (const std::string& word : words_in(json, "tells"))
        lists.tells.insert(larder::fold(word));
    for (const std::string& word : words_in(json, "tells_written"))
        lists.as_written.insert(word);
    return lists;
}

/// One lexicon: its tables, and the row that names them.
std::string lexicon(const ordered_json& json, std::size_t number, const MeasureTable& measures,
                    SharedRows& meanings, std::string& row) {
    static const std::set<std::string> known{"language",
                                             "tag",
                                             "base",
                                             "decimal_comma",
                                             "capital_nouns",
                                             "adjectives_behind",
                                             "thorough",
                                             "endings",
                                             "tells",
                                             "tells_written",
                                             "measures",
                                             "measures_behind_numbers",
                                             "measures_written",
                                             "number_joint",
                                             "number_half",
                                             "note",
                                             "numbers",
                                             "concepts"};
    const auto where = json.at("language").get<std::string>();
    for (const auto& [member, value] : json.items()) {
        if (!known.contains(member)) stop(where, "does not know \"" + member + "\"");
    }
    const auto tag = json.at("tag").get<std::string>();
    if (tag.size() != 2) stop(where, "its tag is not of two letters");
    const Lists lists = lists_of(json, where);
    const std::string id = "_" + tag;
    std::string out;
    row = "    {" + in_quotes(where) + ", " + in_quotes(tag) + ", " + written(number == 0);
    for (const char* member : {"decimal_comma", "capital_nouns", "adjectives_behind", "thorough"})
        row += ", " + written(flag(json, member));
    const auto add = [&](const char* name, const auto& list) {
        if (!list.empty()) out += packed_table(name + id, places_of(list, meanings));
        row += ", " + (list.empty() ? std::string("{}") : name + id);
    };
    add("words", lists.words);
    add("stems", lists.stems);
    add("tails", lists.tails);
    add("phrases", lists.phrases);
    add("spelled", lists.spelled);
    for (const char* member : {"number_joint", "number_half", "endings"})
        row += ", " + in_quotes(json.contains(member)
                                    ? larder::fold(json.at(member).get<std::string>())
                                    : std::string());
    add("tells", lists.tells);
    add("as_written", lists.as_written);
    if (json.contains("measures_written")) {
        out += "constexpr WrittenMeasure written" + id + "[] = {\n";
        for (const auto& [text, measure] : json.at("measures_written").items())
            out += "    {" + in_quotes(text) + ", " +
                   measures.pointer(measure.get<std::string>(), where) + "},\n";
        out += "};\n";
        row += ", written" + id + "},\n";
    } else {
        row += ", {}},\n";
    }
    return out;
}

// ---- Patterns ----

/// Sets of concepts, each of them once.
class Sets {
  public:
    Sets() { static_cast<void>(place(Concepts{})); }
    std::string place(Concepts c) {
        const std::string text = written(c);
        const auto [found, added] = places_.emplace(text, places_.size());
        if (added) text_ += "    Concepts" + text + ",\n";
        return std::to_string(found->second);
    }
    [[nodiscard]] const std::string& text() const { return text_; }

  private:
    std::map<std::string, std::size_t> places_;
    std::string text_;
};

std::string of(const appraise::Step& s, Sets& sets) {
    std::string out = "    {";
    for (const Concepts c :
         {s.any, s.also, s.too, s.never, s.not_between, s.not_before, s.not_behind})
        out += sets.place(c) + ", ";
    for (const int n : {int{s.gap}, int{s.before}, int{s.behind}})
        out += std::to_string(n) + ", ";
    return out + written(s.optional) + ", " + std::to_string(static_cast<int>(s.capture)) + "},\n";
}

/// Words in capitals stand for what "names" says.
std::string spelled_out(std::string row, const ordered_json& names) {
    for (const auto& [name, value] : names.items()) {
        for (std::size_t at = 0; (at = row.find(name, at)) != std::string::npos;) {
            const auto with = value.get<std::string>();
            row.replace(at, name.size(), with);
            at += with.size();
        }
    }
    return row;
}

constexpr std::string_view event_names[] = {
#define JARFUL_EVENT(name) #name,
    JARFUL_EVENTS(JARFUL_EVENT)
#undef JARFUL_EVENT
};

/// The rows of all events, in the order of these.
std::string patterns(const ordered_json& all) {
    Sets sets;
    std::string rows, steps, said, texts;
    for (const auto& [event, unused] : all.items()) {
        if (event != "names" && std::find(std::begin(event_names), std::end(event_names), event) ==
                                    std::end(event_names))
            throw std::runtime_error("there is no event \"" + event + "\"");
    }
    for (const std::string_view event : event_names) {
        if (!all.contains(event)) continue;
        for (const auto& entry : all.at(std::string(event))) {
            const auto text = entry.at("row").get<std::string>();
            const Row row(spelled_out(text, all.at("names")));
            const std::string gives = entry.value("gives", "last");
            if (gives != "last") static_cast<void>(concept_named(gives, "marks"));
            for (const Concepts c : row.said())
                said += sets.place(c) + ", ";
            for (const appraise::Step& step : row.steps())
                steps += of(step, sets);
            rows += "    {Event::" + std::string(event) + ", Concept::" + gives + ", " +
                    std::to_string(row.said().size()) + ", " + std::to_string(row.steps().size()) +
                    ", " + sets.place(row.unsaid()) + ", " + std::to_string(text.size()) + "},\n";
            texts += "    " + in_quotes(text) + "\n";
        }
    }
    return "namespace {\nconstexpr Concepts all_sets[] = {\n" + sets.text() +
           "};\nconstexpr std::uint16_t all_said[] = {" + said +
           "};\nconstexpr tables::PackedStep all_steps[] = {\n" + steps +
           "};\nconstexpr tables::PackedPattern all_patterns[] = {\n" + rows +
           "};\n// Only whoever asks why sees a row as it is written; no page does.\n"
           "#ifdef __EMSCRIPTEN__\nconstexpr std::string_view all_texts;\n#else\n"
           "constexpr std::string_view all_texts =\n" +
           texts + "    ;\n#endif\n} // namespace\n\n";
}

ordered_json read(const char* path) {
    std::ifstream in(path);
    if (!in) throw std::runtime_error(std::string(path) + " cannot be read");
    return ordered_json::parse(in);
}

/// The lexicons: the base first, the others by their tags.
std::vector<ordered_json> read_lexicons(int count, char** paths) {
    std::vector<ordered_json> all;
    for (int i = 0; i < count; ++i)
        all.push_back(read(paths[i]));
    const auto key = [](const ordered_json& json) {
        return (flag(json, "base") ? "0" : "1") + json.at("tag").get<std::string>();
    };
    std::sort(all.begin(), all.end(),
              [&](const ordered_json& a, const ordered_json& b) { return key(a) < key(b); });
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (flag(all[i], "base") != (i == 0))
            stop("lexicons", "one of them, and no more, is the base");
        if (i > 0 && key(all[i - 1]) == key(all[i])) stop("lexicons", "two have the same tag");
    }
    return all;
}

std::string tables(int count, char** paths) {
    std::string out =
        "// Written by jarful_lexicon_compile from engine/appraise/data. Do not edit.\n"
        "#include \"engine/appraise/lexicon.hpp\"\n\nnamespace jarful::appraise {\n\n";
    const MeasureTable measures = measures_of(read(paths[1]));
    out += patterns(read(paths[0])) + "namespace {\n\n" + measures.text;
    std::string rows;
    SharedRows meanings;
    Names names;
    std::size_t number = 0;
    for (const ordered_json& json : read_lexicons(count - 2, paths + 2)) {
        std::string row;
        gather(names, json, number, json.at("language").get<std::string>());
        out += lexicon(json, number++, measures, meanings, row);
        rows += row;
    }
    if (number > appraise::most_languages) stop("lexicons", "there are too many languages");
    out += meanings.table("Meaning", "all_meanings") + "constexpr Lexicon all[] = {\n" + rows +
           "};\n" + table(names, measures) +
           "\n} // namespace\n\n"
           "std::span<const Lexicon> lexicons() {\n    return all;\n}\n"
           "namespace tables {\n"
           "std::span<const Concepts> concept_sets() {\n    return all_sets;\n}\n"
           "std::span<const std::uint16_t> said() {\n    return all_said;\n}\n"
           "std::span<const PackedStep> steps() {\n    return all_steps;\n}\n"
           "std::span<const PackedPattern> patterns() {\n    return all_patterns;\n}\n"
           "std::string_view rows_as_written() {\n    return all_texts;\n}\n"
           "std::span<const Meaning> meanings() {\n    return all_meanings;\n}\n"
           "std::span<const MeasureMeaning> measure_meanings() {\n"
           "    return all_measure_meanings;\n}\n"
           "const larder::PackedTable& measure_names() {\n    return all_measure_names;\n}\n"
           "} // namespace tables\n\n"
           "} // namespace jarful::appraise\n";
    return out;
}

} // namespace

int main(int argc, char** argv) {
    if (argc < 5) {
        std::fputs("usage: jarful_lexicon_compile OUTPUT PATTERNS MEASURES LEXICON...\n", stderr);
        return 2;
    }
    try {
        const std::string text = tables(argc - 2, argv + 2);
        std::ofstream out(argv[1], std::ios::binary | std::ios::trunc);
        out << text;
        out.close();
        if (out) return 0;
        std::fprintf(stderr, "lexicon: %s cannot be written.\n", argv[1]);
        return 2;
    } catch (const std::exception& x) {
        std::fprintf(stderr, "lexicon: %s\n", x.what());
        return 1;
    }
}
