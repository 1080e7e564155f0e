#include "engine/render/json_weigh.hpp"
#include "tests/support/recipe.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>

// One recipe weighed again and again must come out as if each request were the first, though only
// what depends on the change is computed again.

namespace jarful {
namespace {

std::string text_of(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
}

const std::filesystem::path book = std::filesystem::path(JARFUL_SOURCE_DIR) / "recipes";

/// Everything that can be said of a recipe, drawn at random: a little at a time, as a cook would.
class Conversation {
  public:
    Conversation(const language::Document& recipe, std::uint32_t seed)
        : draw_(seed) {
        for (const language::Line& line : recipe.lines) {
            const auto* q = std::get_if<language::Quantity>(&line.statement);
            if (q == nullptr) continue;
            using language::QuantityWord;
            if (q->word == QuantityWord::given || q->word == QuantityWord::total)
                givens_.push_back(q->name.value);
            else if (q->word == QuantityWord::weigh)
                weighed_.push_back(q->name.value);
            if (q->tail.optional) optional_.push_back(q->name.value);
        }
    }

    const plan::Request& next() {
        switch (number(0, 9)) {
        case 0:
            request_ = {};
            break;
        case 1:
            toggle(optional_);
            break;
        case 2:
            say("jar=" + one_of({"tall", "squat", "tall,squat", "tall,tall"}), request_.settings);
            break;
        case 3:
            say("fill=" + std::to_string(number(3, 30) / 10.0) + "L", request_.settings);
            break;
        case 4:
            weight(weighed_, request_.settings, 200);
            break;
        case 5:
            weight(weighed_, request_.poured, 100);
            break;
        case 6:
            request_.vessels = static_cast<plan::Request::Vessels>(number(0, 2));
            break;
        case 7:
            if (request_.settings.empty()) break;
            request_.settings.erase(request_.settings.begin() +
                                    number(0, static_cast<int>(request_.settings.size()) - 1));
            break;
        default:
            weight(givens_, request_.settings, 5000);
        }
        return request_;
    }

  private:
    int number(int low, int high) { return std::uniform_int_distribution(low, high)(draw_); }
    std::string one_of(const std::vector<std::string>& words) {
        return words[static_cast<std::size_t>(number(0, static_cast<int>(words.size()) - 1))];
    }
    void weight(const std::vector<std::string>& names, std::vector<plan::Setting>& where,
                int most) {
        if (!names.empty()) say(one_of(names) + "=" + std::to_string(number(1, most)) + "g", where);
    }
    void toggle(const std::vector<std::string>& names) {
        if (names.empty()) return;
        const std::string name = one_of(names);
        const auto there = std::find(request_.without.begin(), request_.without.end(), name);
        if (there == request_.without.end())
            request_.without.push_back(name);
        else
            request_.without.erase(there);
    }
    static void say(const std::string& text, std::vector<plan::Setting>& where) {
        language::Findings findings;
        const auto setting = plan::read_setting(text, findings);
        ASSERT_TRUE(setting) << text;
        std::erase_if(where, [&](const plan::Setting& s) { return s.name == setting->name; });
        where.push_back(*setting);
    }

    std::mt19937 draw_;
    plan::Request request_;
    std::vector<std::string> givens_, weighed_, optional_;
};

std::string said(const language::Findings& findings) {
    std::string out;
    for (const language::Diagnostic& d : findings.all())
        out += d.code + ": " + d.message + "\n";
    return out;
}

std::string said(const plan::RequestFindings& findings) {
    std::string out = said(findings.moving) + said(findings.bowl);
    for (const auto* list : {&findings.settings, &findings.without, &findings.poured})
        for (const language::Findings& each : *list)
            out += said(each);
    return out;
}

std::string outcome(const std::optional<plan::WeighOut>& out, const language::Findings& findings,
                    const plan::RequestFindings& request_findings) {
    return (out ? render::weigh_json(*out) : "nothing") + said(findings) + said(request_findings);
}

TEST(Weighing, again_and_again_is_as_if_each_request_were_the_first) {
    const kitchen::Kitchen kitchen = test::kitchen_of(text_of(book / "kitchen.jarful"));
    std::size_t anew = 0, kept = 0, answered = 0, refused = 0;
    for (const auto& entry : std::filesystem::directory_iterator(book)) {
        if (entry.path().extension() != ".jarful" || entry.path().stem() == "kitchen") continue;
        SCOPED_TRACE(entry.path().filename());
        language::Findings findings;
        const language::Document recipe = language::parse(
            *language::read_source("test.jarful", text_of(entry.path()), findings), findings);
        ASSERT_FALSE(findings.has_faults());
        language::Findings of_recipe;
        plan::Weighing weighing(recipe, kitchen, of_recipe);
        Conversation conversation(recipe, 20260901);
        for (int turn = 0; turn < 60; ++turn) {
            const plan::Request& request = conversation.next();
            language::Findings once = of_recipe, first;
            plan::RequestFindings once_request, first_request;
            const auto out = weighing.by(request, once, once_request);
            plan::Weighing fresh(recipe, kitchen, first);
            const auto expected = fresh.by(request, first, first_request);
            ASSERT_EQ(outcome(out, once, once_request), outcome(expected, first, first_request))
                << "turn " << turn;
            anew += fresh.evaluations();
            (expected ? answered : refused) += 1;
        }
        kept += weighing.evaluations();
    }
    EXPECT_LT(kept, anew);
    EXPECT_GT(answered, refused);
    EXPECT_GT(refused, 20u);
}

} // namespace
} // namespace jarful
