#include "engine/appraise/appraise.hpp"
#include "tests/support/recipe.hpp"

#include <gtest/gtest.h>

#include <string>
#include <string_view>

/// Published, tested recipes through the reader: amounts, units and things as facts, in our own
/// order and words; the percentage of each is worked out beside it. And household measures of the
/// USDA National Nutrient Database for Standard Reference, Release 28, 2015 (file WEIGHT).
namespace {

using namespace jarful;
using appraise::Verdict;

struct Case {
    const char* name;
    const char* source;
    const char* list;
    char basis;     ///< v of the vegetables, t of vegetables and water, b of the brine
    double percent; ///< as worked out; has to lie between the ends
    std::string_view verdict;
    const char* kind = "";
};

// Salt is 6 g a teaspoon, 18 g a tablespoon, 292 g a cup (USDA SR 28, 02047), a pound 453.59 g, a
// US quart of water 944.6 g, a cup 236.2 g.
const Case cases[] = {
    // 3 x 18 g / 2268 g = 2.38 %
    {"kraut by the 5 lb", "USDA, Complete Guide to Home Canning, Guide 6, procedure",
     "3 tablespoons canning or pickling salt per 5 pounds of cabbage\n", 'v', 2.381, "inside"},
    // 0.75 x 292 g / 11340 g = 1.93 %: below by table salt, not surely by the densest canning salt
    {"kraut by the 25 lb", "USDA, Complete Guide to Home Canning, Guide 6, ingredient list",
     "25 lb cabbage\n3/4 cup canning or pickling salt\n", 'v', 1.931, "undecided"},
    // 56.7 g / 2268 g = 2.50 %
    {"kraut by the ounce",
     "USDA Farmers' Bulletin 1438, Making Fermented Pickles, 1924, Sauerkraut",
     "5 pounds cabbage\n2 ounces salt\n", 'v', 2.5, "inside"},
    // 1 / 40 = 2.50 %
    {"kraut by the 40 lb",
     "National War Garden Commission, Home Canning and Drying of Vegetables and Fruits, "
     "1910s, Sauerkraut",
     "40 lb cabbage\n1 lb salt\n", 'v', 2.5, "inside"},
    {"kraut by the 40 lb as a rule",
     "National War Garden Commission, Home Canning and Drying of Vegetables and Fruits, "
     "1910s, Sauerkraut",
     "1 lb salt to 40 lb cabbage\n", 'v', 2.5, "inside"},
    // 3 / 100 = 3.00 %, the high end
    {"dry salting",
     "FAO Agricultural Services Bulletin 134, Fermented Fruits and Vegetables, 1998, ch. 5, dry "
     "salted vegetables",
     "100 kg cabbage\n3 kg salt\n", 'v', 3.0, "inside"},
    // 3 x 18 g / 2268 g, said to be 2.25 to 2.5 %
    {"kraut in Minnesota",
     "University of Minnesota Extension, Making Sauerkraut, 1988 rev. 1995, text",
     "5 lb shredded cabbage\n3 tbsp pickling salt\n", 'v', 2.381, "inside"},
    // about 3 tbsp per 5 lb, said to be 2 to 2.5 %
    {"kraut in Colorado",
     "Colorado State University Extension, Understanding and Making Sauerkraut, ingredients "
     "(quotation read second hand)",
     "5 lb cabbage\n3 tbsp canning salt\n", 'v', 2.381, "inside"},
    // 28.35 g / 907.2 g = 3.13 %
    {"dry beans",
     "USDA Farmers' Bulletin 1438, Making Fermented Pickles, 1924, Fermentation in brine produced "
     "by dry salting",
     "2 lb green beans\n1 oz salt\n", 'v', 3.125, "inside"},
    // 146 g / (1814 g + 1890 g + 59.5 g) = 3.88 %; by the brine 146 / (146 + 1890 + 59.5) = 6.97 %
    {"fermented dills", "USDA, Complete Guide to Home Canning, Guide 6, Dill pickles",
     "Dill pickles, fermented\n4 lb of 4-inch pickling cucumbers\n2 tbsp dill seed\n2 cloves "
     "garlic (optional)\n"
     "2 dried red peppers (optional)\n2 tsp whole mixed pickling spices (optional)\n1/2 cup "
     "canning salt\n"
     "1/4 cup vinegar (5 percent)\n8 cups water\n",
     't', 3.88, "inside", "cucumbers"},
    {"fermented dills, their brine", "USDA, Complete Guide to Home Canning, Guide 6, Dill pickles",
     "4 lb pickling cucumbers\n1/2 cup canning salt\n1/4 cup vinegar (5 percent)\n8 cups water\n",
     'b', 6.97, "inside", "cucumbers"},
    // 453.6 g / (453.6 + 2 x 3779 + 476) = 5.34 % of the brine; on 12 lb: 453.6 / (5443 + 8034)
    // = 3.37 %
    {"dills of 1924", "USDA Farmers' Bulletin 1438, Making Fermented Pickles, 1924, Dill pickles",
     "12 lb cucumbers\n1 lb salt\n2 gallons water\n1 pint vinegar\n", 't', 3.366, "inside",
     "cucumbers"},
    {"dills of 1924, their brine",
     "USDA Farmers' Bulletin 1438, Making Fermented Pickles, 1924, Dill pickles",
     "12 lb cucumbers\n1 lb salt\n2 gallons water\n1 pint vinegar\n", 'b', 5.345, "inside",
     "cucumbers"},
    // 283.5 g / (283.5 + 3779) = 6.98 % of the brine
    {"brine of 28 degrees",
     "USDA Farmers' Bulletin 1438, Making Fermented Pickles, 1924, Dill pickles, large quantities",
     "cucumbers\n10 oz salt per gallon of water\n", 'b', 6.979, "undecided", "cucumbers"},
    // 453.6 / (453.6 + 9 x 472.3) = 9.64 % of the brine
    {"brine of 40 degrees",
     "USDA Farmers' Bulletin 1438, Making Fermented Pickles, 1924, Tables and tests",
     "cucumbers\n1 lb salt\n9 pints water\n", 'b', 9.642, "undecided", "cucumbers"},
    // 226.8 / (226.8 + 9 x 472.3) = 5.07 %
    {"brine of 20 degrees",
     "USDA Farmers' Bulletin 1438, Making Fermented Pickles, 1924, Tables and tests",
     "cucumbers\n1/2 lb salt\n9 pints water\n", 'b', 5.065, "undecided", "cucumbers"},
    // 226.8 / (226.8 + 3779) = 5.66 % of the brine
    {"olives, first brine",
     "University of California Leaflet 2758, Home Pickling of Olives, Greek style, first brine "
     "(read in an excerpt)",
     "olives\n8 oz salt per gallon of water\n", 'b', 5.662, "below", "olives"},
    // 453.6 / (453.6 + 3779) = 10.72 % as it is poured; how far the olives thin it, the list does
    // not say
    {"olives, later brine",
     "University of California Leaflet 2758, Home Pickling of Olives, Greek style, later brines "
     "(read in an excerpt)",
     "olives\n1 lb salt per gallon of water\n", 'b', 10.72, "undecided", "olives"},
    // 5 kg greens, 5 kg of 80 g salt in 1 L water: 370 g / 10 000 g = 3.70 % of everything; of
    // vegetables
    // and water 370.4 / 9629.6 = 3.85 %
    {"mustard greens",
     "World Vegetable Center (AVRDC), Fermentation for preserving leafy vegetables, method",
     "5 kg mustard greens\n4.63 kg water\n370 g salt\n", 't', 3.843, "inside", "mustard-greens"},
    // 453.6 / 1814 = 25 %
    {"heavy salting", "Home and Farm Food Preservation, ch. XXXII, 1918, par. 99",
     "4 lb cabbage\n1 lb salt\n", 'v', 25.0, "above"},
    // the list of the first case, weighed by a leaflet's spoon, 1 oz = 1 3/5 tbsp: 3 x 17.72 g /
    // 2268 g = 2.34 %
    {"kraut by another spoon",
     "list: USDA, Complete Guide to Home Canning, Guide 6, procedure; spoon: University of "
     "California, The Home Pickling of Olives",
     "5 lb cabbage\n3 tbsp canning salt\n", 'v', 2.344, "inside"},
};

TEST(AppraisePublished, RecipesComeToWhatTheyComeTo) {
    for (const Case& c : cases) {
        appraise::Request request;
        request.kind = c.kind;
        if (std::string(c.kind) == "olives") request.method = "natural";
        appraise::Refusal refusal;
        const auto a = appraise::appraise(c.list, request, refusal);
        ASSERT_TRUE(a) << c.name;
        for (const appraise::Line& line : a->lines)
            EXPECT_TRUE(line.understood) << c.name << ": " << line.text;
        const auto& percent = c.basis == 'v'   ? a->of_vegetables
                              : c.basis == 't' ? a->of_vegetables_and_water
                                               : a->of_brine;
        ASSERT_TRUE(percent) << c.name;
        EXPECT_LE(percent->low, c.percent * 1.003) << c.name;
        EXPECT_GE(percent->high, c.percent * 0.997) << c.name;
        EXPECT_LT(percent->width(), 0.22 * c.percent) << c.name;
        EXPECT_EQ(appraise::describe(a->verdict), c.verdict) << c.name << ": " << a->reason;
    }
}

// What the program writes from them is read by it without a fault, and judged as the list was, or
// says what must be filled in.
TEST(AppraisePublished, RecipesWrittenFromThemCheckCleanOrSayWhatIsMissing) {
    int clean = 0;
    for (const Case& c : cases) {
        appraise::Request request;
        request.kind = c.kind;
        if (std::string(c.kind) == "olives") request.method = "natural";
        appraise::Refusal refusal;
        const auto a = appraise::appraise(c.list, request, refusal);
        ASSERT_TRUE(a) << c.name;
        const std::string written = appraise::as_recipe(*a);
        if (written.find("# fill in:") != std::string::npos) continue;
        const auto outcome = test::check(written);
        EXPECT_EQ(outcome.said, "") << c.name << "\n" << written;
        ASSERT_TRUE(outcome.check) << c.name << "\n" << written;
        ASSERT_TRUE(outcome.check->verdict) << c.name << "\n" << written;
        EXPECT_EQ(plan::describe(*outcome.check->verdict), c.verdict) << c.name << "\n" << written;
        ++clean;
    }
    EXPECT_GE(clean, 12);
}

struct Weight {
    const char* line;
    double grams;
    const char* ndb;
};

const Weight weights[] = {
    {"1 tsp fine table salt", 6, "02047"},
    {"1 tbsp fine table salt", 18, "02047"},
    {"1 cup fine table salt", 292, "02047"},
    {"1 tsp caraway seed", 2.1, "02005"},
    {"1 tbsp caraway seed", 6.7, "02005"},
    {"1 tsp celery seed", 2, "02007"},
    {"1 tbsp celery seed", 6.5, "02007"},
    {"1 tbsp ground allspice", 6, "02001"},
    {"1 tbsp ground cinnamon", 7.8, "02010"},
    {"1 tbsp coriander seed", 5, "02013"},
    {"1 tbsp cumin seed", 6, "02014"},
    {"1 tsp dill seed", 2.1, "02016"},
    {"1 tbsp dill seed", 6.6, "02016"},
    {"1 tbsp dried dill weed", 3.1, "02017"},
    {"1 tbsp fennel seed", 5.8, "02018"},
    {"1 tbsp fenugreek seed", 11.1, "02019"},
    {"1 tbsp garlic powder", 9.7, "02020"},
    {"1 tbsp ground mustard", 6.3, "02024"},
    {"1 tbsp paprika", 6.8, "02028"},
    {"1 tbsp ground turmeric", 9.4, "02043"},
    {"1 tsp ground black pepper", 2.3, "02030"},
    {"1 tsp whole black pepper", 2.9, "02030"},
    {"1 cup distilled vinegar", 238, "02053"},
    {"1 cup cider vinegar", 239, "02048"},
    {"1 cup minced garlic", 136, "11215"},
    {"3 cloves garlic", 9, "11215"},
    {"1 cup chopped onion", 160, "11282"},
    {"1 cup grated carrots", 110, "11124"},
    {"1 cup chopped carrots", 128, "11124"},
    {"1 cup shredded cabbage", 70, "11109"},
    {"1 cup chopped cabbage", 89, "11109"},
    {"1 cup shredded red cabbage", 70, "11112"},
    {"1 cup shredded napa cabbage", 76, "11119"},
    {"1 cup sliced radishes", 116, "11429"},
    {"1 cup sliced daikon", 116, "11430"},
    {"1 cup cubed beets", 136, "11080"},
    {"1 cup sliced parsnips", 133, "11298"},
    {"1 cup chopped celery", 101, "11143"},
    {"1 cup sliced jalapenos", 90, "11979"},
    {"1 cup green beans", 100, "11052"},
    {"1 cup chopped cauliflower", 107, "11135"},
    {"1 cup chopped scallions", 100, "11291"},
    {"1 large scallion", 25, "11291"},
    {"1/2 cup sliced cucumber", 52, "11205"},
};

TEST(AppraisePublished, HouseholdMeasuresLieWithinWhatIsRead) {
    int checked = 0;
    for (const Weight& w : weights) {
        const appraise::Line line = appraise::read_line(w.line);
        ASSERT_TRUE(line.understood) << w.line;
        ASSERT_TRUE(line.grams) << w.line;
        // The database rounds small spoons to a tenth of a gram or to a whole one.
        EXPECT_LE(line.grams->low, w.grams * 1.02 + 0.05) << w.line << " (" << w.ndb << ")";
        EXPECT_GE(line.grams->high, w.grams * 0.98 - 0.05) << w.line << " (" << w.ndb << ")";
        ++checked;
    }
    EXPECT_GE(checked, 30);
}

// 21 CFR 101.9(b)(5)(viii): on labels a teaspoon is 5 mL, a tablespoon 15 mL, a cup 240 mL: all of
// them lie within what a bare spoon and cup are taken for.
TEST(AppraisePublished, TheLabelsSpoonsLieWithinABareSpoon) {
    for (const auto& [line, ml] :
         {std::pair{"1 tsp water", 5.0}, {"1 tbsp water", 15.0}, {"1 cup water", 240.0}}) {
        const auto read = appraise::read_line(line);
        ASSERT_TRUE(read.grams) << line;
        EXPECT_LE(read.grams->low, ml * 0.9998) << line;
        EXPECT_GE(read.grams->high, ml * 0.9957) << line;
    }
}

} // namespace
