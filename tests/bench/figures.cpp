// The measurements that need no process of their own: jarful_figures NAME [WORD …]. Prints one line
// of JSON: for each of several ways to do the same thing the medians over rounds in which they take
// turns. tests/bench/run runs it.
//
//   what-if            1,000,000 values through a recipe of twelve cells
//   parse FOLDER       every recipe of a folder, and the same as JSON
//   sheet CELLS        a sheet of many cells made, and one given of it changed
//   sheet-alone CELLS  the same without anything beside it, for its memory

#include "engine/language/parse.hpp"
#include "tests/bench/equivalent_json.hpp"
#include "tests/bench/made_sheet.hpp"
#include "tests/bench/what_if.hpp"

#include <nlohmann/json.hpp>

#include <ctime>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iostream>
#include <sstream>

namespace {

using namespace jarful;
using namespace jarful::bench;
using Json = nlohmann::ordered_json;

/// Of this process: what it spends waiting for others that want the processor does not count.
double processor_seconds() {
    timespec time{};
    ::clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
    return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_nsec) * 1e-9;
}

/// The most memory that this process has had at a time, in kB; 0 where the kernel does not say.
long peak_kb() {
    std::ifstream status("/proc/self/status");
    for (std::string word; status >> word;) {
        long kb = 0;
        if (word == "VmHWM:" && status >> kb) return kb;
    }
    return 0;
}

/// Ways to do the same thing, in turn; the median of each in seconds.
std::vector<double> take_turns(int rounds, const std::vector<std::function<void()>>& ways) {
    std::vector<std::vector<double>> times(ways.size());
    for (int round = 0; round <= rounds; ++round) {
        for (std::size_t i = 0; i < ways.size(); ++i) {
            const double start = processor_seconds();
            ways[i]();
            // The first round warms up.
            if (round > 0) times[i].push_back(processor_seconds() - start);
        }
    }
    std::vector<double> medians;
    for (std::vector<double>& one : times) {
        std::sort(one.begin(), one.end());
        medians.push_back(one[one.size() / 2]);
    }
    return medians;
}

[[noreturn]] void give_up(const std::string& why) {
    std::cerr << "jarful_figures: " << why << "\n";
    std::exit(2);
}

void expect_near(double a, double b, const char* what) {
    if (!(std::fabs(a - b) <= 1e-9 * std::fabs(b))) give_up(std::string(what) + " does not agree");
}

// ---- What-ifs. ----

sheet::Sheet twelve_cell_sheet() {
    language::Findings findings;
    sheet::Builder builder(findings);
    for (const auto& [name, text] : twelve_cells)
        builder.define_text(name, text, std::string(name) == "cabbage");
    if (!builder.resolve())
        give_up("the recipe of twelve cells has faults: " + findings.all().front().message);
    return builder.build();
}

/// The last cell as muParser computes it: a kept parser for each cell.
class KeptParsers {
  public:
    explicit KeptParsers(sheet::Sheet& sheet)
        : values_(sheet.size())
        , kept_(keep_parsers(sheet, 0, values_)) {}
    double operator()(double cabbage) {
        values_[0] = cabbage;
        double last = 0;
        for (const Kept& one : kept_)
            last = values_[one.id] = one.parser->Eval();
        return last;
    }

  private:
    std::vector<double> values_;
    std::vector<Kept> kept_;
};

/// The same as one expression that assigns: "c1=…, c2=…, …".
class OneParser {
  public:
    explicit OneParser(sheet::Sheet& sheet)
        : values_(sheet.size())
        , parser_(bare_parser()) {
        std::string text;
        for (sheet::CellId id = 0; id < sheet.size(); ++id) {
            parser_->DefineVar(fmt::format("c{}", id), &values_[id]);
            if (id == 0) continue;
            text += fmt::format("{}c{}={}", id == 1 ? "" : ",", id,
                                sheet::print_for_parser(sheet.cell(id).formula, sheet.unknowns()));
        }
        parser_->SetExpr(text);
    }
    double operator()(double cabbage) {
        values_[0] = cabbage;
        int count = 0;
        return parser_->Eval(count)[count - 1];
    }

  private:
    std::vector<double> values_;
    std::unique_ptr<mu::Parser> parser_;
};

Json what_if() {
    constexpr std::size_t count = 1'000'000;
    sheet::Sheet sheet = twelve_cell_sheet();
    const sheet::CellId last = *sheet.find("whole");
    std::vector<double> tried(count), ours(count), native(count), many(count), one(count);
    for (std::size_t i = 0; i < count; ++i)
        tried[i] = 500 + static_cast<double>(i) / 250;
    KeptParsers many_parsers(sheet);
    OneParser one_parser(sheet);
    const auto seconds =
        take_turns(7, {
                          [&] { sheet.what_if(0, tried, last, ours); },
                          [&] { what_if_native(tried.data(), native.data(), count); },
                          [&] {
                              for (std::size_t i = 0; i < count; ++i)
                                  many[i] = many_parsers(tried[i]);
                          },
                          [&] {
                              for (std::size_t i = 0; i < count; ++i)
                                  one[i] = one_parser(tried[i]);
                          },
                      });
    for (std::size_t i = 0; i < count; i += 997) {
        expect_near(native[i], ours[i], "native C++");
        if (many[i] != ours[i] || one[i] != ours[i]) give_up("muParser does not agree");
    }
    return {{"count", count},
            {"jarful_ns", seconds[0] / count * 1e9},
            {"native_ns", seconds[1] / count * 1e9},
            {"muparser_kept_ns", seconds[2] / count * 1e9},
            {"muparser_one_ns", seconds[3] / count * 1e9}};
}

