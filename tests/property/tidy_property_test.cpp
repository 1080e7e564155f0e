#include "engine/language/tidy.hpp"
#include "tests/property/random_recipe.hpp"
#include "tests/unit/language_support.hpp"

#include <rapidcheck.h>

/// The tidy form of whatever can be read says the same, and is tidy itself.
namespace jarful::language::testing {

namespace {

void check_tidy(const std::string& text) {
    Findings findings;
    auto source = read_source("random.jarful", text, findings);
    RC_ASSERT(source.has_value());
    const Document before = parse(*source, findings);
    RC_ASSERT(!findings.has_faults());
    const auto once = tidy(*source, findings);
    RC_ASSERT(once.has_value());

    Findings faults;
    auto printed = read_source("random.jarful", *once, faults);
    const Document after = parse(*printed, faults);
    RC_ASSERT(faults.empty());
    RC_ASSERT(same_meaning(before, after));
    const auto twice = tidy(*printed, faults);
    RC_ASSERT(twice == once);

    RC_ASSERT(once->find("\n\n\n") == std::string::npos);
    RC_ASSERT(once->front() != '\n' && !once->ends_with("\n\n") && once->ends_with("\n"));
    RC_ASSERT(once->find(" \n") == std::string::npos);
    const auto remarks = [](const std::string& t) {
        std::size_t count = 0;
        for (std::size_t at = 0; (at = t.find("# a remark", at)) != std::string::npos; ++at)
            ++count;
        for (std::size_t at = 0; (at = t.find("by \"hand\"", at)) != std::string::npos; ++at)
            ++count;
        return count;
    };
    RC_ASSERT(remarks(*once) == remarks(text));
}

} // namespace

TEST(TidyProperty, RandomRecipesSayTheSame) {
    std::size_t tried = 0;
    std::size_t good = 0;
    EXPECT_TRUE(rc::check("random recipes", [&] {
        RandomRecipe random(*rc::gen::arbitrary<std::uint64_t>());
        std::string text = random.between() + "recipe   \"A\"" + random.remark() + "\n";
        const int lines = *rc::gen::resize(100, rc::gen::inRange(1, 20));
        for (int i = 0; i < lines; ++i) {
            const std::string line = random.line() + random.remark() + "\n";
            ++tried;
            // What cannot be read is no matter of the form.
            if (!codes(parse_bytes("recipe \"A\"\n" + line).findings).empty()) continue;
            ++good;
            text += random.between() + line;
        }
        text += random.between();
        check_tidy(text);
    }));
    EXPECT_GT(good * 2, tried) << good << " of " << tried;
}

} // namespace jarful::language::testing
