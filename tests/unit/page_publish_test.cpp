#include "engine/appraise/appraise.hpp"
#include "engine/page/publish.hpp"
#include "engine/page/web_files.hpp"
#include "engine/plan/packing.hpp"
#include "engine/render/mark.hpp"
#include "tests/support/recipe.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <sstream>

/// The texts of pages, before any browser sees them.
namespace {

using namespace jarful;
using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::Not;

std::string contents(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    EXPECT_TRUE(in) << path;
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
}

page::Published published(const std::string& name, const std::string& text,
                          const kitchen::Kitchen& kitchen = kitchen::default_kitchen()) {
    language::Findings findings;
    const language::Document recipe =
        test::read_recipe(*language::read_source("r", text, findings), findings);
    plan::RequestFindings found;
    auto weighed = plan::weigh(recipe, kitchen, {}, findings, found);
    EXPECT_TRUE(weighed) << name;
    page::Published out;
    out.name = name;
    out.texts.recipe = text;
    out.weighed = *weighed;
    out.card = render::make_card(*weighed, render::card_times(*weighed, std::nullopt, std::nullopt),
                                 render::Units::metric);
    return out;
}

const char* const hostile =
    "recipe \"</script><script>alert(1)</script><!--\" version 1\nkind kraut\n"
    "given cabbage = 1 kg \"</title><img src=x onerror=alert(2)>\"\n"
    "weigh salt = 2.2 % of cabbage as fine sea salt\n"
    "step \"<style>body</style> {salt} ]]> --> & ' \\\"\"\n";

/// Every start tag's name in a page, outside of scripts' and styles' own text.
std::vector<std::string> elements(std::string page) {
    // By hand: std::regex goes one call deeper for each letter of a script.
    for (const std::string_view tag : {"<script", "<style"}) {
        for (std::size_t at = 0; (at = page.find(tag, at)) != std::string::npos;) {
            at = std::min(page.find('>', at), page.size() - 1) + 1;
            page.erase(at, std::min(page.find('<', at), page.size()) - at);
        }
    }
    std::vector<std::string> out;
    const std::regex tag("<([a-zA-Z]+)");
    for (std::sregex_iterator i(page.begin(), page.end(), tag), end; i != end; ++i)
        out.push_back((*i)[1].str());
    return out;
}

/// What stands in a `script` element with so much in its start tag.
std::string script_of(const std::string& page, const std::string& mark) {
    const std::size_t tag = page.find(mark);
    if (tag == std::string::npos) return {};
    const std::size_t begin = page.find('>', tag) + 1;
    return page.substr(begin, page.find("</script>", begin) - begin);
}

TEST(PagePublish, nothingOfARecipeBecomesMarkup) {
    const auto plain = published("plain", "recipe \"Plain\" version 1\nkind kraut\n"
                                          "given cabbage = 1 kg \"cut\"\n"
                                          "weigh salt = 2.2 % of cabbage as fine sea salt\n"
                                          "step \"Rub {salt} in.\"\n");
    const auto bad = published("bad", hostile);
    const std::string page = page::single_page(bad, "\x1f\x8b engine");
    EXPECT_EQ(elements(page), elements(page::single_page(plain, "\x1f\x8b engine")));
    EXPECT_THAT(page, Not(HasSubstr("<script>alert")));
    // And it is all there: the recipe's own text for the engine, and its title for people.
    const json load = json::parse(script_of(page, "id=\"page-load\""));
    EXPECT_EQ(load.at("recipe"), hostile);
    EXPECT_EQ(json::parse(script_of(page, "ld+json")).at("name"),
              "</script><script>alert(1)</script><!--");
    for (const page::PageFile& file :
         page::book_pages({bad}, "<b>Book</b> & \"Sons\"", "\x1f\x8b engine")) {
        if (!file.name.ends_with(".html")) continue;
        EXPECT_THAT(file.content, Not(HasSubstr("<b>Book"))) << file.name;
        EXPECT_THAT(file.content, Not(HasSubstr("<script>"))) << file.name;
    }
}

TEST(PagePublish, aSinglePageAsksForNothing) {
    auto recipe = published("kraut", contents(JARFUL_SOURCE_DIR "/recipes/winter-kraut.jarful"));
    recipe.address.url = "https://garden.example/kraut.html";
    const std::string page = page::single_page(recipe, "\x1f\x8b engine");
    EXPECT_THAT(page, HasSubstr("default-src &#39;none&#39;"));
    EXPECT_THAT(page, HasSubstr("sha256-" + std::string(page::page_script().sha256)));
    EXPECT_THAT(page, HasSubstr("sha256-" + std::string(page::page_style().sha256)));
    EXPECT_THAT(page, Not(HasSubstr("unsafe-inline")));
    EXPECT_THAT(page, Not(HasSubstr(" src=")));
    EXPECT_THAT(page, Not(HasSubstr(" style=")));
    EXPECT_THAT(page, Not(HasSubstr("<link")));
    EXPECT_THAT(page, HasSubstr("https://garden.example/kraut.html</p>"));
    // As base64.b85encode of Python gives it, whose letters (RFC 1924) begin with the same ones.
    EXPECT_EQ(script_of(page, "page-engine"), "AB!MmZf9w3Wd");
    EXPECT_TRUE(page.starts_with("<!DOCTYPE html>\n"));
}

TEST(PagePublish, aBookIsWholeAndNamesItsFiles) {
    const auto one = published("one", "recipe \"One\" version 1\nkind kraut\ngiven cabbage = 1 kg\n"
                                      "weigh salt = 2 % of cabbage as fine sea salt\n");
    const auto two = published("zwei ä", "recipe \"Two\" version 1\nkind kraut\n"
                                         "given cabbage = 1 kg\n"
                                         "weigh salt = 3 % of cabbage as fine sea salt\n");
    const auto files = page::book_pages({one, two}, "Recipes of Quay Street", "\x1f\x8b engine");
    std::map<std::string, std::string> by_name;
    for (const page::PageFile& file : files) {
        // The engine is the module as it is, and its name says what is in it.
        const render::Mark mark = render::mark_in(file.content);
        const bool engine = file.name.starts_with("engine-");
        EXPECT_EQ(mark.state, engine ? render::Mark::State::none : render::Mark::State::sound)
            << file.name;
        EXPECT_EQ(mark.what, engine ? "" : file.what) << file.name;
        by_name[file.name] = file.content;
    }
    EXPECT_EQ(by_name.size(), files.size());
    EXPECT_THAT(by_name.at("index.html"), HasSubstr("href=\"one.html\""));
    EXPECT_THAT(by_name.at("index.html"), HasSubstr("href=\"zwei%20%C3%A4.html\""));
    EXPECT_THAT(by_name.at("zwei ä.html"), HasSubstr("content=\"worker.js\""));
    EXPECT_EQ(json::parse(by_name.at("manifest.webmanifest")).at("name"), "Recipes of Quay Street");
    const std::string& worker = by_name.at("worker.js");
    std::smatch list;
    ASSERT_TRUE(std::regex_search(worker, list, std::regex("const files = (\\[.*\\]);")));
    const json kept = json::parse(list[1].str());
    for (const auto& [name, content] : by_name)
        if (name != "worker.js" && name != "index.html") {
            EXPECT_THAT(kept, ::testing::Contains(json(page::in_address(name)))) << name;
        }
    // What has changed makes another worker, or nobody would get it.
    const auto again = page::book_pages({one, two}, "Recipes of Quay Street", "\x1f\x8b engine");
    const auto other = page::book_pages({one, two}, "Recipes", "\x1f\x8b engine");
    EXPECT_EQ(again.back().content, files.back().content);
    EXPECT_NE(other.back().content, files.back().content);
    EXPECT_EQ(files.back().name, "worker.js");
}

TEST(PagePublish, aCodeIsDrawnSquareBySquare) {
    auto recipe = published("kraut", contents(JARFUL_SOURCE_DIR "/recipes/winter-kraut.jarful"));
    recipe.address = {"https://garden.example/", render::SquareCode{2, {true, false, true, true}}};
    const std::string page = page::single_page(recipe, "\x1f\x8b");
    EXPECT_THAT(page, HasSubstr("d=\"M4 4h1v1h-1zM4 5h2v1h-2z\""));
    EXPECT_THAT(page, HasSubstr("viewBox=\"0 0 10 10\""));
}

/// schema.org data of the demo book, read back by `appraise`.
TEST(PagePublish, appraiseReadsTheRecipeDataBack) {
    const kitchen::Kitchen kitchen =
        test::kitchen_of(contents(JARFUL_SOURCE_DIR "/recipes/kitchen.jarful"));
    std::size_t inside = 0, all = 0;
    for (const auto& entry : std::filesystem::directory_iterator(JARFUL_SOURCE_DIR "/recipes")) {
        const std::string name = entry.path().stem().string();
        if (entry.path().extension() != ".jarful" || name == "kitchen") continue;
        const auto recipe = published(name, contents(entry.path().string()), kitchen);
        const std::string page = page::single_page(recipe, "\x1f\x8b");
        ASSERT_TRUE(appraise::is_page(page));
        const appraise::Page read = appraise::read_page(page);
        EXPECT_TRUE(read.from_data) << name;
        ASSERT_EQ(read.recipes.size(), 1U) << name;
        EXPECT_EQ(read.recipes[0].name, recipe.weighed.title);
        appraise::Request request;
        request.kind = recipe.weighed.kind;
        request.method = recipe.weighed.method;
        appraise::Refusal refusal;
        const auto appraisal = appraise::appraise(read.recipes[0].text, request, refusal);
        ASSERT_TRUE(appraisal) << name << refusal.message;
        ++all;
        if (appraisal->verdict == appraise::Verdict::inside) ++inside;
        // What cannot be told from a list of ingredients (what a rinse takes, how much of a brine
        // is poured) may be undecided; never is anything that is inside said to be outside.
        EXPECT_NE(appraisal->verdict, appraise::Verdict::below) << name;
        EXPECT_NE(appraisal->verdict, appraise::Verdict::above) << name;
        // Where all of it is salt by itself, it comes back to a tenth of a gram.
        double salt = 0;
        bool alone = recipe.weighed.stocks.empty();
        for (const plan::Item& item : recipe.weighed.items) {
            alone = alone && item.role != larder::Role::seasoning;
            if (item.role == larder::Role::salt) salt += item.reading_g;
        }
        if (alone && appraisal->salt_g) {
            EXPECT_NEAR(appraisal->salt_g->low, salt, 0.05) << name;
            EXPECT_NEAR(appraisal->salt_g->high, salt, 0.05) << name;
        }
    }
    EXPECT_GE(all, 19U);
    EXPECT_GE(inside, 12U);
}

} // namespace
