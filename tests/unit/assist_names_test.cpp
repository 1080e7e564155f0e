#include "tests/unit/assist_kitchen.hpp"

#include <gmock/gmock.h>

/// Names, and how a file is built up.
namespace {

using namespace jarful::test;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

/// Recipes that build on each other, one that does not, and a record.
class InFamily : public InKitchen {
  public:
    InFamily() {
        book.files["base.jarful"] = kraut;
        book.files["top.jarful"] =
            "recipe \"Top\"\nbased on \"base\"\nweigh salt = 2.4 % of cabbage as fine sea salt\n"
            "let half = salt / 2\n";
        book.files["other.jarful"] = "recipe \"Other\"\ngiven salt = 5 g as fine sea salt\n";
        book.files["record.jarful"] = "batch \"One\" of \"base\"\nplanned salt = 42 g\n";
        start();
    }
};

/// "FILE LINE:COLUMN" of locations.
std::vector<std::string> places(const Json& locations) {
    std::vector<std::string> out;
    for (const Json& one : locations) {
        const std::string uri = one.at("uri");
        const Json& start = one.at("range").at("start");
        out.push_back(uri.substr(uri.rfind('/') + 1) + " " + start.at("line").dump() + ":" +
                      start.at("character").dump());
    }
    return out;
}

TEST(Names, areFoundAcrossRecipesThatBuildOnEachOther) {
    InFamily client;
    const auto at = LanguageClient::at;
    EXPECT_THAT(
        places(Json::array({client.result("textDocument/definition", at("base.jarful", 8, 13))})),
        ElementsAre("base.jarful 4:7"));
    EXPECT_THAT(
        places(Json::array({client.result("textDocument/definition", at("top.jarful", 2, 24))})),
        ElementsAre("base.jarful 2:7"));
    EXPECT_THAT(
        places(Json::array({client.result("textDocument/definition", at("top.jarful", 1, 12))})),
        ElementsAre("base.jarful 0:0"));
    EXPECT_THAT(
        places(Json::array({client.result("textDocument/definition", at("base.jarful", 6, 28))})),
        ElementsAre("kitchen.jarful 3:4"));
    Json asked = at("top.jarful", 2, 7);
    asked["context"] = {{"includeDeclaration", true}};
    EXPECT_THAT(places(client.result("textDocument/references", asked)),
                ElementsAre("base.jarful 4:7", "base.jarful 7:7", "base.jarful 8:13",
                            "base.jarful 8:24", "top.jarful 2:6", "top.jarful 3:11"));
    asked["context"] = {{"includeDeclaration", false}};
    EXPECT_EQ(places(client.result("textDocument/references", asked)).size(), 4U);
    const Json marks = client.result("textDocument/documentHighlight", at("base.jarful", 2, 8));
    EXPECT_EQ(marks.size(), 6U);
    EXPECT_EQ(marks[0].at("kind"), 3);
    EXPECT_EQ(marks[1].at("kind"), 2);
}

TEST(Rename, changesEveryPlaceAndNoRecord) {
    InFamily client;
    Json asked = LanguageClient::at("top.jarful", 3, 12);
    asked["newName"] = "sea_salt";
    const Json changes = client.result("textDocument/rename", asked).at("changes");
    EXPECT_EQ(changes.size(), 2U) << changes.dump(2);
    EXPECT_EQ(changes.at(LanguageClient::uri("base.jarful")).size(), 4U);
    EXPECT_EQ(changes.at(LanguageClient::uri("top.jarful")).size(), 2U);
    // Afterwards everything is as sound as before.
    for (const auto& [uri, edits] : changes.items()) {
        const std::string path = uri.substr(uri.rfind('/') + 1);
        client.open(path, client.book.files[path]);
        Json backwards = Json::array();
        for (auto edit = edits.rbegin(); edit != edits.rend(); ++edit)
            backwards.push_back({{"range", edit->at("range")}, {"text", edit->at("newText")}});
        client.change(path, backwards);
    }
    EXPECT_EQ(client.published("top.jarful"), Json::array());
    EXPECT_EQ(client.published("base.jarful"), Json::array());
}

TEST(Rename, refusesWhatWouldChangeTheMeaning) {
    InFamily client;
    const auto refused = [&](const char* path, int line, int character, const char* name) {
        Json asked = LanguageClient::at(path, line, character);
        asked["newName"] = name;
        const Json answer = client.ask("textDocument/rename", asked);
        return answer.contains("error") ? answer.at("error").at("message").get<std::string>()
                                        : std::string();
    };
    EXPECT_THAT(refused("base.jarful", 4, 8, "2 salts"), HasSubstr("not written like a name"));
    EXPECT_THAT(refused("base.jarful", 4, 8, "brine"), HasSubstr("word of the language"));
    EXPECT_THAT(refused("base.jarful", 4, 8, "carrot"), HasSubstr("already"));
    EXPECT_THAT(refused("base.jarful", 4, 8, "packed"), HasSubstr("already")); // the kitchen's
    EXPECT_THAT(refused("base.jarful", 4, 8, "half"), HasSubstr("top.jarful"));
    EXPECT_THAT(refused("base.jarful", 1, 8, "x"), HasSubstr("No name"));
    EXPECT_EQ(refused("other.jarful", 1, 7, "half"), "");
    client.open("top.jarful", client.book.files["top.jarful"] + "let y = = salt\n");
    EXPECT_THAT(refused("base.jarful", 4, 8, "sea_salt"), HasSubstr("Mend the faults of top"));
    const Json ready =
        client.result("textDocument/prepareRename", LanguageClient::at("base.jarful", 4, 8));
    EXPECT_EQ(ready.at("placeholder"), "salt");
    EXPECT_EQ(ready.at("range"), LanguageClient::range(4, 7, 4, 11));
}

/// Makes the changes of a rename's answer; nothing of a refused one.
void make(LanguageClient& client, const Json& answer) {
    if (!answer.contains("result")) return;
    for (const auto& [uri, edits] : answer.at("result").at("changes").items()) {
        const std::string path = uri.substr(uri.rfind('/') + 1);
        client.open(path, client.book.files[path]);
        Json backwards = Json::array();
        for (auto edit = edits.rbegin(); edit != edits.rend(); ++edit)
            backwards.push_back({{"range", edit->at("range")}, {"text", edit->at("newText")}});
        client.change(path, backwards);
    }
}

/// The answer to a rename; what is behind the lines is the same before and after it.
Json renamed(LanguageClient& client, const std::string& path, int line, int character,
             const char* name) {
    client.open(path, client.book.files[path]);
    const auto before = hints(client, path);
    const std::string verdict = lens(client, path);
    Json asked = LanguageClient::at(path, line, character);
    asked["newName"] = name;
    Json answer = client.ask("textDocument/rename", asked);
    make(client, answer);
    EXPECT_EQ(hints(client, path), before) << name;
    EXPECT_EQ(lens(client, path), verdict) << name;
    client.open(path, client.book.files[path]);
    return answer;
}

std::string error_of(const Json& answer) {
    return answer.contains("error") ? answer.at("error").at("message").get<std::string>() : "";
}

TEST(Rename, leavesEveryLineMadeOfTheSame) {
    InKitchen client;
    client.book.files["a.jarful"] =
        "recipe \"A\"\nkind kraut\ngiven cabbage = 1.8 kg\nweigh carrot = 6 % of cabbage\n"
        "weigh salt = 2.2 % of (cabbage + carrot) as fine sea salt\n"
        "weigh thing = 5 g counts as other\n"
        "material \"turn root\" is vegetable water 90 %\n"
        "weigh turn_root = 100 g\n";
    client.start();
    for (const char* name : {"caraway", "water", "roots"})
        EXPECT_THAT(error_of(renamed(client, "a.jarful", 3, 8, name)),
                    HasSubstr("give it `as carrot` first"));
    EXPECT_THAT(error_of(renamed(client, "a.jarful", 5, 8, "water")),
                HasSubstr("\"water\" is a material, and the line \"thing\" does not say"));
    EXPECT_THAT(error_of(renamed(client, "a.jarful", 7, 8, "root")),
                HasSubstr("give it `as turn root` first"));
    // The same material, a line that says what it is, and one that is made of nothing known.
    EXPECT_EQ(error_of(renamed(client, "a.jarful", 3, 8, "carrots")), "");
    EXPECT_EQ(error_of(renamed(client, "a.jarful", 4, 8, "water")), "");
    EXPECT_EQ(error_of(renamed(client, "a.jarful", 5, 8, "something")), "");
}

TEST(Rename, findsBrinesOfTheBase) {
    InKitchen client;
    client.book.files["base.jarful"] =
        "recipe \"Base\"\ngiven cabbage = 1 kg\nbrine liquor = 5 % of water, make 1 L\n";
    client.book.files["top.jarful"] = "recipe \"Top\"\nbased on \"base\"\n"
                                      "weigh extra = 10 g as liquor\n"
                                      "weigh rain = 10 g as water\n";
    client.start();
    EXPECT_THAT(places(Json::array({client.result("textDocument/definition",
                                                  LanguageClient::at("top.jarful", 2, 23))})),
                ElementsAre("base.jarful 2:6"));
    Json asked = LanguageClient::at("base.jarful", 2, 8);
    asked["context"] = {{"includeDeclaration", true}};
    EXPECT_THAT(places(client.result("textDocument/references", asked)),
                ElementsAre("base.jarful 2:6", "top.jarful 2:22"));
    const Json answer = renamed(client, "top.jarful", 2, 23, "lake");
    EXPECT_EQ(error_of(answer), "");
    EXPECT_EQ(answer.at("result").at("changes").size(), 2U) << answer.dump(2);
    // A brine goes before a material.
    for (const char* name : {"fine_sea_salt", "vinegar"})
        EXPECT_THAT(error_of(renamed(client, "base.jarful", 2, 8, name)),
                    HasSubstr("is a material"));
}

TEST(Names, areTheSameInEveryFormOfUnicode) {
    InKitchen client;
    // One letter, or a letter and a mark above it.
    client.book.files["a.jarful"] = "recipe \"A\"\ngiven ka\u0308se = 1 kg as cabbage\n"
                                    "let half = ka\u0308se / 2\n";
    client.book.files["b.jarful"] =
        "recipe \"B\"\nbased on \"a\"\nlet third = ka\u0308se / 3\nlet more = k\u00e4se\n";
    client.start();
    Json asked = LanguageClient::at("b.jarful", 3, 12);
    asked["context"] = {{"includeDeclaration", true}};
    EXPECT_THAT(places(client.result("textDocument/references", asked)),
                ElementsAre("a.jarful 1:6", "a.jarful 2:11", "b.jarful 2:12", "b.jarful 3:11"));
    EXPECT_EQ(error_of(renamed(client, "a.jarful", 1, 7, "white")), "");
}

TEST(Outline, listsFoldsAndColours) {
    InFamily client;
    const Json document{{"textDocument", LanguageClient::document("base.jarful")}};
    std::vector<std::string> names;
    for (const Json& one : client.result("textDocument/documentSymbol", document))
        names.push_back(one.at("name"));
    EXPECT_THAT(names, ElementsAre("Kraut", "cabbage", "carrot", "salt", "bay", "space"));
    client.open("base.jarful", kraut);
    const Json found = client.result("workspace/symbol", {{"query", "SLT"}});
    EXPECT_EQ(places(Json::array({found.at(0).at("location")})),
              std::vector<std::string>{"base.jarful 4:0"});
    client.open("f.jarful", "# one\n# two\nrecipe \"F\"\ngiven x = 1 kg\n\nlet y = 1\n");
    EXPECT_EQ(client.result("textDocument/foldingRange",
                            {{"textDocument", LanguageClient::document("f.jarful")}}),
              Json::parse(R"([{"startLine": 0, "endLine": 1, "kind": "comment"},
                              {"startLine": 2, "endLine": 3}])"));
    client.open("g.jarful", "weigh äx = 2.2 % # c\n");
    // keyword, variable, operator, number, type, comment; ä is one unit.
    EXPECT_EQ(client
                  .result("textDocument/semanticTokens/full",
                          {{"textDocument", LanguageClient::document("g.jarful")}})
                  .at("data"),
              Json({0, 0, 5, 0, 0, 0, 6, 2, 1, 0, 0, 3, 1, 9, 0,
                    0, 2, 3, 3, 0, 0, 4, 1, 4, 0, 0, 2, 3, 8, 0}));
}

} // namespace
