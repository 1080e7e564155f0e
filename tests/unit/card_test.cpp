#include "engine/render/card.hpp"
#include "engine/render/card_pages.hpp"
#include "tests/support/weigh_out_example.hpp"

#include <gmock/gmock.h>

#include <gumbo.h>
#include <set>

namespace jarful::render {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::StartsWith;

CardTimes times_of(const plan::WeighOut& out, bool dated = false) {
    const tend::Date start{std::chrono::year{2026}, std::chrono::November, std::chrono::day{25}};
    return {tend::make_schedule(out.kind, out.method, out.method_lines, start, 22.0), dated};
}

Card card_of(const plan::WeighOut& out, Units units = Units::metric, bool dated = false) {
    return make_card(out, times_of(out, dated), units);
}

plan::JarShare example_jar(const char* name, double fill_ml) {
    plan::JarShare jar;
    jar.name = name;
    jar.brimful_ml = 1500;
    jar.usable_ml = 1320;
    jar.fill_ml = fill_ml;
    jar.full_percent = fill_ml / 15;
    jar.level_cm = fill_ml / 75; // an area of 75 cm²
    jar.headspace_cm = 20 - *jar.level_cm;
    plan::JarItem cabbage;
    cabbage.name = "cabbage";
    cabbage.material = "white cabbage";
    cabbage.reading_g = cabbage.exact_g = 920;
    jar.items = {cabbage};
    return jar;
}

/// What a browser makes of a page: its elements and all its words.
struct Parsed {
    std::set<std::string> elements;
    std::set<std::string> attributes;
    std::string words;
};

void read_node(const GumboNode& node, Parsed& out) {
    if (node.type == GUMBO_NODE_TEXT || node.type == GUMBO_NODE_WHITESPACE)
        out.words += node.v.text.text;
    if (node.type != GUMBO_NODE_ELEMENT) return;
    const GumboElement& element = node.v.element;
    std::string name = gumbo_normalized_tagname(element.tag);
    if (name.empty()) {
        GumboStringPiece original = element.original_tag;
        gumbo_tag_from_original_text(&original);
        name.assign(original.data, original.length);
    }
    out.elements.insert(name);
    for (unsigned i = 0; i < element.attributes.length; ++i)
        out.attributes.insert(static_cast<const GumboAttribute*>(element.attributes.data[i])->name);
    if (name == "style") return;
    for (unsigned i = 0; i < element.children.length; ++i)
        read_node(*static_cast<const GumboNode*>(element.children.data[i]), out);
}

Parsed parsed(const std::string& page) {
    Parsed out;
    GumboOutput* tree = gumbo_parse_with_options(&kGumboDefaultOptions, page.data(), page.size());
    read_node(*tree->root, out);
    gumbo_destroy_output(&kGumboDefaultOptions, tree);
    return out;
}

constexpr const char* hostile =
    R"(</style></title><script>alert(1)</script><img src=x onerror='alert(2)'> "&amp; ]]> -->)";

plan::WeighOut hostile_weigh_out() {
    plan::WeighOut out = testing::example_weigh_out();
    out.title = out.kitchen = hostile;
    out.kind_title = hostile;
    for (plan::Item* item : {&out.givens[0], &out.items[0], &out.items[1], &out.items[2]}) {
        item->name = item->label = item->material = item->scale = hostile;
        for (plan::Portion& portion : item->portions)
            portion.scale = hostile;
    }
    out.counts[0].name = out.counts[0].label = out.counts[0].material = hostile;
    out.checks[0].text = out.checks[0].why = hostile;
    out.method_lines[0].text[0].words = hostile;
    plan::TextPiece piece;
    piece.words = hostile;
    for (std::size_t i = 1; i < out.method_lines.size(); ++i)
        out.method_lines[i].text = {piece};
    out.sources = {hostile, "[x](javascript:alert(3))"};
    out.assumptions = {hostile};
    out.left_out = {hostile};
    out.jars = {example_jar(hostile, 1200)};
    out.jars[0].items[0].name = hostile;
    out.jars.push_back(example_jar("other", 900));
    return out;
}

