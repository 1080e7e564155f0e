#include "engine/plan/trace.hpp"
#include "engine/render/trace_report.hpp"
#include "tests/support/recipe.hpp"
#include "tests/support/schema.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace jarful::plan {
namespace {

using Json = nlohmann::json;
using ::testing::HasSubstr;
using ::testing::Not;

const kitchen::Kitchen& quay_street() {
    static const kitchen::Kitchen k =
        test::kitchen_of("kitchen \"Quay Street\"\n"
                         "scale bench  reads 1 g   up to 5 kg  within 1 g\n"
                         "scale pocket reads 0.1 g up to 500 g within 0.1 g\n"
                         "spoons us\n"
                         "let tight = 0.92 kg/L\n");
    return k;
}

constexpr const char* kraut = "recipe \"Kraut\"\nkind kraut\n"
                              "given cabbage = 1.80 kg   \"cored\"\n"
                              "weigh carrot = 6 % of cabbage\n"
                              "weigh salt = 2.2 % of (cabbage + carrot) as fine sea salt\n"
                              "weigh caraway = 1 tbsp per 3 lb of cabbage as caraway seed\n"
                              "fill (cabbage + carrot) / tight\nheadspace 12 %\n";

struct Traced {
    std::optional<Trace> trace;
    std::vector<std::string> codes;
    std::string said;
};

Traced trace_of(const std::string& text, const std::string& name,
                const std::vector<std::string>& settings = {},
                const kitchen::Kitchen& kitchen = quay_street(),
                const std::vector<std::string>& poured = {}) {
    Traced out;
    language::Findings findings;
    auto source = language::read_source("test.jarful", text, findings);
    const language::Document doc = language::parse(std::move(*source), findings);
    Request request;
    for (const std::string& s : settings) {
        language::Findings own;
        auto setting = read_setting(s, own);
        if (setting) request.settings.push_back(*setting);
    }
    for (const std::string& s : poured) {
        language::Findings own;
        request.poured.push_back(read_setting(s, own).value());
    }
    RequestFindings found;
    language::Findings about_name;
    if (!findings.has_faults())
        out.trace = trace(doc, kitchen, request, name, findings, found, about_name);
    for (const auto* list : {&findings, &about_name})
        for (const language::Diagnostic& d : list->all()) {
            out.codes.push_back(d.code);
            out.said += d.message + " " + d.advice + "\n";
        }
    return out;
}

const TraceNode& node(const Trace& t, std::string_view name) {
    for (const TraceNode& n : t.nodes)
        if (n.name == name) return n;
    throw std::runtime_error("no node " + std::string(name));
}

/// As the cook reads them: "a × b = 2 × 3 g = 6 g".
std::vector<std::string> steps(const TraceNode& n) {
    std::vector<std::string> out;
    for (const TraceOperation& op : n.operations)
        out.push_back(op.words + " = " + op.figures + " = " + op.result);
    return out;
}

TEST(Trace, shows_the_line_and_every_step_with_its_units) {
    const Traced t = trace_of(kraut, "salt");
    ASSERT_TRUE(t.trace) << t.said;
    const TraceNode& salt = t.trace->nodes.front();
    ASSERT_TRUE(salt.line);
    EXPECT_EQ(salt.line->number, 5u);
    EXPECT_EQ(salt.line->text, "weigh salt = 2.2 % of (cabbage + carrot) as fine sea salt");
    EXPECT_EQ(salt.value.text, "42 g");
    EXPECT_EQ(salt.value.sort, "a weight");
    EXPECT_EQ(salt.reading, "42.0 g on \"pocket\"");
    EXPECT_THAT(steps(salt),
                ::testing::ElementsAre("cabbage + carrot = 1800 g + 108 g = 1908 g",
                                       "2.2 % × (cabbage + carrot) = 0.022 × 1908 g = 41.976 g"));
    EXPECT_EQ(node(*t.trace, "cabbage").label, "cored");
}

TEST(Trace, goes_down_to_givens_and_numbers_and_shows_each_once) {
    const Traced t = trace_of(kraut, "salt");
    ASSERT_TRUE(t.trace) << t.said;
    const auto cabbages = std::count_if(t.trace->nodes.begin(), t.trace->nodes.end(),
                                        [](const TraceNode& n) { return n.name == "cabbage"; });
    EXPECT_EQ(cabbages, 1);
    EXPECT_EQ(node(*t.trace, "2.2 %").sort, TraceNode::Sort::literal);
    EXPECT_EQ(node(*t.trace, "6 %").value.sort, "a plain number");
    EXPECT_TRUE(node(*t.trace, "cabbage").uses.empty());
    const std::string text = render::trace_text(*t.trace, {});
    EXPECT_THAT(text, HasSubstr("shown above"));
    EXPECT_THAT(text, HasSubstr("line 4: weigh carrot = 6 % of cabbage"));
}

TEST(Trace, says_where_spoons_and_pounds_and_densities_come_from) {
    const Traced t = trace_of(kraut, "caraway");
    ASSERT_TRUE(t.trace) << t.said;
    const std::string text = render::trace_text(*t.trace, {});
    EXPECT_THAT(text, HasSubstr("tbsp (us tbsp)"));
    EXPECT_THAT(text, HasSubstr("lb: 453.592 g"));
    EXPECT_THAT(text, HasSubstr("how caraway seed lies in the spoon"));
    for (const TraceSource& s : t.trace->sources) {
        EXPECT_FALSE(s.source.empty()) << s.what;
        EXPECT_FALSE(s.status.empty()) << s.what;
    }
    // A spoon is weighed here; by the spoon it would be far less sure.
    ASSERT_TRUE(t.trace->unweighed);
    EXPECT_GT(t.trace->unweighed->bounds.width(), t.trace->nodes.front().value.bounds.width());
    ASSERT_FALSE(t.trace->unweighed_causes.empty());
    EXPECT_THAT(t.trace->unweighed_causes[0].label, HasSubstr("lies in the spoon"));
}

TEST(Trace, an_unstated_spoon_is_a_cause_by_its_name) {
    const Traced t = trace_of(kraut, "caraway", {}, kitchen::default_kitchen());
    EXPECT_FALSE(t.trace); // `tight` is the kitchen's
    std::string text = kraut;
    text.replace(text.find("tight"), 5, "0.9 kg/L");
    const Traced own = trace_of(text, "caraway", {}, kitchen::default_kitchen());
    ASSERT_TRUE(own.trace) << own.said;
    const std::size_t t_causes = trace_of(kraut, "caraway").trace->unweighed_causes.size();
    EXPECT_GT(own.trace->unweighed_causes.size(), t_causes);
    EXPECT_THAT(render::trace_text(*own.trace, {}), HasSubstr("which tbsp it is"));
}

TEST(Trace, weighs_the_causes_of_the_verdict_and_puts_the_widest_first) {
    const Traced t = trace_of(kraut, "verdict");
    ASSERT_TRUE(t.trace) << t.said;
    const Trace& trace = *t.trace;
    EXPECT_EQ(trace.nodes.front().name, "verdict");
    EXPECT_EQ(trace.nodes.front().what, "the salt of the vegetables");
    ASSERT_TRUE(trace.salt);
    EXPECT_EQ(trace.salt->verdict, Verdict::inside);
    ASSERT_GE(trace.causes.size(), 3u);
    for (std::size_t i = 1; i < trace.causes.size(); ++i)
        EXPECT_LE(trace.causes[i].width, trace.causes[i - 1].width);
    // By hand: 0.15 g either way on 42 g of salt, over 1908 g.
    EXPECT_EQ(trace.causes[0].label, "the weighing of salt");
    EXPECT_NEAR(trace.causes[0].width, 0.3 / 1908, 1e-6);
    EXPECT_EQ(trace.causes[0].low, "41.85 g");
    EXPECT_EQ(trace.causes[0].high, "42.15 g");
    double sum = 0;
    for (const TraceCause& c : trace.causes)
        sum += c.width;
    EXPECT_GE(sum * (1 + 1e-9), trace.nodes.front().value.bounds.width());
    EXPECT_EQ(trace_of(kraut, "salt%").trace->name, "verdict");
}

TEST(Trace, knows_the_names_that_are_always_there) {
    for (const char* name :
         {"all_salt", "all_produce", "all_water", "everything", "fill", "headspace"}) {
        const Traced t = trace_of(kraut, name);
        ASSERT_TRUE(t.trace) << name << t.said;
        EXPECT_FALSE(t.trace->nodes.front().what.empty()) << name;
    }
    const Traced t = trace_of(kraut, "fill");
    EXPECT_EQ(node(*t.trace, "tight").sort, TraceNode::Sort::house);
    EXPECT_THAT(render::trace_text(*t.trace, {}), HasSubstr("the kitchen \"Quay Street\""));
    const Traced all = trace_of(kraut, "everything");
    // A sum is one step, however long it is.
    ASSERT_EQ(all.trace->nodes.front().operations.size(), 1u);
    EXPECT_EQ(all.trace->nodes.front().operations[0].words, "cabbage + carrot + salt + caraway");
}

TEST(Trace, says_what_was_set_and_what_was_worked_out_backwards) {
    const Traced set = trace_of(kraut, "carrot", {"cabbage=1.84kg"});
    ASSERT_TRUE(set.trace) << set.said;
    EXPECT_EQ(node(*set.trace, "cabbage").how, "set to 1.84 kg");
    EXPECT_EQ(set.trace->nodes.front().value.text, "110.4 g");
    const Traced back = trace_of(kraut, "cabbage", {"salt=24g"});
    ASSERT_TRUE(back.trace) << back.said;
    EXPECT_EQ(back.trace->nodes.front().how, "worked out backwards from salt = 24 g");
}

TEST(Trace, shows_what_was_poured_and_works_with_it) {
    const Traced verdict = trace_of(kraut, "verdict", {}, quay_street(), {"salt=45g"});
    ASSERT_TRUE(verdict.trace) << verdict.said;
    const TraceNode& root = verdict.trace->nodes.front();
    EXPECT_TRUE(root.value.bounds.contains(root.value.value));
    EXPECT_NEAR(root.value.value, 45.0 / 1908, 1e-9);
    EXPECT_EQ(root.value.text, "2.35849 %");
    EXPECT_NEAR(std::stod(root.operations.back().result), 45.0 / 1908, 1e-7);
    EXPECT_NEAR(verdict.trace->salt->figure.percent, 4500.0 / 1908, 1e-9);
    const TraceNode& salt = node(*verdict.trace, "salt");
    EXPECT_DOUBLE_EQ(salt.value.value, 45);
    EXPECT_EQ(salt.how, "poured; the recipe comes to 42 g");
    EXPECT_NEAR(std::stod(salt.operations.back().result), 0.022 * 1908, 1e-3);
    const Traced alone = trace_of(kraut, "salt", {}, quay_street(), {"salt=45g"});
    EXPECT_EQ(alone.trace->nodes.front().value.text, "45 g");
    EXPECT_TRUE(alone.trace->nodes.front().value.bounds.contains(45));
}

TEST(Trace, offers_the_nearest_name) {
    const Traced t = trace_of(kraut, "carot");
    EXPECT_FALSE(t.trace);
    EXPECT_THAT(t.codes, ::testing::ElementsAre("unknown-name"));
    EXPECT_THAT(t.said, HasSubstr("\"carrot\""));
    const Traced none = trace_of("recipe \"R\"\ngiven cabbage = 1 kg\n", "verdict");
    EXPECT_THAT(none.codes, ::testing::ElementsAre("not-judged"));
}

TEST(Trace, shows_a_rounding_as_one_step_and_keeps_parentheses) {
    const Traced t = trace_of("recipe \"R\"\ngiven cabbage = 1 kg\n"
                              "let a = round(cabbage / 3, 5 g)\n"
                              "let b = (cabbage - a) / (2 * (a - 5 g)) ^ 2\n"
                              "let c = if a > 300 g then -a else min(a, cabbage)\n",
                              "a");
    ASSERT_TRUE(t.trace) << t.said;
    const auto& ops = t.trace->nodes.front().operations;
    ASSERT_EQ(ops.size(), 2u);
    EXPECT_EQ(ops[0].words, "cabbage / 3");
    EXPECT_EQ(ops[1].words, "round(cabbage / 3, 5 g)");
    EXPECT_EQ(ops[1].result, "335 g");
    const std::string text = "recipe \"R\"\ngiven cabbage = 1 kg\nlet a = cabbage / 4\n"
                             "let b = (cabbage - a) / (2 * (a - 5 g)) ^ 2\n"
                             "let c = if a > 300 g then -a else min(a, cabbage)\n";
    EXPECT_EQ(trace_of(text, "b").trace->nodes.front().operations.back().words,
              "(cabbage - a) / (2 × (a - 5 g))^2");
    EXPECT_EQ(trace_of(text, "c").trace->nodes.front().operations.back().words,
              "if 300 g < a then -a else min(a, cabbage)");
}

TEST(Trace, a_chain_of_thousands_of_lines_is_no_trouble) {
    std::string text = "recipe \"Chain\"\ngiven cabbage = 1 kg\nlet a0 = cabbage\n";
    for (int i = 1; i <= 3000; ++i)
        text += "let a" + std::to_string(i) + " = a" + std::to_string(i - 1) + " + 1 g\n";
    const Traced t = trace_of(text, "a3000");
    ASSERT_TRUE(t.trace) << t.said;
    EXPECT_EQ(t.trace->nodes.front().value.text, "4 kg");
    EXPECT_GT(t.trace->nodes.size(), 6000u);
    EXPECT_FALSE(render::trace_text(*t.trace, {}).empty());
}

// ---- DOT ----

/// Reads what trace_dot() may write, by the DOT language's grammar: IDs that are words, numbers or
/// quoted strings; statements that are attributes, nodes with attribute lists, and edges.
class DotReader {
  public:
    explicit DotReader(const std::string& text)
        : text_(text) {}

