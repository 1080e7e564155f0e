#include "engine/assist/text.hpp"
#include "tests/support/language_client.hpp"

#include <gmock/gmock.h>

/// The life of a language server, and what it says of a text by itself.
namespace {

using jarful::test::LanguageClient;
using Json = LanguageClient::Json;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

constexpr const char* kraut = "recipe \"Kraut\"\n"
                              "kind   kraut\n"
                              "given  cabbage = 1.80 kg\n"
                              "weigh  salt    = 2.2 % of cabbage   as fine sea salt\n";

std::vector<std::string> codes(const Json& diagnostics) {
    std::vector<std::string> out;
    for (const Json& one : diagnostics)
        out.push_back(one.at("code"));
    return out;
}

int error_code(const Json& answer) {
    return answer.contains("error") ? answer.at("error").at("code").get<int>() : 0;
}

TEST(LanguageServer, agreesOnHowPositionsAreCounted) {
    LanguageClient plain;
    EXPECT_EQ(plain.start().at("capabilities").at("positionEncoding"), "utf-16");
    LanguageClient modern;
    const Json said = modern.start({{"general", {{"positionEncodings", {"utf-16", "utf-8"}}}}});
    EXPECT_EQ(said.at("capabilities").at("positionEncoding"), "utf-8");
}

TEST(LanguageServer, beginsAndEndsInOrder) {
    LanguageClient client;
    EXPECT_EQ(error_code(client.ask("textDocument/hover", Json::object())), -32002);
    client.start();
    EXPECT_EQ(error_code(client.ask("initialize", {{"capabilities", Json::object()}})), -32600);
    EXPECT_TRUE(client.result("shutdown", nullptr).is_null());
    EXPECT_EQ(error_code(client.ask("textDocument/hover", Json::object())), -32600);
    EXPECT_FALSE(client.server.ended());
    client.tell("exit", nullptr);
    EXPECT_TRUE(client.server.ended());
    EXPECT_TRUE(client.server.ended_well());

    LanguageClient rude;
    rude.start();
    rude.tell("exit", nullptr);
    EXPECT_TRUE(rude.server.ended());
    EXPECT_FALSE(rude.server.ended_well());
}

TEST(LanguageServer, answersRubbishWithErrors) {
    LanguageClient client;
    client.start();
    client.said.clear();
    for (const char* rubbish :
         {"", "{", "[]", "3", "\"x\"", "{}", "{\"id\": {}}", "{\"id\": 1}",
          "{\"id\": [1], \"method\": \"shutdown\"}", "{\"method\": 3}", "\xff\xfe", "null"})
        client.server.receive(rubbish);
    client.server.receive(std::string(100'000, '['));
    client.run();
    EXPECT_EQ(client.said.size(), 13U);
    for (const Json& one : client.said)
        EXPECT_TRUE(error_code(one) == -32700 || error_code(one) == -32600) << one.dump();
    EXPECT_EQ(error_code(client.ask("textDocument/nothing", Json::object())), -32601);
    EXPECT_EQ(error_code(client.ask("textDocument/hover", Json::object())), -32602);
    EXPECT_EQ(error_code(client.ask("textDocument/hover", Json::array({1}))), -32602);
    client.open("a.jarful", kraut);
    EXPECT_EQ(error_code(client.ask("textDocument/hover", LanguageClient::at("a.jarful", -1, 0))),
              -32602);
    // Notifications that nobody knows, or that are not as they should be, are passed over.
    const std::size_t before = client.said.size();
    client.tell("$/something", nullptr);
    client.tell("textDocument/didOpen", {{"textDocument", 3}});
    client.tell("textDocument/didChange", Json::object());
    EXPECT_EQ(client.said.size(), before);
    EXPECT_TRUE(
        client.result("textDocument/hover", LanguageClient::at("a.jarful", 99, 99)).is_null());
}

TEST(LanguageServer, cancelsWhatWaits) {
    LanguageClient client;
    client.start();
    client.open("a.jarful", kraut);
    client.said.clear();
    for (const int id : {101, 102})
        client.send({{"id", id},
                     {"method", "textDocument/hover"},
                     {"params", LanguageClient::at("a.jarful", 2, 9)}});
    client.send({{"method", "$/cancelRequest"}, {"params", {{"id", 101}}}});
    client.run();
    ASSERT_EQ(client.said.size(), 2U);
    EXPECT_EQ(error_code(client.said[0]), -32800);
    EXPECT_EQ(client.said[0].at("id"), 101);
    EXPECT_TRUE(client.said[1].contains("result"));
}

TEST(LanguageServer, saysWhatCheckSays) {
    LanguageClient client;
    client.start();
    client.open("a.jarful", kraut);
    EXPECT_EQ(client.published("a.jarful"), Json::array());
    client.change("a.jarful", {{{"text", std::string(kraut) + "let x = 2 % of cabbge\n"}}});
    const Json found = client.published("a.jarful");
    ASSERT_EQ(codes(found), std::vector<std::string>{"unknown-name"});
    EXPECT_EQ(found[0].at("message"),
              "There is nothing called \"cabbge\" here.\nDid you mean \"cabbage\"?");
    EXPECT_EQ(found[0].at("range"), LanguageClient::range(4, 15, 4, 21));
    EXPECT_EQ(found[0].at("severity"), 1);
    EXPECT_EQ(found[0].at("source"), "jarful");
    client.tell("textDocument/didClose", {{"textDocument", LanguageClient::document("a.jarful")}});
    EXPECT_EQ(client.published("a.jarful"), Json::array());
}

TEST(LanguageServer, takesChangesPieceByPiece) {
    LanguageClient client;
    client.start();
    client.open("a.jarful", kraut);
    // Twice in one message: the second counts in the text that the first has made.
    client.change("a.jarful", {{{"range", LanguageClient::range(3, 17, 3, 20)}, {"text", "9 é"}},
                               {{"range", LanguageClient::range(3, 19, 3, 20)}, {"text", "%"}},
                               {{"range", LanguageClient::range(3, 20, 3, 22)}, {"text", ""}}});
    EXPECT_EQ(client.published("a.jarful"), Json::array());
    const Json lens = client.result("textDocument/codeLens",
                                    {{"textDocument", LanguageClient::document("a.jarful")}});
    EXPECT_THAT(lens.at(0).at("command").at("title").get<std::string>(),
                HasSubstr("9 % of the vegetables, ABOVE the published range"));
}

TEST(LanguageServer, looksOnceAtWhatIsTypedFast) {
    LanguageClient client;
    client.start();
    client.open("a.jarful", "recipe \"A\"\n");
    client.said.clear();
    for (const char* text : {"recipe \"A\"\nx", "recipe \"A\"\nxy", "recipe \"A\"\nxyz"})
        client.send({{"method", "textDocument/didChange"},
                     {"params",
                      {{"textDocument", LanguageClient::document("a.jarful")},
                       {"contentChanges", {{{"text", text}}}}}}});
    client.run();
    ASSERT_EQ(client.said.size(), 1U);
    EXPECT_THAT(client.said[0].dump(), HasSubstr("xyz"));
}

TEST(LanguageServer, countsWhatIsNotSavedOfOtherFiles) {
    LanguageClient client;
    client.book.files["kitchen.jarful"] = "kitchen \"Ours\"\nscale fine reads 0.1 g up to 3 kg\n";
    client.book.files["base.jarful"] = kraut;
    client.start();
    client.open("top.jarful", "recipe \"Top\"\nbased on \"base\"\nlet x = 2 * salt\n");
    EXPECT_EQ(client.published("top.jarful"), Json::array());
    // The base loses a line in the editor, not on the disk.
    client.open("base.jarful", "recipe \"Kraut\"\ngiven cabbage = 1 kg\n");
    EXPECT_EQ(codes(client.published("top.jarful")), std::vector<std::string>{"unknown-name"});
    client.open("kitchen.jarful", "kitchen \"Ours\"\nscale fine reads\n");
    EXPECT_THAT(client.published("kitchen.jarful").dump(), HasSubstr("expected"));
    EXPECT_THAT(client.published("top.jarful").dump(), HasSubstr("faulty-kitchen"));
    client.tell("textDocument/didClose",
                {{"textDocument", LanguageClient::document("kitchen.jarful")}});
    client.tell("textDocument/didClose",
                {{"textDocument", LanguageClient::document("base.jarful")}});
    EXPECT_EQ(client.published("top.jarful"), Json::array());
}

TEST(LanguageServer, showsFaultsOfABaseWhereItIsNamed) {
    LanguageClient client;
    client.book.files["base.jarful"] = "recipe \"Base\"\nlet y = 1,5 kg\n";
    client.start({{"textDocument", {{"publishDiagnostics", {{"relatedInformation", true}}}}}});
    client.open("top.jarful", "recipe \"Top\"\nbased on \"base\"\n");
    const Json found = client.published("top.jarful");
    ASSERT_THAT(codes(found), ElementsAre("faulty-base", "decimal-comma"));
    EXPECT_EQ(found[1].at("range"), LanguageClient::range(1, 9, 1, 15));
    const Json& there = found[1].at("relatedInformation").at(0).at("location");
    EXPECT_EQ(there.at("uri"), LanguageClient::uri("base.jarful"));
    EXPECT_EQ(there.at("range"), LanguageClient::range(1, 8, 1, 11));
}

TEST(LanguageServer, tidies) {
    LanguageClient client;
    client.start();
    client.open("a.jarful", "recipe \"A\"\n\ngiven x=1kg\nlet y = 2\n");
    const Json params{{"textDocument", LanguageClient::document("a.jarful")},
                      {"options", {{"tabSize", 4}, {"insertSpaces", true}}}};
    const Json edits = client.result("textDocument/formatting", params);
    ASSERT_EQ(edits.size(), 1U) << edits.dump();
    EXPECT_EQ(edits[0].at("newText"), "given  x = 1 kg\nlet    y = 2\n");
    EXPECT_EQ(edits[0].at("range"), LanguageClient::range(2, 0, 4, 0));
    client.change("a.jarful", Json::array({Json{{"range", edits[0].at("range")},
                                                {"text", edits[0].at("newText")}}}));
    EXPECT_EQ(client.result("textDocument/formatting", params), Json::array());
    // What cannot be read stays as it is, and so does a record.
    client.open("a.jarful", "recipe \"A\"\nlet y = = 2\n");
    EXPECT_TRUE(client.result("textDocument/formatting", params).is_null());
    client.open("a.jarful", "batch \"A\" of \"a\"\nbegun   2026-11-25\n");
    EXPECT_TRUE(client.result("textDocument/formatting", params).is_null());
}

/// The texts that quick fixes make of a text with one fault.
std::vector<std::string> mended(const std::string& text) {
    LanguageClient client;
    client.start();
    client.open("a.jarful", text);
    std::vector<std::string> out;
    const Json actions = client.result("textDocument/codeAction",
                                       {{"textDocument", LanguageClient::document("a.jarful")},
                                        {"range", LanguageClient::range(0, 0, 99, 0)},
                                        {"context", {{"diagnostics", Json::array()}}}});
    for (const Json& action : actions) {
        const Json& edit =
            action.at("edit").at("changes").at(LanguageClient::uri("a.jarful")).at(0);
        LanguageClient other;
        other.start();
        other.open("a.jarful", text);
        other.change("a.jarful", {{{"range", edit.at("range")}, {"text", edit.at("newText")}}});
        jarful::assist::Text changed(text);
        const auto place = [&](const char* end) {
            const Json& at = edit.at("range").at(end);
            return jarful::assist::Position{at.at("line").get<std::uint32_t>(),
                                            at.at("character").get<std::uint32_t>()};
        };
        changed.replace({place("start"), place("end")}, jarful::assist::Encoding::utf16,
                        edit.at("newText").get<std::string>());
        EXPECT_EQ(other.published("a.jarful"), Json::array())
            << changed.raw() << other.published("a.jarful").dump(2);
        out.push_back(changed.raw());
    }
    return out;
}

TEST(QuickFix, doesWhatTheAdviceSays) {
    const std::string head = "recipe \"A\"\ngiven cabbage = 1 kg\ngiven carrot = 1 kg\n";
    const auto fixed = [&](const std::string& line) {
        std::vector<std::string> out;
        for (const std::string& text : mended(head + line + "\n"))
            out.push_back(text.substr(head.size(), text.size() - head.size() - 1));
        return out;
    };
    EXPECT_THAT(
        fixed("let x = 2.2 % of cabbage + carrot"),
        ElementsAre("let x = 2.2 % of (cabbage + carrot)", "let x = (2.2 % of cabbage) + carrot"));
    EXPECT_THAT(fixed("let x = cabbage / 2 of 5"),
                ElementsAre("let x = (cabbage / 2) of 5", "let x = cabbage / (2 of 5)"));
    EXPECT_THAT(fixed("let x = cabage"), ElementsAre("let x = cabbage"));
    EXPECT_THAT(fixed("let x = 1,5 kg"), ElementsAre("let x = 1.5 kg"));
    EXPECT_THAT(fixed("let x = .5 kg"), ElementsAre("let x = 0.5 kg"));
    EXPECT_THAT(fixed("let x = 2-3"), ElementsAre("let x = 2..3", "let x = 2 - 3"));
    EXPECT_THAT(fixed("let x = 3 gramms"), ElementsAre("let x = 3 grams"));
    EXPECT_THAT(fixed("let x = 3 cabbage"), ElementsAre("let x = 3 * cabbage"));
    EXPECT_THAT(fixed("let x = roud(3)"), ElementsAre("let x = round(3)"));
    EXPECT_THAT(fixed("let x = (3"), ElementsAre("let x = (3)"));
    EXPECT_THAT(fixed("let x = 3)"), ElementsAre("let x = 3"));
    EXPECT_THAT(fixed("let x = 3 − 2"), ElementsAre("let x = 3 - 2"));
    EXPECT_THAT(fixed("lett x = 3"), ElementsAre("let x = 3"));
    EXPECT_THAT(fixed("kind krout"), ElementsAre("kind kraut"));
    EXPECT_THAT(fixed("weigh pear = 1 % of cabbage as peer"),
                ::testing::Contains("weigh pear = 1 % of cabbage as pear"));
    EXPECT_THAT(fixed("weigh salt = 2.2 of cabbage as fine sea salt"),
                ElementsAre("weigh salt = 2.2 % of cabbage as fine sea salt"));
    EXPECT_THAT(fixed("weigh salt = 2 tbsp"),
                ::testing::Contains("weigh salt = 2 tbsp as fine sea salt"));
    EXPECT_THAT(fixed("given beet = 2"), ElementsAre("given beet = 2 g", "given beet = 2 kg"));
    EXPECT_THAT(fixed("let x = if 1 < 2 < 3 then 1 else 2"),
                ElementsAre("let x = if 1 < 2 and 2 < 3 then 1 else 2"));
}

TEST(QuickFix, isForTheFaultsInTheRangeAlone) {
    LanguageClient client;
    client.start();
    client.open("a.jarful", "recipe \"A\"\nlet x = 1,5 kg\nlet y = 2,5 kg\n");
    const auto asked = [&](Json range, Json context) {
        return client
            .result("textDocument/codeAction",
                    {{"textDocument", LanguageClient::document("a.jarful")},
                     {"range", std::move(range)},
                     {"context", std::move(context)}})
            .size();
    };
    const Json none{{"diagnostics", Json::array()}};
    EXPECT_EQ(asked(LanguageClient::range(1, 9, 1, 9), none), 1U);
    EXPECT_EQ(asked(LanguageClient::range(1, 0, 2, 14), none), 2U);
    EXPECT_EQ(asked(LanguageClient::range(0, 0, 0, 3), none), 0U);
    EXPECT_EQ(asked(LanguageClient::range(1, 9, 1, 9), {{"only", {"source.organizeImports"}}}), 0U);
}

} // namespace