TEST(Card, tellsTheNumbersInTheirOrder) {
    const Card card = card_of(testing::example_weigh_out());
    ASSERT_EQ(card.numbers.size(), 4U);
    const CardNumbers& weigh = card.numbers[0];
    EXPECT_EQ(weigh.heading, "Weigh, in this order");
    ASSERT_EQ(weigh.rows.size(), 2U);
    EXPECT_EQ(weigh.rows[0].figure, "1840");
    EXPECT_EQ(weigh.rows[0].unit, "g");
    EXPECT_EQ(weigh.rows[0].name, "cabbage");
    EXPECT_EQ(weigh.rows[0].scale, "bench");
    EXPECT_EQ(weigh.rows[1].figure, "42.9");
    EXPECT_EQ(card.numbers[1].heading, "Count");
    EXPECT_EQ(card.numbers[1].rows[0].figure, "2");
    EXPECT_THAT(card.numbers[2].words, StartsWith("mustard (mustard seed):"));
    EXPECT_EQ(card.numbers[3].heading, "Weigh later");
    EXPECT_EQ(card.numbers[3].rows[0].figure, "") << "it is written in by hand";
    EXPECT_THAT(card.numbers[3].words, HasSubstr("drained=WEIGHT"));
}

TEST(Card, fillsInTheAmountsOfTheMethod) {
    const Card card = card_of(testing::example_weigh_out());
    ASSERT_EQ(card.method.size(), 2U);
    // A number and its unit are not torn apart.
    EXPECT_THAT(card.method[0], HasSubstr("42.9\xc2\xa0g in, in goes of 14.5\xc2\xa0g"));
}

TEST(Card, countsDaysOrNamesDates) {
    const plan::WeighOut out = testing::example_weigh_out();
    const auto whens = [](const Card& card) {
        std::vector<std::string> all;
        for (const CardDate& date : card.dates)
            all.push_back(date.when);
        return all;
    };
    EXPECT_THAT(whens(card_of(out)), Contains("day 1 to 7"));
    EXPECT_THAT(whens(card_of(out)), Contains("day 21 to 28"));
    const Card dated = card_of(out, Units::metric, true);
    EXPECT_EQ(dated.dates_heading, "Packed on Wed 25 Nov 2026");
    EXPECT_THAT(whens(dated), Contains("Thu 26 Nov to Wed 2 Dec"));
    EXPECT_THAT(whens(dated), Contains("Wed 16 Dec to Wed 23 Dec"));
    for (const CardDate& date : dated.dates) {
        if (date.what.starts_with("Move")) {
            EXPECT_THAT(date.what, HasSubstr("23 Jun 2027"));
        }
    }
}

TEST(Card, putsAStepThatComesLaterBehindTheTending) {
    plan::WeighOut out = testing::example_weigh_out();
    plan::MethodLine bottle;
    plan::TextPiece words;
    words.words = "Bottle it.";
    bottle.text = {words};
    out.method_lines.push_back(bottle);
    const Card card = card_of(out);
    EXPECT_EQ(card.method.size(), 2U);
    EXPECT_THAT(card.afterwards, ElementsAre("Bottle it."));
    EXPECT_THAT(card_html(card), HasSubstr("<ol start=\"3\">"));
    EXPECT_THAT(card_markdown(card), HasSubstr("\n3. Bottle it.\n"));
}

TEST(Card, drawsNoJarWithoutOne) {
    plan::WeighOut out = testing::example_weigh_out();
    const Card card = card_of(out);
    EXPECT_THAT(card.room, HasSubstr("No jar is drawn: none was chosen."));
    EXPECT_THAT(card_html(card), Not(HasSubstr("card-jar-1")));
    out.room.reset();
    EXPECT_EQ(card_of(out).room,
              "No jar is drawn: the recipe does not say what room the batch takes.");
}

