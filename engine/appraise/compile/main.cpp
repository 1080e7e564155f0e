#include "engine/appraise/lexicon.hpp"
#include "engine/larder/fold.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

/// Compiles lexicons and patterns into C++: `jarful_lexicon_compile OUTPUT PATTERNS LEXICON...`.
/// Exit status 0 if the tables were written, 1 if the data is faulty, 2 for wrong use.
namespace {

using namespace jarful;
using appraise::Concept;
using appraise::Concepts;
using nlohmann::ordered_json;

Concept concept_named(std::string_view name, const std::string& where) {
    for (unsigned i = 0; i < static_cast<unsigned>(Concept::last); ++i) {
        if (appraise::name_of(static_cast<Concept>(i)) == name) return static_cast<Concept>(i);
    }
    throw std::runtime_error(where + ": there is no concept \"" + std::string(name) + "\"");
}

std::vector<std::string> split(const std::string& text, char mark) {
    std::vector<std::string> out;
    std::stringstream in(text);
    for (std::string part; std::getline(in, part, mark);) {
        if (!part.empty()) out.push_back(part);
    }
    return out;
}

Concepts concepts_in(const std::string& names, const std::string& where) {
    Concepts out;
    for (const std::string& name : split(names, '|'))
        out.add(concept_named(name, where));
    return out;
}

std::string written(Concepts c) {
    return "{" + std::to_string(c.low()) + "U, " + std::to_string(c.high()) + "U}";
}

struct Entry {
    Concepts concepts;
    double number = 0;
};
using Words = std::map<std::string, Entry>;

std::string table(const std::string& name, const Words& words) {
    if (words.empty()) return {};
    std::string out = "constexpr LexiconWord " + name + "[] = {\n";
    for (const auto& [word, entry] : words) {
        std::ostringstream number;
        number << entry.number;
        out += "    {\"" + word + "\", " + written(entry.concepts) + ", " + number.str() + "},\n";
    }
    return out + "};\n";
}

/// One lexicon: its tables, and the row that names them.
std::string lexicon(const ordered_json& json, std::size_t number, std::string& row) {
    const std::string where = json.at("language").get<std::string>();
    Words words, stems, tails;
    for (const auto& [key, list] : json.at("concepts").items()) {
        const Concept c = concept_named(key, where);
        for (std::string word : split(list.get<std::string>(), ' ')) {
            Words& place = word.starts_with('*') ? tails : word.ends_with('*') ? stems : words;
            std::erase(word, '*');
            const std::string folded = larder::fold(word);
            if (folded.empty() || folded.find(' ') != std::string::npos)
                throw std::runtime_error(where + ", " + key + ": \"" + word + "\" is not one word");
            if (&place != &words && folded.size() < 3)
                throw std::runtime_error(where + ", " + key + ": \"" + word + "\" is too short");
            place[folded].concepts.add(c);
        }
    }
    for (const auto& [word, value] : json.at("numbers").items())
        words[larder::fold(word)].number = value.get<double>();
    const std::string id = std::to_string(number);
    const auto span = [&](const char* name, const Words& list) {
        return list.empty() ? std::string("{}") : name + id;
    };
    row = "    {\"" + where + "\", \"" + json.at("tag").get<std::string>() + "\", " +
          (json.at("decimal_comma").get<bool>() ? "true" : "false") + ", " + span("words_", words) +
          ", " + span("stems_", stems) + ", " + span("tails_", tails) + "},\n";
    return table("words_" + id, words) + table("stems_" + id, stems) + table("tails_" + id, tails);
}

/// A row: `a|b` what stands next, `~3` at most three pieces on, `!a|b` not what is between, `x:a` a
/// name of one letter for it, `a?` where it may be missing.
std::string pattern(const std::string& row, const std::string& name) {
    std::string out = "constexpr Step " + name + "[] = {\n";
    std::string gap = "0";
    Concepts not_between;
    for (std::string word : split(row, ' ')) {
        if (word.front() == '~') {
            gap = word.substr(1);
            continue;
        }
        if (word.front() == '!') {
            not_between = concepts_in(word.substr(1), row);
            continue;
        }
        const bool optional = word.back() == '?';
        if (optional) word.pop_back();
        std::string capture = "0";
        if (word.size() > 2 && word[1] == ':') {
            capture = std::string("'") + word[0] + "'";
            word.erase(0, 2);
        }
        out += "    {" + written(concepts_in(word, row)) + ", " + written(not_between) + ", " +
               gap + ", " + (optional ? "true" : "false") + ", " + capture + "},\n";
        gap = "0";
        not_between = {};
    }
    return out + "};\n";
}

ordered_json read(const char* path) {
    std::ifstream in(path);
    if (!in) throw std::runtime_error(std::string(path) + " cannot be read");
    return ordered_json::parse(in);
}

std::string tables(int count, char** paths) {
    std::string out = "#include \"engine/appraise/lexicon.hpp\"\n\nnamespace jarful::appraise {\n\n"
                      "namespace {\n\n";
    std::string rows, pattern_rows;
    const ordered_json all = read(paths[0]);
    std::size_t number = 0;
    for (const auto& [event, list] : all.items()) {
        for (const auto& row : list) {
            const std::string name = "steps_" + std::to_string(number++);
            const auto text = row.get<std::string>();
            out += pattern(text, name);
            pattern_rows += "    {\"" + event + "\", \"" + text + "\", " + name + "},\n";
        }
    }
    for (int i = 1; i < count; ++i) {
        std::string row;
        out += lexicon(read(paths[i]), static_cast<std::size_t>(i), row);
        rows += row;
    }
    out += "constexpr Lexicon all[] = {\n" + rows + "};\n";
    out += "constexpr Pattern all_patterns[] = {\n" + pattern_rows + "};\n\n} // namespace\n\n";
    out += "std::span<const Lexicon> lexicons() {\n    return all;\n}\n";
    out += "std::span<const Pattern> patterns() {\n    return all_patterns;\n}\n\n"
           "} // namespace jarful::appraise\n";
    return out;
}

} // namespace

int main(int argc, char** argv) {
    if (argc < 4) {
        std::fputs("usage: jarful_lexicon_compile OUTPUT PATTERNS LEXICON...\n", stderr);
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
