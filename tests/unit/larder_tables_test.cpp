#include "engine/larder/larder.hpp"
#include "engine/larder/timing.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <limits>
#include <set>
#include <string>

namespace {

using namespace jarful::larder;

std::size_t count(Role role) {
    const auto all = materials();
    return static_cast<std::size_t>(
        std::count_if(all.begin(), all.end(), [&](const Material& m) { return m.role == role; }));
}

void expect_sound(const std::optional<Figure>& figure, std::string_view what, double greatest) {
    if (!figure) return;
    EXPECT_LE(0, figure->low) << what;
    EXPECT_LE(figure->low, figure->typical) << what;
    EXPECT_LE(figure->typical, figure->high) << what;
    EXPECT_LE(figure->high, greatest) << what;
    EXPECT_FALSE(figure->source.empty()) << what;
    EXPECT_FALSE(describe(figure->status).empty()) << what;
    if (figure->status == Status::published) {
        EXPECT_EQ(figure->source.view().find("common practice, no"), std::string_view::npos)
            << what;
    }
}

TEST(LarderTables, ThereIsEnoughToCookWith) {
    EXPECT_GE(count(Role::vegetable), 40u);
    EXPECT_GE(count(Role::aromatic), 30u);
    EXPECT_GE(count(Role::salt), 10u);
    EXPECT_GE(count(Role::seasoning), 8u);
    EXPECT_GE(count(Role::acid), 4u);
    EXPECT_EQ(count(Role::water), 1u);
}

TEST(LarderTables, EveryFigureHasAnOrderASourceAndAStatus) {
    std::set<std::string_view> ids;
    for (const Material& m : materials()) {
        EXPECT_TRUE(ids.insert(m.id).second) << m.id;
        expect_sound(m.bulk_density, m.id, 3);
        expect_sound(m.true_density, m.id, 3);
        expect_sound(m.water, m.id, 1);
        expect_sound(m.salt, m.id, 1);
        expect_sound(m.piece, m.id, 20000);
        expect_sound(m.refuse, m.id, 1);
        EXPECT_EQ(m.piece.has_value(), !m.piece_word.empty()) << m.id;
        EXPECT_EQ(m.vague, !m.vague_hint.empty()) << m.id;
        if (m.water && m.salt) {
            EXPECT_LE(m.water->high + m.salt->high, 1.0001) << m.id;
        }
        const bool any =
            m.bulk_density || m.true_density || m.water || m.salt || m.piece || m.refuse;
        EXPECT_TRUE(any || !m.note.empty()) << m.id << " has no figure and does not say so";
    }
}

TEST(LarderTables, EverySaltThatCountsHasItsContentAndOtherSaltsAWarning) {
    for (const Material& m : materials()) {
        if (m.role != Role::salt) continue;
        const bool warned =
            m.warning == SaltWarning::reduced_sodium || m.warning == SaltWarning::curing;
        EXPECT_EQ(m.salt.has_value(), !warned) << m.id;
    }
    for (const Material& m : materials()) {
        // A seasoning of which no salt content is known says so; a recipe that uses it is refused.
        if (m.role == Role::seasoning) {
            EXPECT_TRUE(m.salt || !m.note.empty()) << m.id;
        }
    }
}

TEST(LarderTables, WordsForRolesAndBasesAreThere) {
    for (const Role role : {Role::vegetable, Role::salt, Role::water, Role::aromatic,
                            Role::seasoning, Role::acid, Role::other}) {
        EXPECT_EQ(find_role(describe(role)), role);
    }
    EXPECT_EQ(find_role("Salt"), Role::salt);
    EXPECT_FALSE(find_role("salts"));
    EXPECT_FALSE(find_role(""));
    std::set<std::string_view> keys;
    for (const Basis basis :
         {Basis::of_vegetables, Basis::of_vegetables_and_water, Basis::of_brine,
          Basis::of_evened_brine, Basis::of_everything, Basis::of_water, Basis::of_drained_brine}) {
        EXPECT_TRUE(keys.insert(key(basis)).second);
        EXPECT_FALSE(describe(basis).empty());
    }
    EXPECT_EQ(describe(Status::common_practice), "common practice, no published figure");
    EXPECT_EQ(describe(Status::from_memory), "from memory");
    EXPECT_EQ(describe(Status::published), "published");
}

TEST(Ranges, EveryRowHasASourceAndBelongsToAKindOrToNone) {
    EXPECT_EQ(range_rows().size(), 124u);
    std::set<std::string_view> ids;
    for (const RangeRow& row : range_rows()) {
        EXPECT_TRUE(ids.insert(row.id).second) << row.id;
        EXPECT_FALSE(row.source.empty()) << row.id;
        EXPECT_FALSE(row.method.empty()) << row.id;
        if (row.role == RowRole::practice || row.role == RowRole::judgement) {
            EXPECT_EQ(row.status, Status::common_practice) << row.id;
        } else {
            EXPECT_NE(row.status, Status::common_practice) << row.id;
        }
        if (row.kind == "top-up" || row.kind == "any") continue;
        ASSERT_TRUE(find_kind(row.kind)) << row.id;
        EXPECT_EQ(find_kind(row.kind)->name, row.kind) << row.id;
        EXPECT_EQ(find_range_row(row.id), &row);
    }
    EXPECT_FALSE(find_range_row("no-such-row"));
}

TEST(Kinds, TheNamesOfTheReferenceLeadToOurKinds) {
    const std::pair<const char*, const char*> names[] = {
        {"kraut-shredded", "kraut"},
        {"cabbage-whole-head", "whole-head"},
        {"kimchi", "kimchi"},
        {"cucumber-brined", "cucumbers"},
        {"cucumber-salt-stock", "cucumbers"},
        {"mixed-vegetables", "mixed"},
        {"carrots-roots", "roots"},
        {"turnips-radish", "radish"},
        {"pepper-mash", "pepper-mash"},
        {"peppers-brined", "peppers"},
        {"beets", "beets"},
        {"beet-kvass", "beet-kvass"},
        {"garlic", "garlic"},
        {"green-beans", "green-beans"},
        {"cauliflower", "cauliflower"},
        {"mustard-greens", "mustard-greens"},
        {"onions", "onions"},
        {"green-tomatoes", "green-tomatoes"},
        {"shalgam", "shalgam"},
        {"mushrooms", "mushrooms"},
        {"olives", "olives"},
        {"preserved-lemons", "lemons"},
    };
    std::set<std::string_view> reached;
    for (const auto& [reference, ours] : names) {
        ASSERT_TRUE(find_kind(reference)) << reference;
        EXPECT_EQ(find_kind(reference)->name, ours) << reference;
        reached.insert(ours);
    }
    EXPECT_EQ(reached.size(), kinds().size());
    EXPECT_EQ(kinds().size(), 21u);
    EXPECT_EQ(find_kind("Whole Heads")->name, "whole-head");
    EXPECT_EQ(find_kind("sauerkraut")->name, "kraut");
    EXPECT_FALSE(find_kind("cheese"));
    EXPECT_FALSE(find_kind(""));
}

TEST(Kinds, AMisspeltKindHasANearestOne) {
    EXPECT_EQ(nearest_kind("kruat"), "kraut");
    EXPECT_EQ(nearest_kind("kimche"), "kimchi");
    EXPECT_EQ(nearest_kind("pepermash"), "pepper-mash");
    EXPECT_FALSE(nearest_kind("cheese"));
    EXPECT_FALSE(nearest_kind(""));
}

TEST(Kinds, EveryRulingRestsOnRowsOfItsKindAndBasis) {
    for (const Kind& kind : kinds()) {
        ASSERT_FALSE(kind.rulings.empty()) << kind.name;
        EXPECT_FALSE(kind.rows.empty()) << kind.name;
        for (const std::uint16_t index : kind.rows) {
            ASSERT_LT(index, range_rows().size());
            EXPECT_EQ(range_rows()[index].kind, kind.name);
        }
        for (const std::string_view id : kind.cautions)
            EXPECT_TRUE(find_caution(id)) << id;
        for (const Ruling& ruling : kind.rulings) {
            EXPECT_FALSE(ruling.why.empty()) << kind.name;
            EXPECT_FALSE(ruling.title.empty()) << kind.name;
            EXPECT_EQ(ruling.method.empty(), kind.rulings.size() == 1) << kind.name;
            EXPECT_EQ(ruling.low.has_value(), ruling.high.has_value()) << kind.name;
            for (const auto& bound : {ruling.low, ruling.high}) {
                if (!bound) continue;
                ASSERT_TRUE(bound->row);
                EXPECT_EQ(bound->row->kind, kind.name);
                EXPECT_EQ(bound->row->basis, ruling.basis) << bound->row->id;
                EXPECT_TRUE(bound->row->low == bound->percent ||
                            bound->row->high == bound->percent ||
                            bound->row->typical == bound->percent)
                    << bound->row->id;
            }
            if (ruling.typical && ruling.low) {
                EXPECT_LT(ruling.low->percent, *ruling.typical) << kind.name;
                EXPECT_LT(*ruling.typical, ruling.high->percent) << kind.name;
            }
        }
    }
}

TEST(Kinds, AMethodIsAskedForWhereItMatters) {
    for (const char* name : {"pepper-mash", "green-beans", "mustard-greens", "olives"}) {
        const Kind& kind = *find_kind(name);
        EXPECT_TRUE(kind.method_needed) << name;
        EXPECT_FALSE(find_ruling(kind, "")) << name;
        for (const Ruling& ruling : kind.rulings) {
            EXPECT_EQ(find_ruling(kind, ruling.method), &ruling);
        }
    }
    const Kind& cucumbers = *find_kind("cucumbers");
    EXPECT_EQ(find_ruling(cucumbers, "")->method, "in-brine");
    EXPECT_EQ(find_ruling(cucumbers, "Salt stock")->low->percent, 9.5);
    EXPECT_FALSE(find_ruling(cucumbers, "fried"));
    const Kind& kraut = *find_kind("kraut");
    EXPECT_EQ(find_ruling(kraut, ""), &kraut.rulings.front());
    EXPECT_FALSE(find_ruling(kraut, "in-brine"));
}

/// Whether nobody could look a source up by these words.
bool nameless(std::string_view source) {
    for (const char* words : {"not shown", "handout", "web page", "handbook chapter",
                              "Handbook chapter", "encyclopedia article", "research abstract",
                              "(research paper passage)", "salt maker", "review literature"})
        if (source.find(words) != std::string_view::npos) return true;
    return false;
}

TEST(Rulings, NoneRestsOnASourceWithoutAName) {
    for (const Kind& kind : kinds())
        for (const Ruling& ruling : kind.rulings)
            for (const auto& bound : {ruling.low, ruling.high}) {
                if (!bound) continue;
                ASSERT_NE(bound->row, nullptr);
                EXPECT_FALSE(nameless(bound->row->source)) << kind.name << ": " << bound->row->id;
            }
    for (const TimingRow& row : timing_rows()) {
        if (row.rules_days || row.rules_ph) {
            EXPECT_FALSE(nameless(row.source)) << row.id;
        }
    }
    for (const Material& m : materials())
        for (const auto& f : {m.bulk_density, m.true_density, m.water, m.salt, m.piece, m.refuse})
            if (f && f->status == Status::published) {
                EXPECT_FALSE(nameless(f->source)) << m.id;
            }
}

TEST(Rulings, TheStandingOfARowIsNoMoreThanItIs) {
    const auto standing_of = [](const char* kind, const char* method) {
        return std::string(standing(*find_ruling(*find_kind(kind), method)->low->row));
    };
    EXPECT_EQ(standing_of("kraut", ""), "published");
    EXPECT_EQ(standing_of("kimchi", ""), "published");
    EXPECT_EQ(standing_of("roots", ""), "common practice, no published figure");
    EXPECT_EQ(standing_of("whole-head", ""), "our own reading");
    EXPECT_EQ(standing_of("beet-kvass", ""), "our own reading");
    EXPECT_EQ(standing_of("pepper-mash", "barrel"), "tried in a study");
    EXPECT_EQ(standing(*find_range_row("kimchi-codex")), "from memory");
    for (const RangeRow& row : range_rows()) {
        if (standing(row) == "published") {
            EXPECT_TRUE(row.status == Status::published && row.role != RowRole::studied &&
                        row.role != RowRole::judgement)
                << row.id;
        }
    }
}

TEST(Kinds, WhatHasNoRangeSaysWhy) {
    const Ruling& shalgam = *find_ruling(*find_kind("shalgam"), "");
    EXPECT_FALSE(shalgam.low || shalgam.high);
    EXPECT_EQ(shalgam.typical, 1.7);
    const Ruling& dry = *find_ruling(*find_kind("mushrooms"), "dry-salted");
    EXPECT_FALSE(dry.low || dry.high || dry.typical);
    EXPECT_NE(dry.why.view().find("failed"), std::string_view::npos);
    EXPECT_EQ(find_ruling(*find_kind("mushrooms"), "")->method, "in-brine");
}

TEST(Cautions, TheyAreShortNamedAndNeverPromise) {
    std::size_t always = 0;
    for (const Caution& caution : cautions()) {
        EXPECT_FALSE(caution.source.empty()) << caution.id;
        EXPECT_EQ(find_caution(caution.id), &caution);
        always += caution.always ? 1 : 0;
        const auto sentences =
            std::count(caution.text.view().begin(), caution.text.view().end(), '.') +
            std::count(caution.text.view().begin(), caution.text.view().end(), ';');
        EXPECT_LE(sentences, 7) << caution.id;
        EXPECT_LE(caution.text.size(), 260u) << caution.id;
        for (const std::string_view text : {caution.title, caution.text}) {
            EXPECT_EQ(text.find("safe"), std::string_view::npos) << caution.id;
        }
    }
    EXPECT_GE(always, 4u);
    EXPECT_LE(always, 6u);
    EXPECT_FALSE(find_caution("no-such-caution"));
    for (const char* id : {"submerged", "ph", "discard", "gas", "mushrooms", "garlic-oil", "sold",
                           "canning", "reduced-sodium", "curing-salt", "higher-risk", "scum"}) {
        EXPECT_TRUE(find_caution(id)) << id;
    }
}

/// The text of a file of the documentation.
std::string document(const char* path) {
    std::ifstream in(std::string(JARFUL_SOURCE_DIR) + "/docs/" + path);
    return {std::istreambuf_iterator<char>(in), {}};
}

TEST(LarderDocuments, EveryRowMaterialAndSourceIsInTheScience) {
    const std::string text = document("science.md");
    const auto has = [&](std::string_view part) { return text.find(part) != std::string::npos; };
    for (const RangeRow& row : range_rows()) {
        EXPECT_TRUE(has("| " + std::string(row.id) + " |")) << row.id;
        EXPECT_TRUE(has(row.source)) << row.id;
    }
    for (const Material& m : materials())
        EXPECT_TRUE(has(m.name)) << m.id;
    for (const Kind& kind : kinds()) {
        for (const Ruling& ruling : kind.rulings)
            EXPECT_TRUE(has(ruling.why)) << kind.name;
    }
    EXPECT_TRUE(has(brine_density(0.05, 20)->source));
}

TEST(LarderDocuments, EveryCautionIsInTheSafety) {
    const std::string text = document("safety.md");
    for (const Caution& caution : cautions()) {
        EXPECT_NE(text.find(caution.text), std::string::npos) << caution.id;
        EXPECT_NE(text.find(caution.source), std::string::npos) << caution.id;
    }
}

TEST(LarderCautions, EachIsSaidInOneShortSentenceToo) {
    for (const Caution& caution : cautions()) {
        ASSERT_FALSE(caution.brief.empty()) << caution.id;
        EXPECT_TRUE(caution.brief.view().front() >= 'A' && caution.brief.view().front() <= 'Z')
            << caution.id;
        EXPECT_EQ(caution.brief.view().back(), '.') << caution.id;
        EXPECT_EQ(caution.brief.view().find(". "), std::string_view::npos) << caution.id;
        EXPECT_LT(std::count(caution.brief.view().begin(), caution.brief.view().end(), ' '), 20)
            << caution.id;
    }
}

TEST(BrineDensity, ItRisesWithSaltAndHasAnHonestWidth) {
    for (double celsius = 0; celsius <= 30; celsius += 0.5) {
        double last = 0;
        for (int tenth = 0; tenth <= 260; ++tenth) {
            const auto figure = brine_density(tenth / 1000.0, celsius);
            ASSERT_TRUE(figure) << tenth << " at " << celsius;
            EXPECT_LT(last, figure->typical) << tenth << " at " << celsius;
            EXPECT_LT(figure->low, figure->typical);
            EXPECT_LT(figure->typical, figure->high);
            EXPECT_LT(figure->high - figure->low, 0.001);
            last = figure->typical;
        }
    }
    EXPECT_FALSE(brine_density(0.05, 20)->source.empty());
}

TEST(BrineDensity, OutsideItsBoundsThereIsNone) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double infinity = std::numeric_limits<double>::infinity();
    EXPECT_TRUE(brine_density(0, 0));
    EXPECT_TRUE(brine_density(0.26, 30));
    EXPECT_FALSE(brine_density(0.2601, 20));
    EXPECT_FALSE(brine_density(-0.0001, 20));
    EXPECT_FALSE(brine_density(0.05, -0.1));
    EXPECT_FALSE(brine_density(0.05, 30.1));
    EXPECT_FALSE(brine_density(nan, 20));
    EXPECT_FALSE(brine_density(0.05, nan));
    EXPECT_FALSE(brine_density(infinity, 20));
    EXPECT_FALSE(brine_density(0.05, -infinity));
}