TEST(Card, drawsNoJarOfUnknownWidth) {
    plan::WeighOut out = testing::example_weigh_out();
    out.jars = {example_jar("tall", 1200)};
    EXPECT_THAT(card_html(card_of(out)), HasSubstr("id=\"card-jar-1-title\""));
    out.jars[0].level_cm.reset();
    out.jars[0].headspace_cm.reset();
    const std::string page = card_html(card_of(out));
    EXPECT_THAT(page, Not(HasSubstr("card-jar-1-title")));
    EXPECT_THAT(page, HasSubstr("Not drawn: its width is not known."));
}

TEST(Card, drawsJarsOfAKindOnce) {
    plan::WeighOut out = testing::example_weigh_out();
    out.jars = {example_jar("tall", 1200), example_jar("tall", 1200), example_jar("squat", 900)};
    out.jars[1].items[0].reading_g = 919;
    const Card card = card_of(out);
    ASSERT_EQ(card.jars.size(), 2U);
    EXPECT_EQ(card.jars[0].title, "2 jars: tall, 1.5\xc2\xa0L brimful");
    ASSERT_EQ(card.jars[0].portions.size(), 2U);
    EXPECT_EQ(card.jars[0].portions[1].title, "Into jar 2:");
    EXPECT_EQ(card.jars[0].portions[1].parts[0].figure, "919 g");
    EXPECT_EQ(card.jars[1].title, "Jar: squat, 1.5\xc2\xa0L brimful");
    EXPECT_EQ(card.jars[1].portions[0].title, "Into jar 3:");
}

TEST(Card, doesNotSayEachWhereOneJarIsNotInside) {
    plan::WeighOut out = testing::example_weigh_out();
    out.jars = {example_jar("tall", 1200), example_jar("tall", 1200), example_jar("tall", 1200)};
    out.jars[2].items[0].reading_g = 919;
    for (plan::JarShare& jar : out.jars)
        jar.salt = out.salt;
    ASSERT_EQ(card_of(out).jars.size(), 1U);
    EXPECT_THAT(card_of(out).jars[0].salt,
                ElementsAre("Salt of each: inside the published range."));
    out.jars[2].salt->verdict = plan::Verdict::undecided;
    out.jars[2].salt->reason = "It may be less";
    const std::vector<std::string> salt = card_of(out).jars[0].salt;
    ASSERT_EQ(salt.size(), 2U);
    EXPECT_EQ(salt[0], "Jars 1 and 2: salt inside the published range.");
    EXPECT_THAT(salt[1], StartsWith("Jar 3: Salt 2.2"));
    EXPECT_THAT(salt[1], HasSubstr("UNDECIDED"));
}

TEST(Card, saysFirstWhatStandsInTheWay) {
    plan::WeighOut out = testing::example_weigh_out();
    EXPECT_THAT(card_of(out).obstacles, IsEmpty());
    out.salt->verdict = plan::Verdict::below;
    const Card card = card_of(out);
    ASSERT_FALSE(card.obstacles.empty());
    EXPECT_THAT(card.obstacles[0], StartsWith("Do not pack this."));
    const std::string page = card_html(card);
    EXPECT_LT(page.find("Do not pack this."), page.find("Weigh, in this order"));
    EXPECT_THAT(card_svg(card), HasSubstr("Not like this"));
    EXPECT_THAT(card_markdown(card), HasSubstr("**Do not pack this."));
    out.salt.reset();
    out.no_salt_reason = "The recipe says no kind of ferment";
    EXPECT_EQ(card_of(out).salt.headline, "not judged");
    EXPECT_THAT(card_html(card_of(out)), Not(HasSubstr("card-gauge")));
}

TEST(Card, saysWhatTheJarsDoNotTake) {
    plan::WeighOut out = testing::example_weigh_out();
    out.jars = {example_jar("tall", 1320)};
    out.jar_choice = plan::JarChoice{};
    out.jar_choice->unplaced_ml = 800;
    out.jar_choice->unplaced_g = 740;
    EXPECT_THAT(card_of(out).obstacles,
                ElementsAre("The kitchen's jars do not take it all: 800 mL (740 g) has no place."));
}