// ---- Parsing. ----

std::string bytes_of(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
}

language::Document parsed(const std::string& text) {
    language::Findings findings;
    auto source = language::read_source("recipe", text, findings);
    if (!source) give_up("a recipe cannot be read");
    language::Document document = language::parse(std::move(*source), findings);
    if (findings.has_faults()) give_up("a recipe has faults");
    return document;
}

Json parse(const std::string& folder) {
    std::vector<std::string> texts, jsons;
    std::size_t text_bytes = 0, json_bytes = 0;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
        if (entry.path().extension() != ".jarful" || entry.path().stem() == "kitchen") continue;
        texts.push_back(bytes_of(entry.path()));
        jsons.push_back(equivalent_json(parsed(texts.back())));
        text_bytes += texts.back().size();
        json_bytes += jsons.back().size();
    }
    if (texts.empty()) give_up("there are no recipes in " + folder);
    std::size_t lines = 0, values = 0;
    const auto seconds = take_turns(9, {
                                           [&] {
                                               lines = 0;
                                               for (const std::string& text : texts)
                                                   lines += parsed(text).lines.size();
                                           },
                                           [&] {
                                               values = 0;
                                               for (const std::string& json : jsons)
                                                   values +=
                                                       nlohmann::json::parse(json)["lines"].size();
                                           },
                                       });
    if (lines != values) give_up("the JSON is not equivalent");
    const auto recipes = static_cast<double>(texts.size());
    return {{"recipes", texts.size()},
            {"text_bytes", text_bytes},
            {"json_bytes", json_bytes},
            {"jarful_mb_s", static_cast<double>(text_bytes) / seconds[0] / 1e6},
            {"json_mb_s", static_cast<double>(json_bytes) / seconds[1] / 1e6},
            {"jarful_us", seconds[0] / recipes * 1e6},
            {"json_us", seconds[1] / recipes * 1e6}};
}

// ---- Many cells. ----

/// Every formula of the sheet read and computed by one kept parser.
double all_by_parser(const sheet::Sheet& sheet, const std::vector<std::string>& texts,
                     std::vector<double>& values) {
    auto parser = bare_parser();
    for (sheet::CellId id = 0; id < sheet.size(); ++id) {
        parser->ClearVar();
        for (const sheet::CellId used : sheet.dependencies(id))
            parser->DefineVar(fmt::format("c{}", used), &values[used]);
        parser->SetExpr(texts[id]);
        values[id] = parser->Eval();
    }
    return values.back();
}

Json many_cells(std::size_t cells) {
    sheet::Sheet sheet = made_sheet(cells);
    std::vector<std::string> texts;
    for (sheet::CellId id = 0; id < sheet.size(); ++id)
        texts.push_back(sheet::print_for_parser(sheet.cell(id).formula, sheet.unknowns()));
    std::vector<double> by_parser(sheet.size());
    double ours = 0, theirs = 0;
    const auto made =
        take_turns(3, {
                          [&] {
                              sheet::Sheet fresh = made_sheet(cells);
                              sum_of(fresh);
                              ours = fresh.value(static_cast<sheet::CellId>(fresh.size() - 1));
                          },
                          [&] { theirs = all_by_parser(sheet, texts, by_parser); },
                      });
    if (ours != theirs) give_up("muParser does not agree");

    std::vector<double> values(sheet.size());
    const std::vector<Kept> kept = keep_parsers(sheet, 0, values);
    double weight = 1800;
    const auto changed = take_turns(25, {
                                            [&] {
                                                weight += 1;
                                                sheet.set(0, weight);
                                                for (const Kept& one : kept)
                                                    ours = sheet.value(one.id);
                                            },
                                            [&] {
                                                values[0] = weight;
                                                for (const Kept& one : kept)
                                                    theirs = values[one.id] = one.parser->Eval();
                                            },
                                        });
    if (ours != theirs) give_up("muParser does not agree");
    return {{"cells", cells},
            {"made_ms", made[0] * 1e3},
            {"made_by_muparser_ms", made[1] * 1e3},
            {"touched", kept.size()},
            {"changed_us", changed[0] * 1e6},
            {"changed_by_muparser_us", changed[1] * 1e6}};
}

Json many_cells_alone(std::size_t cells) {
    sheet::Sheet sheet = made_sheet(cells);
    return {{"cells", cells}, {"sum", sum_of(sheet)}};
}

Json measured(const std::vector<std::string>& words) {
    if (words.size() == 1 && words[0] == "what-if") return what_if();
    if (words.size() == 2 && words[0] == "parse") return parse(words[1]);
    if (words.size() == 2 && words[0] == "sheet") return many_cells(std::stoul(words[1]));
    if (words.size() == 2 && words[0] == "sheet-alone")
        return many_cells_alone(std::stoul(words[1]));
    give_up("what-if, parse FOLDER, sheet CELLS, or sheet-alone CELLS");
}

} // namespace

int main(int argc, char** argv) {
    try {
        Json result = measured(std::vector<std::string>(argv + 1, argv + argc));
        result["peak_kb"] = peak_kb();
        std::cout << result.dump() << "\n";
    } catch (const std::exception& error) {
        give_up(error.what());
    }
}
