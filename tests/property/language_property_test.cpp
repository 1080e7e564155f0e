#include "engine/language/explain.hpp"
#include "tests/unit/language_support.hpp"

#include <rapidcheck.h>

#include <algorithm>
#include <array>

/// Whatever the bytes are: parsing ends, every place lies in the text, and every finding can be
/// explained.
namespace jarful::language::testing {

namespace {

constexpr std::string_view good = R"(language 1
recipe "Quay Street winter kraut" version 4   # a remark
kind   kraut
material "grey salt" is salt density 1.0..1.2 kg/L salt 90 % source "the sack"
given  cabbage = 1.80 kg ± 5 g  "cored and shredded"
total  roots = 2 lb 3 oz
share  carrot = 30 % of roots optional
weigh  salt = 2.2 % of (cabbage + carrot)  as fine sea salt counts as salt
weigh  crème = 1 1/2 tsp per kg of cabbage discarded keeps 20..30 %
count  bay = 1 each jar as bay leaf
let    packed = if cabbage > 2 kg and not carrot < 3 g then 0.9 kg/L else -min(1, 2)^2 * 1 kg/L
measure drained about 700..900 g replaces cabbage
brine  stock = 5 % of water, make 2 L
fill   (cabbage + carrot) / packed
hold   salt / (cabbage + carrot) between 2.0 % and 2.5 % "why"
step   "Rub {salt} into {{it}}, {salt / 3} each"
       "and {½ * salt} more."
tend   burp every 1 day from day 1 to day 7
ready  day 21 to day 28 at 21 to 24 °C
keep   cold for 6 months
)";

void check_total(const std::string& bytes) {
    const Parsed p = parse_bytes(bytes);
    const Source& source = p.document.source;
    const std::size_t size = source.text().size();
    const auto inside = [&](Place place) {
        RC_ASSERT(place.begin <= place.end && place.end <= size);
    };
    for (const Diagnostic& d : p.findings.all()) {
        if (d.place) inside(*d.place);
        for (const Related& r : d.related)
            inside(r.place);
        RC_ASSERT(!d.code.empty() && !d.message.empty());
        RC_ASSERT(!explain(source, d).empty());
    }
    const Expressions& e = p.document.expressions;
    for (std::size_t i = 0; i < e.nodes.size(); ++i) {
        inside(e.nodes[i].place);
        if (e.nodes[i].kind == NodeKind::call || e.nodes[i].kind == NodeKind::amount) continue;
        for (const NodeId child : {e.nodes[i].a, e.nodes[i].b, e.nodes[i].c})
            RC_ASSERT(child == no_node || child < i); // a tree, children first
    }
    for (const Line& line : p.document.lines)
        inside(line.place);
}

} // namespace

TEST(LanguageProperty, TheGoodFileIsGood) {
    EXPECT_EQ(codes(parse_bytes(std::string(good)).findings), "");
}

TEST(LanguageProperty, RandomBytesAreRead) {
    EXPECT_TRUE(rc::check("random bytes", [](const std::string& bytes) { check_total(bytes); }));
}

TEST(LanguageProperty, MutationsOfAGoodFileAreRead) {
    static constexpr std::array<std::string_view, 24> pieces{"(",   ")",        "\"",
                                                             "{",   "}",        "\n",
                                                             "#",   "^",        "/",
                                                             "-",   "..",       "±",
                                                             "of ", "per ",     " kg",
                                                             "1/2", "if ",      " as ",
                                                             "\\",  "\xFF",     "\xE2\x80\xAE",
                                                             ",",   "\xC2\xA0", "recipe \"x\"\n"};
    EXPECT_TRUE(rc::check("mutations", [] {
        std::string text(good);
        const int changes = *rc::gen::inRange(1, 6);
        for (int i = 0; i < changes; ++i) {
            const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
            const auto length = *rc::gen::inRange<std::size_t>(0, 9);
            switch (*rc::gen::inRange(0, 3)) {
            case 0:
                text.insert(at, pieces[*rc::gen::inRange<std::size_t>(0, pieces.size())]);
                break;
            case 1:
                text.erase(at, length);
                break;
            default:
                text.insert(*rc::gen::inRange<std::size_t>(0, text.size()),
                            text.substr(at, length));
                break;
            }
            if (text.empty()) text = "x";
        }
        check_total(text);
    }));
}

TEST(LanguageProperty, RandomPiecesOfExpressionsAreRead) {
    static constexpr std::array<std::string_view, 26> pieces{
        "a", "salt", "3",   "1/2", "2.2 %", "kg", "3 g",  "(",    ")",   "+",   "-",  "*",    "/",
        "^", "of",   "per", "<",   ">=",    "if", "then", "else", "not", "and", "or", "min(", ", "};
    EXPECT_TRUE(rc::check("pieces", [] {
        std::string text;
        const int count = *rc::gen::inRange(1, 20);
        for (int i = 0; i < count; ++i) {
            text += pieces[*rc::gen::inRange<std::size_t>(0, pieces.size())];
            text += ' ';
        }
        Findings findings;
        const auto lone = parse_expression(text, findings);
        RC_ASSERT(lone.has_value() != findings.has_faults());
        check_total("recipe \"A\"\nlet x = " + text);
    }));
}

} // namespace jarful::language::testing