TEST(CardHtml, makesWordsOfWhateverARecipeSays) {
    const Parsed page = parsed(card_html(card_of(hostile_weigh_out())));
    EXPECT_THAT(page.words, HasSubstr(hostile));
    const std::set<std::string> known{
        "html", "head", "meta", "title", "style", "body",  "main",  "header", "h1",
        "h2",   "h3",   "p",    "div",   "table", "thead", "tbody", "tr",     "th",
        "td",   "span", "svg",  "desc",  "line",  "path",  "text",  "figure", "figcaption",
        "ul",   "ol",   "li",   "b",     "dl",    "dt",    "dd",    "strong", "section"};
    for (const std::string& element : page.elements)
        EXPECT_TRUE(known.contains(element)) << element;
    for (const std::string& attribute : page.attributes) {
        EXPECT_FALSE(attribute.starts_with("on")) << attribute;
        EXPECT_NE(attribute, "src");
        EXPECT_NE(attribute, "href");
        EXPECT_NE(attribute, "style");
    }
}

TEST(CardHtml, makesWordsOfItOnLabelsToo) {
    const plan::WeighOut out = hostile_weigh_out();
    const Parsed page = parsed(labels_html(make_labels(out, times_of(out, true), Units::both)));
    EXPECT_THAT(page.words, HasSubstr(hostile));
    EXPECT_FALSE(page.elements.contains("script"));
    EXPECT_FALSE(page.elements.contains("img"));
}

TEST(CardSvg, makesWordsOfItToo) {
    const std::string picture = card_svg(card_of(hostile_weigh_out()));
    EXPECT_THAT(picture, Not(HasSubstr("<script")));
    EXPECT_THAT(picture, Not(HasSubstr("<img")));
    EXPECT_THAT(picture, HasSubstr("&lt;script&gt;"));
}

TEST(CardMarkdown, escapesMarks) {
    plan::WeighOut out = testing::example_weigh_out();
    out.title =
        "# *bold* _soft_ [a](javascript:b) <i> `c` | d ~e~ ![f](g) &amp; http://h.i www.j.k";
    out.version.reset();
    out.sources = {"1. one", "- two", "+ three", "2) four", "12 g"};
    const std::string card = card_markdown(card_of(out));
    EXPECT_THAT(card, StartsWith(R"(# \# \*bold\* \_soft\_ \[a\](javascript:b) \<i\> \`c\` \| d )"
                                 R"(\~e\~ \!\[f\](g) \&amp; http\://h.i www\.j.k)"));
    EXPECT_THAT(card, HasSubstr("- 1\\. one."));
    EXPECT_THAT(card, HasSubstr("- \\- two."));
    EXPECT_THAT(card, HasSubstr("- \\+ three."));
    EXPECT_THAT(card, HasSubstr("- 2\\) four."));
}

TEST(Shown, isolatesWhatRunsFromRightToLeft) {
    EXPECT_EQ(shown("cabbage"), "cabbage");
    EXPECT_EQ(shown("כרוב"), "\xe2\x81\xa8"
                             "כרוב"
                             "\xe2\x81\xa9");
    // A character that turns the direction of what follows is shown and turns nothing.
    EXPECT_EQ(shown("a\xe2\x80\xae"
                    "b"),
              "a<U+202E>b");
    EXPECT_EQ(shown("a\x1b[31mb"), "a\xe2\x90\x9b[31mb");
    EXPECT_EQ(shown("4 g of it, 4 gods"), "4\xc2\xa0g of it, 4 gods");
}

/// A card with so many lines of small print on it.
Card card_with(int lines) {
    Card card = card_of(testing::example_weigh_out());
    for (int i = 0; i < lines; ++i)
        card.sources.emplace_back(
            "A note of the house that takes a whole line of the card, or two");
    return card;
}