    /// Empty if it is a graph; otherwise what is wrong.
    std::string read() {
        if (!word("digraph") || !id() || !take('{')) return "no graph";
        while (!take('}')) {
            if (!statement()) return "at: " + text_.substr(at_, 40);
        }
        blanks();
        return at_ == text_.size() ? "" : "more after it";
    }
    std::size_t nodes = 0, edges = 0;

  private:
    bool statement() {
        if (!id()) return false;
        if (take('=')) return id() && take(';');
        if (text_.compare(at_, 2, "->") == 0 || (blanks(), text_.compare(at_, 2, "->") == 0)) {
            at_ += 2;
            ++edges;
            return id() && take(';');
        }
        ++nodes;
        if (!take('[')) return false;
        do {
            if (!id() || !take('=') || !id()) return false;
        } while (take(','));
        return take(']') && take(';');
    }
    bool word(const std::string& expected) {
        blanks();
        if (text_.compare(at_, expected.size(), expected) != 0) return false;
        at_ += expected.size();
        return true;
    }
    bool id() {
        blanks();
        if (at_ < text_.size() && text_[at_] == '"') {
            for (++at_; at_ < text_.size(); ++at_) {
                if (text_[at_] == '\\')
                    ++at_;
                else if (text_[at_] == '"')
                    return ++at_, true;
                else if (text_[at_] == '\n')
                    return false;
            }
            return false;
        }
        const std::size_t start = at_;
        while (at_ < text_.size() &&
               (std::isalnum(static_cast<unsigned char>(text_[at_])) != 0 || text_[at_] == '_'))
            ++at_;
        return at_ > start;
    }
    bool take(char c) {
        blanks();
        if (at_ >= text_.size() || text_[at_] != c) return false;
        ++at_;
        return true;
    }
    void blanks() {
        while (at_ < text_.size() && (text_[at_] == ' ' || text_[at_] == '\n'))
            ++at_;
    }
    const std::string& text_;
    std::size_t at_ = 0;
};

TEST(TraceDot, is_a_graph_whatever_stands_in_the_labels) {
    Trace t;
    t.title = "A \"quoted\" \\ title\n}";
    t.name = "]; n0 -> n0; \\";
    for (const char* name : {"a\"b", "back\\", "\\n", "line\nbreak", "größe", "<b>"}) {
        TraceNode n;
        n.name = name;
        n.value.text = "1 g\"";
        t.nodes.push_back(n);
    }
    t.nodes[0].uses = {1, 2, 3, 4, 5};
    const std::string dot = render::trace_dot(t);
    DotReader reader(dot);
    EXPECT_EQ(reader.read(), "") << dot;
    EXPECT_EQ(reader.nodes, 7u); // and the one that sets the font
    EXPECT_EQ(reader.edges, 5u);
}

TEST(TraceDot, the_reader_of_this_test_refuses_what_is_no_graph) {
    for (const char* bad : {"digraph t { a [label=\"x\"y\"]; }", "digraph t { a -> ; }",
                            "digraph t { a [label=\"\\\"]; }", "digraph t { "}) {
        const std::string text = bad;
        EXPECT_NE(DotReader(text).read(), "") << bad;
    }
}

// ---- The demo book ----

std::string read_all(const std::filesystem::path& path) {
    std::ifstream file(path);
    std::ostringstream all;
    all << file.rdbuf();
    return all.str();
}

TEST(Trace, every_name_of_the_demo_book_can_be_traced) {
    const std::filesystem::path book = std::filesystem::path(JARFUL_SOURCE_DIR) / "recipes";
    const kitchen::Kitchen kitchen = test::kitchen_of(read_all(book / "kitchen.jarful"));
    const jarful::testing::DocumentedSchema schema("trace");
    std::size_t traced = 0;
    for (const auto& entry : std::filesystem::directory_iterator(book)) {
        if (entry.path().extension() != ".jarful" || entry.path().stem() == "kitchen") continue;
        const std::string text = read_all(entry.path());
        language::Findings findings;
        auto source = language::read_source("test.jarful", text, findings);
        const language::Document doc = language::parse(std::move(*source), findings);
        for (const std::string& name : traceable_names(doc, kitchen)) {
            const Traced t = trace_of(text, name, {}, kitchen);
            ASSERT_TRUE(t.trace) << entry.path() << " " << name << "\n" << t.said;
            ++traced;
            const TraceNode& root = t.trace->nodes.front();
            EXPECT_TRUE(root.value.bounds.contains(root.value.value)) << name;
            for (const TraceNode& n : t.trace->nodes) {
                for (std::size_t used : n.uses)
                    EXPECT_LT(used, t.trace->nodes.size());
                // The last step is the value itself: nothing is left out on the way.
                EXPECT_TRUE(n.value.bounds.contains(n.value.value)) << n.name;
                if (n.operations.empty() || n.how.find("the recipe comes to") != std::string::npos)
                    continue;
                const std::string& result = n.operations.back().result;
                EXPECT_NEAR(std::stod(result), n.value.value,
                            1e-5 * std::abs(n.value.value) + 1e-12)
                    << entry.path() << " " << n.name << ": " << n.operations.back().words;
            }
            const std::string dot = render::trace_dot(*t.trace);
            EXPECT_EQ(DotReader(dot).read(), "") << dot;
            const Json json = Json::parse(render::trace_json(*t.trace));
            EXPECT_EQ(schema.faults(json), "") << entry.path() << " " << name;
        }
    }
    EXPECT_GT(traced, 100u);
}

} // namespace
} // namespace jarful::plan
