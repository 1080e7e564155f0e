#include "engine/appraise/appraise.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

/// The set-aside corpus, scored by the rules of tests/corpus/set-aside/README.md.
namespace {

using namespace jarful;
using appraise::LineSort;

const std::string folder = JARFUL_SOURCE_DIR "/tests/corpus/set-aside/";

std::vector<std::string> split(const std::string& text, char mark) {
    std::vector<std::string> out;
    std::size_t begin = 0;
    for (std::size_t end = 0; end != std::string::npos; begin = end + 1) {
        end = text.find(mark, begin);
        out.push_back(text.substr(begin, end == std::string::npos ? end : end - begin));
    }
    return out;
}

bool among(const std::string& word, const std::vector<std::string>& list) {
    return std::find(list.begin(), list.end(), word) != list.end();
}

std::string contents(const std::string& path) {
    std::ifstream in(path);
    EXPECT_TRUE(in) << path;
    std::stringstream out;
    out << in.rdbuf();
    return out.str();
}

struct Unit {
    std::string dimension;
    double factor = 1;
};

/// A unit of the corpus or of the reader; a count is a dimension of its own.
Unit unit_of(const std::string& name) {
    static const std::map<std::string, Unit> known = {
        {"g", {"mass", 1}},
        {"kg", {"mass", 1000}},
        {"oz", {"mass", 28.349523125}},
        {"lb", {"mass", 453.59237}},
        {"mL", {"volume", 1}},
        {"L", {"volume", 1000}},
        {"cL", {"volume", 10}},
        {"dL", {"volume", 100}},
        {"tsp", {"volume", 4.92892159375}},
        {"tbsp", {"volume", 14.78676478125}},
        {"floz", {"volume", 29.5735295625}},
        {"fl oz", {"volume", 29.5735295625}},
        {"cup", {"volume", 236.5882365}},
        {"pint", {"volume", 473.176473}},
        {"quart", {"volume", 946.352946}},
        {"gallon", {"volume", 3785.411784}},
    };
    const auto at = known.find(name);
    return at != known.end() ? at->second : Unit{name, 1};
}

struct Span {
    double low = 0;
    double high = 0;
};

/// Whether `read` is `said`; a hedged one must hold it and reach at most from half to twice.
bool agrees(Span read, Span said, bool hedged, double tolerance) {
    const auto near = [&](double a, double b) { return std::abs(a - b) <= tolerance * b; };
    if (near(read.low, said.low) && near(read.high, said.high)) return true;
    return hedged && read.low <= said.low * (1 + tolerance) &&
           read.high >= said.high * (1 - tolerance) && read.low >= said.low / 2 &&
           read.high <= said.high * 2;
}

struct Expected {
    std::string line, note;
    std::optional<Span> amount, grams;
    std::vector<std::string> units, materials;
    std::string role;
    [[nodiscard]] bool hedged() const { return note.find("hedged") != std::string::npos; }
    [[nodiscard]] bool ratio() const { return note.find("a ratio") != std::string::npos; }
    [[nodiscard]] bool in_parentheses() const { return line.find('(') != std::string::npos; }
};

/// A line by itself is read as an ingredient; what is a heading only shows in a list.
appraise::Line read(const Expected& e) {
    if (e.role != "heading") return appraise::read_line(e.line);
    appraise::Refusal refusal;
    const auto a = appraise::appraise("2 kg cabbage\n" + e.line + "\n45 g salt\n", {}, refusal);
    return a && a->lines.size() == 3 ? a->lines[1] : appraise::Line{};
}

std::optional<Span> span_of(const std::string& low, const std::string& high) {
    if (low.empty()) return std::nullopt;
    return Span{std::stod(low), std::stod(high)};
}

bool amount_right(const appraise::Line& line, const Expected& e) {
    if (!e.amount) return !line.amount;
    if (!line.amount) return false;
    const Unit read = unit_of(line.amount->unit);
    const Span had{line.amount->low * read.factor, line.amount->high * read.factor};
    for (const std::string& name : e.units) {
        const Unit unit = unit_of(name);
        const Span said{e.amount->low * unit.factor, e.amount->high * unit.factor};
        if (unit.dimension == read.dimension && agrees(had, said, e.hedged(), 1e-3)) return true;
    }
    return e.grams && e.in_parentheses() && read.dimension == "mass" &&
           agrees(had, *e.grams, e.hedged(), 5e-3);
}

/// The spoons of German and French lines: what the same number of millilitres weighs.
bool spoon_right(const appraise::Line& line, const Expected& e) {
    if (e.note.find("metric spoon") == std::string::npos || e.hedged()) return true;
    if (!line.grams || !line.amount || !line.material) return false;
    const double millilitres = line.amount->low * (line.amount->unit == "tbsp" ? 15 : 5);
    const appraise::Line same = appraise::read_line(std::to_string(millilitres) + " ml " +
                                                    std::string(line.material->name));
    return !same.grams || (std::abs(same.grams->low - line.grams->low) < 0.02 * same.grams->low &&
                           std::abs(same.grams->high - line.grams->high) < 0.02 * same.grams->high);
}

/// What is wrong with a line, in words; empty if it is right.
std::string faults(const appraise::Line& line, const Expected& e) {
    std::string out;
    const std::string role = line.role ? std::string(larder::describe(*line.role)) : "";
    const std::string material = line.material ? std::string(line.material->id) : "";
    if (e.role == "heading") return line.sort == LineSort::heading ? "" : "no heading; ";
    if (e.role == "unknown" || e.role == "none") {
        if (role == "salt" || role == "vegetable" || role == "water")
            out += "read as " + role + "; ";
        if (e.role == "unknown" && line.understood) out += "not shown as not understood; ";
        return out;
    }
    if (!line.understood) out += "not understood; ";
    if (!among(material, e.materials)) out += "material " + material + "; ";
    if (role != e.role) out += "role " + role + "; ";
    if (!amount_right(line, e)) {
        out += "amount ";
        if (line.amount)
            out += std::to_string(line.amount->low) + " to " + std::to_string(line.amount->high) +
                   " " + line.amount->unit;
        else
            out += "none";
        out += "; ";
    }
    if (e.ratio() && !line.per && !(line.amount && line.amount->unit == "%")) out += "no ratio; ";
    // Of a ratio the stated mass is the amount, and that is compared above.
    if (e.grams && !e.ratio()) {
        const bool right =
            line.grams && agrees({line.grams->low, line.grams->high}, *e.grams, e.hedged(), 5e-3);
        if (!right)
            out += "grams " +
                   (line.grams ? std::to_string(line.grams->low) + " to " +
                                     std::to_string(line.grams->high)
                               : std::string("none")) +
                   "; ";
    }
    if (!spoon_right(line, e)) out += "spoon; ";
    return out;
}

TEST(SetAside, LinesAreReadAsTheyStandThere) {
    std::ifstream in(folder + "lines.tsv");
    ASSERT_TRUE(in);
    std::string row;
    std::getline(in, row);
    int all = 0;
    int right = 0;
    while (std::getline(in, row)) {
        const auto cells = split(row, '\t');
        ASSERT_EQ(cells.size(), 9u) << row;
        Expected e;
        e.line = cells[0];
        e.amount = span_of(cells[1], cells[2]);
        e.units = split(cells[3], '|');
        e.materials = split(cells[4], '|');
        e.role = cells[5];
        e.grams = span_of(cells[6], cells[7]);
        e.note = cells[8];
        const appraise::Line line = read(e);
        const std::string wrong = faults(line, e);
        ++all;
        if (wrong.empty()) {
            ++right;
            continue;
        }
        std::printf("  wrong: %s -> %s\n", e.line.c_str(), wrong.c_str());
        // A salt that is not understood is no wrong amount; one that is read wrong is.
        if (line.understood && (e.role == "salt" || (line.role == larder::Role::salt)))
            ADD_FAILURE() << "a wrong salt: " << e.line << " -> " << wrong;
    }
    std::printf("  %d of %d lines right\n", right, all);
    EXPECT_EQ(all, 100);
    EXPECT_GE(right * 100, all * 97);
}

bool mentioned(const appraise::Appraisal& a, const std::string& word) {
    std::string all = a.reason + " " + a.decides;
    for (const std::string& s : a.advice)
        all += " " + s;
    for (const plan::Warning& w : a.cautions)
        all += " " + w.title + " " + w.text;
    for (const std::string& s : a.assumptions)
        all += " " + s;
    for (const appraise::Line& line : a.lines) {
        for (const std::string& s : line.notes)
            all += " " + s;
    }
    std::transform(all.begin(), all.end(), all.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return all.find(word) != std::string::npos;
}

/// What is wrong with the salt of a whole list; empty if it is right.
std::string salt_faults(const appraise::Appraisal& a, const nlohmann::json& salt) {
    if (salt.is_null()) return "";
    const bool known = !salt.at("truth").is_null();
    if (!a.salt_g) return known ? "no salt; " : "";
    const double slack = 0.005;
    const std::string had =
        "salt " + std::to_string(a.salt_g->low) + " to " + std::to_string(a.salt_g->high) + " g; ";
    if (known) {
        const double truth = salt.at("truth").get<double>();
        if (truth < a.salt_g->low * (1 - slack) || truth > a.salt_g->high * (1 + slack)) return had;
    }
    if (a.salt_g->low < salt.at("low").get<double>() ||
        a.salt_g->high > salt.at("high").get<double>())
        return had;
    return "";
}

TEST(SetAside, ListsAreJudgedAsTheyShouldBe) {
    int right = 0;
    for (int i = 1; i <= 20; ++i) {
        char name[32];
        std::snprintf(name, sizeof name, "list-%02d", i);
        const auto expected = nlohmann::json::parse(contents(folder + name + ".expected.json"));
        appraise::Request request;
        if (expected.at("kind").is_string()) request.kind = expected.at("kind");
        if (expected.at("method").is_string()) request.method = expected.at("method");
        appraise::Refusal refusal;
        const auto a = appraise::appraise(contents(folder + name + ".txt"), request, refusal);
        ASSERT_TRUE(a) << name << ": " << refusal.message;
        const std::string verdict(appraise::describe(a->verdict));
        const std::string salt = salt_faults(*a, expected.at("salt_g"));
        std::string wrong = salt;
        const auto holds = [&](const char* field) {
            const auto& list = expected.at(field);
            return std::find(list.begin(), list.end(), verdict) != list.end();
        };
        if (!holds("verdict")) wrong += "verdict " + verdict + ": " + a->reason + "; ";
        EXPECT_FALSE(holds("must_not_be")) << name << " is called " << verdict;
        EXPECT_TRUE(salt.empty()) << name << ": " << salt;
        for (const auto& word : expected.at("mentions")) {
            if (!mentioned(*a, word.get<std::string>()))
                std::printf("  %s does not mention \"%s\"\n", name,
                            word.get<std::string>().c_str());
        }
        if (wrong.empty())
            ++right;
        else
            std::printf("  wrong: %s (%s) -> %s\n", name,
                        expected.at("title").get<std::string>().c_str(), wrong.c_str());
    }
    std::printf("  %d of 20 lists right\n", right);
}

} // namespace