// What nothing published covers: common practice or our own reading, and marked so.
TEST(CommonPracticeRanges, RuleWhereNothingIsPublished) {
    struct Row {
        const char* kind;
        const char* method;
        Basis basis;
        double low, high;
        const char* low_source;
    };
    constexpr const char* practice = "common practice, no published source";
    constexpr const char* ours = "our own reading of the rows of this kind; no source";
    const Row rows[] = {
        {"cucumbers", "in-brine", Basis::of_vegetables_and_water, 2.5, 5.0, practice},
        {"roots", "", Basis::of_vegetables_and_water, 2.0, 3.5, practice},
        {"pepper-mash", "home", Basis::of_vegetables, 2.5, 5.0, practice},
        {"whole-head", "", Basis::of_vegetables_and_water, 2.0, 3.5, ours},
        {"beet-kvass", "", Basis::of_vegetables_and_water, 1.5, 2.5, ours},
        {"lemons", "", Basis::of_vegetables, 8.0, 25.0, practice},
    };
    for (const Row& row : rows) {
        const Ruling* ruling = find_ruling(*find_kind(row.kind), row.method);
        ASSERT_TRUE(ruling && ruling->low && ruling->high) << row.kind << ' ' << row.method;
        EXPECT_EQ(ruling->basis, row.basis) << row.kind;
        EXPECT_EQ(ruling->low->percent, row.low) << row.kind;
        EXPECT_EQ(ruling->high->percent, row.high) << row.kind;
        EXPECT_EQ(
            ruling->low->row->source.view().substr(0, std::string_view(row.low_source).size()),
            row.low_source);
        EXPECT_EQ(ruling->low->row->status, Status::common_practice) << row.kind;
    }
}

// No source to be read again: the densities of flakes are recalled, and say so.
TEST(RecalledFigures, FlakesAreLighterAndMarkedFromMemory) {
    const Larder larder;
    const Figure& dense = *larder.find("dense kosher")->material->bulk_density;
    const Figure& light = *larder.find("coarse flake kosher salt")->material->bulk_density;
    EXPECT_LT(light.high, dense.low);
    EXPECT_EQ(dense.status, Status::from_memory);
    EXPECT_EQ(light.status, Status::from_memory);
}

// Pure water of the standard tables, recalled; a brine between the temperatures of the grid.
TEST(RecalledFigures, WaterBetweenTheTemperaturesOfTheGrid) {
    EXPECT_NEAR(brine_density(0, 5)->typical * 1000, 999.97, 0.1);
    EXPECT_NEAR(brine_density(0, 15)->typical * 1000, 999.10, 0.1);
    EXPECT_NEAR(brine_density(0, 22.5)->typical * 1000, 997.66, 0.1);
    const double between = brine_density(0.05, 15)->typical;
    EXPECT_LT(between, brine_density(0.05, 10)->typical);
    EXPECT_GT(between, brine_density(0.05, 20)->typical);
}

} // namespace