TEST(CardSheets, makesACardWithMoreOnItSmallerAndThenTakesASecondSheet) {
    EXPECT_EQ(card_sheets(card_with(0)).count, 1);
    std::vector<std::pair<int, int>> seen; // sheets, size
    for (int lines = 0; lines < 300; lines += 2) {
        const CardSheets sheets = card_sheets(card_with(lines));
        EXPECT_LE(sheets.size, 7);
        const std::pair now{sheets.count, sheets.size};
        if (seen.empty() || seen.back() != now) seen.push_back(now);
    }
    EXPECT_TRUE(std::is_sorted(seen.begin(), seen.end())) << "more never makes it larger";
    EXPECT_EQ(seen.back().first, 3) << "more than two sheets take";
    EXPECT_TRUE(std::any_of(seen.begin(), seen.end(), [](auto one) { return one.first == 2; }));
}

TEST(CardSheets, leavesRoomForTheAddress) {
    CardAddress address{"https://garden.example/recipes/winter-kraut.html", SquareCode{}};
    for (int lines = 0; lines < 60; lines += 3) {
        const CardSheets without = card_sheets(card_with(lines));
        const CardSheets with = card_sheets(card_with(lines), address);
        EXPECT_GE(std::pair(with.count, with.size), std::pair(without.count, without.size));
    }
}

TEST(CardSheets, isSaidToTheStyleSheet) {
    EXPECT_EQ((CardSheets{3, 1}.html_class()), "fit-3");
    EXPECT_EQ((CardSheets{0, 2}.html_class()), "fit-0 two-sheets");
    EXPECT_EQ((CardSheets{7, 3}.html_class()), "fit-7 two-sheets");
}

TEST(Labels, sayWhatIsInTheJarMostFirst) {
    plan::WeighOut out = testing::example_weigh_out();
    out.items[2].fate = plan::Fate::in_jar; // "drained", 900 g
    const auto labels = make_labels(out, times_of(out, true), Units::metric);
    ASSERT_EQ(labels.size(), 1U);
    EXPECT_EQ(labels[0].contents,
              "white cabbage 1840\xc2\xa0g, cabbage 900\xc2\xa0g, fine sea salt "
              "42.9\xc2\xa0g, a pinch of mustard seed and 2 × bay leaf");
    EXPECT_EQ(labels[0].packed, "Wed 25 Nov 2026");
    EXPECT_EQ(labels[0].ready, "Wed 16 Dec to Wed 23 Dec");
    EXPECT_THAT(labels[0].keep, StartsWith("cold, 6 months, until"));
    EXPECT_EQ(labels[0].salt, "2.2\xc2\xa0% of the vegetables: inside 2 to 3\xc2\xa0%");
}

std::size_t count_of(const std::string& text, const std::string& word) {
    std::size_t n = 0;
    for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1))
        ++n;
    return n;
}

TEST(Labels, fillASheetWithWholeRounds) {
    CardLabel one;
    one.title = "one";
    EXPECT_EQ(count_of(labels_html({one}), "<li class=\"label\">"), 8U);
    CardLabel two = one;
    two.copies = 2;
    EXPECT_EQ(count_of(labels_html({one, two}), "<li class=\"label\">"), 6U);
    two.copies = 11;
    EXPECT_EQ(count_of(labels_html({two}), "<li class=\"label\">"), 11U);
}

TEST(Labels, areFewerToASheetWhereMoreIsSaid) {
    CardLabel label;
    label.title = "one";
    std::size_t before = 8;
    for (int words = 0; words < 1200; words += 10) {
        label.contents += "white cabbage 1258 g, carrot 75 g, ";
        const std::string sheet = labels_html({label});
        const std::size_t labels = count_of(sheet, "<li class=\"label\">");
        EXPECT_LE(labels, before);
        before = labels;
    }
    EXPECT_EQ(before, 2U);
    EXPECT_THAT(labels_html({label}), HasSubstr("<ul class=\"labels two type-8\">"));
}

} // namespace
} // namespace jarful::render
