#include "engine/assist/meanings.hpp"
#include "engine/kitchen/kitchen.hpp"
#include "engine/language/parse.hpp"
#include "engine/language/words.hpp"
#include "engine/plan/plan.hpp"
#include "engine/render/words.hpp"
#include "tests/unit/assist_kitchen.hpp"

#include <gmock/gmock.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>

/// What is shown and offered while a recipe is written.
namespace {

using namespace jarful::test;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;

TEST(InlayHint, isWhatTheScaleShows) {
    InKitchen client;
    client.start();
    client.open("a.jarful", kraut);
    EXPECT_THAT(hints(client, "a.jarful"),
                ElementsAre("1: 2.2 % of the vegetables, inside the published range", "2: 1800 g",
                            "3: 108.0 g", "4: 42.0 g", "5: 2", "6: 2 L", "7: inside"));
    EXPECT_THAT(hints(client, "a.jarful", 3, 3), ElementsAre("3: 108.0 g"));
    EXPECT_EQ(lens(client, "a.jarful"), "SALT 2.2 % of the vegetables, inside the published range");
}

TEST(InlayHint, isBehindEveryWorkingValueHoweverMany) {
    InKitchen client;
    client.start();
    std::string text = kraut;
    for (int i = 0; i < 900; ++i)
        text += "let v" + std::to_string(i) + " = " +
                (i == 0 ? "salt" : "v" + std::to_string(i - 1)) + " + 1 g\n";
    client.open("a.jarful", text);
    const auto shown = hints(client, "a.jarful", 0, 2000);
    EXPECT_THAT(shown, Contains("9: 43 g"));
    EXPECT_THAT(shown, Contains("908: 942 g"));
    // The number of a trace.
    EXPECT_THAT(hover(client, "a.jarful", 908, 5), HasSubstr("**v899**: 942 g"));
    EXPECT_EQ(shown.size(), 907U);
}

TEST(LanguageServer, countsPositionsBehindAByteOrderMark) {
    const std::string mark = "\xEF\xBB\xBF";
    InKitchen client;
    client.book.files["base.jarful"] = mark + "recipe \"B\"\n";
    client.book.files["a.jarful"] = mark + "recipe \"A\"\nbased on \"base\"\n";
    client.start({{"textDocument", {{"publishDiagnostics", {{"relatedInformation", true}}}}}});
    client.open("a.jarful", client.book.files["a.jarful"]);
    EXPECT_EQ(client
                  .result("textDocument/semanticTokens/full",
                          {{"textDocument", LanguageClient::document("a.jarful")}})
                  .at("data"),
              Json({0, 1, 6, 0, 0, 0, 7, 3, 7, 0, 1, 0, 5, 0, 0, 0, 6, 2, 0, 0, 0, 3, 6, 7, 0}));
    client.book.files["base.jarful"] = mark + "given cabbage = slt\nrecipe \"B\"\n";
    client.change("a.jarful", {{{"text", client.book.files["a.jarful"]}}});
    const Json found = client.published("a.jarful");
    ASSERT_FALSE(found.empty());
    EXPECT_EQ(found[0].at("relatedInformation").at(0).at("location").at("range"),
              LanguageClient::range(0, 17, 0, 20))
        << found.dump(2);
}

/// One scale, by which the nearest reading of these two would not do: it is moved to keep the salt,
/// and a bound of the cook's own.
constexpr const char* coarse = "kitchen \"Ours\"\nscale bench reads 1 g up to 5 kg\n";
constexpr const char* kept_by_kind = "recipe \"K\"\n"
                                     "kind kraut\n"
                                     "given cabbage = 1.82 kg\n"
                                     "weigh salt = 2 % of cabbage as fine sea salt\n";
constexpr const char* kept_by_hold = "recipe \"H\"\n"
                                     "given cabbage = 1.83 kg\n"
                                     "weigh salt = 2 % of cabbage as fine sea salt\n"
                                     "hold salt / cabbage at least 2 %\n";

/// That the hints of a recipe with a line added to it are the readings of weigh without it.
void is_weighed(const char* scales, const char* recipe, const char* more) {
    using namespace jarful;
    language::Findings findings;
    const auto read = [&](const char* text) {
        return language::parse(*language::read_source("x", text, findings), findings);
    };
    const kitchen::Kitchen own = kitchen::read_kitchen(read(scales), findings);
    plan::RequestFindings none;
    const auto out = plan::weigh(read(recipe), own, {}, findings, none);
    ASSERT_TRUE(out);
    LanguageClient client;
    client.book.files["kitchen.jarful"] = scales;
    client.start();
    client.open("a.jarful", std::string(recipe) + more);
    const auto shown = hints(client, "a.jarful");
    for (const plan::Item& item : out->items)
        EXPECT_THAT(shown, Contains(HasSubstr(
                               render::reading_words(item.reading_g, item.step_g, out->shown))))
            << item.name << " of " << recipe << more;
}

TEST(InlayHint, isTheNumberOfWeigh) {
    is_weighed(kitchen, kraut, "");
    for (const char* recipe : {kept_by_kind, kept_by_hold})
        for (const char* more : {"", "rest 3\n", "step \"x {slt}\"\n", "note\n", "tend x\n"})
            is_weighed(coarse, recipe, more);
    LanguageClient client;
    client.book.files["kitchen.jarful"] = coarse;
    client.start();
    client.open("a.jarful", kept_by_kind);
    EXPECT_THAT(hints(client, "a.jarful"), Contains("3: 38 g"));
    client.open("a.jarful", kept_by_hold);
    EXPECT_THAT(hints(client, "a.jarful"), Contains("2: 39 g"));
}

TEST(InlayHint, staysWhereAnotherLineIsAtFault) {
    InKitchen client;
    client.start();
    std::string text = kraut;
    client.open("a.jarful", text.replace(text.find("6 % of cabbage"), 14, "6 % of"));
    // The salt depends on the carrot; nothing is judged, and no reading can be chosen by it.
    EXPECT_THAT(hints(client, "a.jarful"), ElementsAre("2: 1800 g", "5: 2", "6: 2 L"));
    EXPECT_EQ(lens(client, "a.jarful"), "not judged: 1 fault");
    // A line of the method goes into no jar, but there is no verdict while anything is at fault.
    text = kraut;
    client.open("a.jarful", text + "rest 3\n");
    EXPECT_THAT(hints(client, "a.jarful"),
                ElementsAre("2: 1800 g", "3: 108.0 g", "4: 42.0 g", "5: 2", "6: 2 L"));
    EXPECT_THAT(lens(client, "a.jarful"), HasSubstr("not judged"));
    // What counts everything may not be shown without a part of it.
    client.open("a.jarful", text + "let all = everything\nweigh pear = 3 % of\n");
    EXPECT_THAT(hints(client, "a.jarful"), Not(Contains(HasSubstr("9:"))));
    // A material that cannot be read may be one that is used.
    client.open("a.jarful", text + "material \"fine sea salt\" is slt\n");
    EXPECT_THAT(hints(client, "a.jarful"), ElementsAre());
    // Nothing is known of a kitchen at fault.
    client.open("a.jarful", kraut);
    client.open("kitchen.jarful", "kitchen \"Ours\"\nscale x\n");
    EXPECT_THAT(hints(client, "a.jarful"), ElementsAre());
}

TEST(InlayHint, isOfTheLinesOfTheFileItself) {
    InKitchen client;
    client.book.files["base.jarful"] = kraut;
    client.start();
    client.open("top.jarful", "recipe \"Top\"\nbased on \"base\"\nweigh dill = 1 % of cabbage as "
                              "fresh dill\n");
    EXPECT_THAT(hints(client, "top.jarful"), ElementsAre("2: 18.0 g"));
    EXPECT_THAT(lens(client, "top.jarful"), HasSubstr("inside the published range"));
}

/// The demo book, each recipe by its file's name.
std::map<std::string, std::string> demo_book() {
    std::map<std::string, std::string> out;
    for (const auto& entry : std::filesystem::directory_iterator(JARFUL_SOURCE_DIR "/recipes")) {
        if (entry.path().extension() != ".jarful") continue;
        std::ifstream file(entry.path(), std::ios::binary);
        std::ostringstream all;
        all << file.rdbuf();
        out[entry.path().filename().string()] = all.str();
    }
    return out;
}

/// A line made faulty; empty for one that stays as it is.
std::string broken(const std::string& line) {
    const std::string word = line.substr(0, line.find(' '));
    const std::size_t equals = line.find('=');
    if (word.empty() || word == "recipe" || word == "based" || word[0] == '#') return {};
    const std::size_t at = equals == std::string::npos ? word.size() : equals + 1;
    return line.substr(0, at) + " ?" + line.substr(at);
}

/// With a fault in each of its lines, and with each of some faulty lines below it, a recipe has no
/// hint that it has not when it is sound; how many it has.
std::size_t never_another_number(LanguageClient& client, const std::string& path,
                                 const std::string& text) {
    client.open(path, text);
    const auto sound = hints(client, path);
    std::size_t kept = 0;
    const auto look = [&](const std::string& faulty, const std::string& where) {
        client.open(path, faulty);
        EXPECT_NE(client.published(path), Json::array()) << path << ": " << where;
        for (const std::string& one : hints(client, path)) {
            EXPECT_THAT(sound, Contains(one)) << path << " with a fault in " << where;
            ++kept;
        }
    };
    for (std::size_t at = 0; at < text.size(); at = text.find('\n', at) + 1) {
        const std::size_t end = text.find('\n', at);
        if (end == std::string::npos) break;
        const std::string line = text.substr(at, end - at);
        const std::string faulty = broken(line);
        if (!faulty.empty()) look(text.substr(0, at) + faulty + text.substr(end), line);
    }
    for (const char* more : {"rest 3\n", "step \"x {slt}\"\n", "step \"x\nkind\n", "wegh x = 1 g\n",
                             "fill 3\n", "hold\n", "kind nothing\n", "hold slt at most 3 g\n"})
        look(text + more, more);
    client.open(path, text);
    return kept;
}

TEST(InlayHint, isNeverAnotherNumberWhileALineIsAtFault) {
    LanguageClient client;
    client.book.files = demo_book();
    client.start();
    std::size_t kept = 0;
    for (const auto& [path, text] : client.book.files)
        if (path != "kitchen.jarful" && path != "house.jarful")
            kept += never_another_number(client, path, text);
    EXPECT_GT(kept, 1000U);
    // Where the nearest reading is not the one to weigh.
    LanguageClient small;
    small.book.files["kitchen.jarful"] = coarse;
    small.start();
    const std::string more = "weigh half = salt / 2 as coarse sea salt\nlet all = salt + half\n"
                             "let twice = cabbage * 2\n";
    for (const std::string recipe : {kept_by_kind, kept_by_hold}) {
        EXPECT_GE(never_another_number(small, "a.jarful", recipe), 10U);
        EXPECT_GE(never_another_number(small, "a.jarful", recipe + more), 10U);
    }
    small.open("a.jarful", std::string(kept_by_kind) + more + "kind ?\n");
    EXPECT_THAT(hints(small, "a.jarful"), ElementsAre("2: 1820 g", "6: 3.64 kg"));
}

TEST(Hover, tellsWhatStandsThere) {
    InKitchen client;
    client.start();
    client.open("a.jarful", kraut);
    const std::string salt = hover(client, "a.jarful", 4, 8);
    EXPECT_THAT(salt, HasSubstr("**salt**: 42 g"));
    EXPECT_THAT(salt, HasSubstr("42.0 g on \"pocket\""));
    EXPECT_THAT(salt, HasSubstr("What makes it unsure"));
    EXPECT_EQ(hover(client, "a.jarful", 8, 13), salt); // in the braces of a text
    EXPECT_THAT(hover(client, "a.jarful", 4, 52), HasSubstr("**fine sea salt**, salt"));
    EXPECT_THAT(hover(client, "a.jarful", 4, 52), HasSubstr("g/mL"));
    EXPECT_THAT(hover(client, "a.jarful", 1, 8), HasSubstr("at least: 2 %"));
    EXPECT_THAT(hover(client, "a.jarful", 1, 8), HasSubstr("This recipe: SALT 2.2 %"));
    EXPECT_THAT(hover(client, "a.jarful", 4, 1), HasSubstr("Goes on a scale"));
    EXPECT_THAT(hover(client, "a.jarful", 4, 24), HasSubstr("Multiplies"));
    EXPECT_THAT(hover(client, "a.jarful", 2, 22), HasSubstr("**kg**"));
    EXPECT_THAT(hover(client, "a.jarful", 6, 28), HasSubstr("**packed**"));
    EXPECT_EQ(hover(client, "a.jarful", 8, 9), ""); // plain words of a text
    EXPECT_EQ(hover(client, "a.jarful", 4, 15), "");
}

TEST(Hover, saysNoReadingThatMayBeMoved) {
    LanguageClient client;
    client.book.files["kitchen.jarful"] = coarse;
    client.start();
    client.open("a.jarful", std::string(kept_by_kind) + "rest 3\n");
    EXPECT_THAT(hover(client, "a.jarful", 3, 7), HasSubstr("38 g on \"bench\""));
    EXPECT_THAT(hover(client, "a.jarful", 3, 7), HasSubstr("no number here depends on them"));
    client.open("a.jarful", std::string(kept_by_kind) + "weigh dill =\n");
    const std::string salt = hover(client, "a.jarful", 3, 7);
    EXPECT_THAT(salt, HasSubstr("by its line alone 36.4 g"));
    EXPECT_THAT(salt, HasSubstr("what the scale is to show may depend on them"));
    EXPECT_THAT(salt, Not(HasSubstr("bench")));
    EXPECT_THAT(hover(client, "a.jarful", 2, 7), HasSubstr("1820 g on \"bench\""));
}

TEST(Hover, knowsEveryWordOfTheLanguage) {
    using namespace jarful;
    for (const language::StatementWord& one : language::statement_words())
        EXPECT_NE(assist::statement_meaning(one.word), "") << one.word;
    // Behind the first word of a line.
    for (const std::string_view word : language::reserved_words()) {
        if (language::find_statement_word(word) != nullptr) continue;
        EXPECT_NE(assist::word_meaning(word), "") << word;
    }
    for (const auto words : {language::role_words(), language::task_words()})
        for (const std::string_view word : words)
            EXPECT_NE(assist::word_meaning(word), "") << word;
}

TEST(Hover, isPlainForWhoReadsNoMarkdown) {
    InKitchen client;
    client.start(
        {{"textDocument",
          {{"hover", {{"contentFormat", {"plaintext"}}}},
           {"completion", {{"completionItem", {{"documentationFormat", {"plaintext"}}}}}}}}});
    client.open("a.jarful", kraut);
    const Json found =
        client.result("textDocument/hover", LanguageClient::at("a.jarful", 4, 1)).at("contents");
    EXPECT_EQ(found.at("kind"), "plaintext");
    EXPECT_EQ(found.at("value"), "weigh: Goes on a scale. A volume is made a weight by its "
                                 "material's density.\n\n"
                                 "weigh NAME = 2.2 % of OTHER as MATERIAL \"LABEL\"\n");
    const std::string salt = hover(client, "a.jarful", 4, 8);
    EXPECT_THAT(salt, HasSubstr("salt: 42 g"));
    EXPECT_THAT(salt, Not(HasSubstr("**")));
    for (const Json& one :
         client.result("textDocument/completion", LanguageClient::at("a.jarful", 1, 7))
             .at("items")) {
        EXPECT_EQ(one.at("documentation").at("kind"), "plaintext");
        EXPECT_THAT(one.at("documentation").at("value").get<std::string>(), Not(HasSubstr("**")));
    }
}

std::vector<std::string> labels(const Json& completion) {
    std::vector<std::string> out;
    for (const Json& one : completion.at("items"))
        out.push_back(one.at("label"));
    return out;
}

/// What is offered at the end of a line below a recipe.
std::vector<std::string> offered(const std::string& line, const std::string& head = kraut) {
    InKitchen client;
    client.book.files["base.jarful"] = kraut;
    client.book.files["batches/one.jarful"] = "batch \"One\" of \"base\"\n";
    client.start({{"general", {{"positionEncodings", {"utf-8"}}}}});
    client.open("a.jarful", head + line + "\n");
    const auto rows = static_cast<int>(std::count(head.begin(), head.end(), '\n'));
    return labels(
        client.result("textDocument/completion",
                      LanguageClient::at("a.jarful", rows, static_cast<int>(line.size()))));
}

TEST(Completion, offersWhatMayStandThere) {
    EXPECT_THAT(offered(""), Contains("weigh"));
    EXPECT_THAT(offered("we"), Contains("weigh"));
    EXPECT_THAT(offered(""), Not(Contains("scale")));
    EXPECT_THAT(offered("", "kitchen \"K\"\n"), Contains("scale"));
    EXPECT_THAT(offered("", "kitchen \"K\"\n"), Not(Contains("weigh")));
    EXPECT_THAT(offered("weigh dill"), ElementsAre()); // a new name is nobody's to offer
    EXPECT_THAT(offered("weigh dill = 2 "), Contains("kg"));
    EXPECT_THAT(offered("weigh dill = 2k"), Contains("kg"));
    EXPECT_THAT(offered("weigh dill = 2 % of "), Contains("cabbage"));
    EXPECT_THAT(offered("weigh dill = 2 % of "), Contains("packed")); // of the kitchen
    EXPECT_THAT(offered("weigh dill = 2 % of "), Contains("all_produce"));
    EXPECT_THAT(offered("weigh dill = 2 % of "), Not(Contains("kg")));
    EXPECT_THAT(offered("weigh dill = 2 g as "), Contains("fresh dill"));
    EXPECT_THAT(offered("weigh dill = 2 g as fresh d"), Contains("fresh dill"));
    EXPECT_THAT(
        offered("weigh dill = 2 g counts as "),
        ElementsAre("vegetable", "salt", "water", "aromatic", "seasoning", "acid", "other"));
    EXPECT_THAT(offered("kind "), Contains("kimchi"));
    EXPECT_THAT(offered("kind green-beans "), Contains("dry-salted"));
    EXPECT_THAT(offered("tend "), Contains("burp"));
    EXPECT_THAT(offered("keep "), ElementsAre("cold", "cool"));
    EXPECT_THAT(offered("step \"Rub {"), Contains("salt"));
    EXPECT_THAT(offered("step \"Rub "), ElementsAre());
    EXPECT_THAT(offered("step "), ElementsAre());
    EXPECT_THAT(offered("# weigh "), ElementsAre());
    EXPECT_THAT(offered("based on \"", "recipe \"A\"\n"), ElementsAre("base"));
    EXPECT_THAT(offered("without ", "recipe \"A\"\nbased on \"base\"\n"),
                ElementsAre("cabbage", "carrot", "salt", "bay", "space"));
    EXPECT_THAT(offered("let x = ro"), Contains("round"));
    EXPECT_THAT(offered("rest "), ElementsAre());
    EXPECT_THAT(offered("rest 30 "), Contains("min"));
    EXPECT_THAT(offered("rest 30 "), Not(Contains("cabbage")));
    EXPECT_THAT(offered("language "), ElementsAre());
    EXPECT_THAT(offered("room ", "kitchen \"K\"\n"), ElementsAre());
    EXPECT_THAT(offered("room 19 ", "kitchen \"K\"\n"), Contains("°C"));
    EXPECT_THAT(offered("headspace "), ElementsAre("space", "packed"));
}

TEST(Completion, putsItsWordsInTheRightPlace) {
    InKitchen client;
    client.start();
    client.open("a.jarful", std::string(kraut) + "weigh d = 2 g as fresh di\n");
    const Json found =
        client.result("textDocument/completion", LanguageClient::at("a.jarful", 9, 25));
    const auto labelled = labels(found);
    ASSERT_THAT(labelled, Contains("fresh dill"));
    for (const Json& one : found.at("items")) {
        if (one.at("label") != "fresh dill") continue;
        EXPECT_EQ(one.at("textEdit"), (Json{{"range", LanguageClient::range(9, 17, 9, 25)},
                                            {"newText", "fresh dill"}}));
    }
    // Places to fill in only for who can do that.
    EXPECT_THAT(found.dump(), Not(HasSubstr("${1")));
    InKitchen modern;
    modern.start(
        {{"textDocument", {{"completion", {{"completionItem", {{"snippetSupport", true}}}}}}}});
    modern.open("a.jarful", "recipe \"A\"\n\n");
    EXPECT_THAT(
        modern.result("textDocument/completion", LanguageClient::at("a.jarful", 1, 0)).dump(),
        HasSubstr("weigh ${1:NAME} = 2.2 % of ${2:OTHER}"));
}

TEST(SignatureHelp, knowsFunctionAndValue) {
    InKitchen client;
    client.start();
    client.open("a.jarful", std::string(kraut) + "let x = round(cabbage / (3 + 1), 5 g)\n");
    const auto at = [&](int character) {
        return client.result("textDocument/signatureHelp",
                             LanguageClient::at("a.jarful", 9, character));
    };
    EXPECT_EQ(at(14).at("activeParameter"), 0);
    EXPECT_EQ(at(14).at("signatures").at(0).at("label"), "round(A, STEP)");
    EXPECT_EQ(at(27).at("activeParameter"), 0);
    EXPECT_EQ(at(33).at("activeParameter"), 1);
    EXPECT_TRUE(at(7).is_null());
    EXPECT_TRUE(at(37).is_null());
}

} // namespace
