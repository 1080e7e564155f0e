#include "tests/unit/language_support.hpp"

#include <array>
#include <optional>

/// Every form of every statement.
namespace jarful::language::testing {

namespace {

std::string raw(const Parsed& p, Place place) {
    return std::string(p.document.source.at(place));
}

std::string expression(const Parsed& p, NodeId id) {
    if (id == no_node) return "none";
    return show(p.document.expressions, id, p.document.source.text());
}

/// A template with its values in brackets.
std::string pieces(const Parsed& p, const Template& t) {
    std::string s;
    for (const Template::Piece& piece : t.pieces)
        s += piece.value == no_node ? piece.text : "[" + expression(p, piece.value) + "]";
    return s;
}

} // namespace

TEST(LanguageStatement, WhatItIs) {
    const Parsed p =
        parse_bytes("language 1\nrecipe \"A \\\"B\\\" \\\\\" version 4\nkind whole-head\n"
                    "kind green-beans dry-salted\nby \"x\"\nsource \"y\"\nnote \"z\"\n");
    EXPECT_EQ(codes(p.findings), "");
    ASSERT_EQ(p.document.lines.size(), 7U);
    EXPECT_EQ(p.document.kind, FileKind::recipe);
    EXPECT_EQ(std::get<LanguageLine>(p.document.lines[0].statement).version.value, 1);
    const auto& header = std::get<RecipeHeader>(p.document.lines[1].statement);
    EXPECT_EQ(header.title.value, "A \"B\" \\");
    ASSERT_TRUE(header.version);
    EXPECT_EQ(header.version->value, 4);
    EXPECT_EQ(raw(p, header.version->place), "4");
    const auto& kind = std::get<KindLine>(p.document.lines[2].statement);
    EXPECT_EQ(kind.kind.value, "whole-head");
    EXPECT_FALSE(kind.method);
    EXPECT_EQ(std::get<KindLine>(p.document.lines[3].statement).method->value, "dry-salted");
    EXPECT_EQ(std::get<RemarkLine>(p.document.lines[4].statement).sort, RemarkLine::Sort::by);
    EXPECT_EQ(std::get<RemarkLine>(p.document.lines[5].statement).sort, RemarkLine::Sort::source);
    EXPECT_EQ(std::get<RemarkLine>(p.document.lines[6].statement).sort, RemarkLine::Sort::note);
    EXPECT_EQ(raw(p, p.document.lines[3].place), "kind green-beans dry-salted");
    EXPECT_EQ(raw(p, p.document.lines[3].keyword), "kind");
}

TEST(LanguageStatement, QuantitiesWithEveryTail) {
    for (const auto& [word, which] :
         std::vector<std::pair<std::string, QuantityWord>>{{"given", QuantityWord::given},
                                                           {"share", QuantityWord::share},
                                                           {"weigh", QuantityWord::weigh},
                                                           {"count", QuantityWord::count},
                                                           {"cap", QuantityWord::cap}}) {
        for (int bits = 0; bits < 48; ++bits) {
            const int fate = bits % 3;
            const bool keeps = fate == 2 && (bits / 3) % 2 == 1;
            const bool material = (bits / 6) % 2 == 1;
            const bool role = (bits / 12) % 2 == 1;
            const bool label = (bits / 24) % 2 == 1;
            std::string line = word + " thing = 2 * other";
            if (fate == 1) line += " optional";
            if (fate == 2) line += " discarded";
            if (keeps) line += " keeps 20..30 %";
            if (material) line += " as  fine sea-salt 2";
            if (role) line += " counts as aromatic";
            if (label) line += " \"a label\"";
            const Parsed p = parse_line(line + "   # remark");
            const auto& q = second<Quantity>(p);
            EXPECT_EQ(q.word, which) << line;
            EXPECT_EQ(q.name.value, "thing");
            EXPECT_EQ(expression(p, q.value), "(2*other)");
            EXPECT_EQ(q.tail.optional, fate == 1) << line;
            EXPECT_EQ(q.tail.discarded, fate == 2) << line;
            EXPECT_EQ(raw(p, q.tail.fate), fate == 0 ? "" : fate == 1 ? "optional" : "discarded");
            EXPECT_EQ(q.tail.keeps.has_value(), keeps) << line;
            EXPECT_EQ(q.tail.material.has_value(), material) << line;
            if (q.tail.material) {
                EXPECT_EQ(q.tail.material->value, "fine sea-salt 2");
            }
            EXPECT_EQ(q.tail.role.has_value(), role) << line;
            if (q.tail.role) {
                EXPECT_EQ(raw(p, q.tail.role->place), "aromatic");
            }
            EXPECT_EQ(q.tail.label.has_value(), label) << line;
            if (q.tail.label) {
                EXPECT_EQ(q.tail.label->value, "a label");
            }
            EXPECT_FALSE(q.each_jar);
            EXPECT_EQ(raw(p, p.document.lines.at(1).place), line);
        }
    }
}

TEST(LanguageStatement, TotalsAndLetsHaveALabelOnly) {
    for (const char* word : {"total", "let"}) {
        const Parsed p = parse_line(std::string(word) + " x = 5 kg \"of all\"");
        const auto& q = second<Quantity>(p);
        EXPECT_EQ(q.tail.label->value, "of all");
        for (const char* tail : {"optional", "discarded", "as salt", "counts as other"})
            EXPECT_EQ(codes(parse_line(std::string(word) + " x = 5 kg " + tail).findings),
                      "tail-order");
    }
}

TEST(LanguageStatement, CountsForEachJar) {
    const Parsed p = parse_line("count bay = 1 each jar optional as bay leaf");
    const auto& q = second<Quantity>(p);
    EXPECT_TRUE(q.each_jar);
    EXPECT_TRUE(q.tail.optional);
    EXPECT_EQ(q.tail.material->value, "bay leaf");
    EXPECT_EQ(codes(parse_line("count bay = 1 each").findings), "expected-word");
    EXPECT_EQ(codes(parse_line("weigh bay = 1 g each jar").findings), "tail-order");
}

TEST(LanguageStatement, MeasuresAreTakenLater) {
    const Parsed p = parse_line("measure drained about 700..900 g replaces cabbage as cabbage "
                                "counts as vegetable \"after an hour\"");
    const auto& q = second<Quantity>(p);
    EXPECT_EQ(q.word, QuantityWord::measure);
    EXPECT_EQ(q.value, no_node);
    ASSERT_TRUE(q.about);
    EXPECT_TRUE(q.about->amount.range);
    EXPECT_EQ(q.about->amount.low, 700);
    EXPECT_EQ(raw(p, q.about->place), "700..900 g");
    EXPECT_EQ(q.replaces->value, "cabbage");
    EXPECT_EQ(q.tail.material->value, "cabbage");
    EXPECT_EQ(q.tail.role->value, "vegetable");
    EXPECT_EQ(codes(parse_line("measure drained = 3 g").findings), "expected-word");
}

TEST(LanguageStatement, BrinesAreOfWaterOrOfBrine) {
    const Parsed p = parse_line("brine stock = 5 % of water, make 2 L as fine sea salt \"x\"");
    const auto& b = second<BrineLine>(p);
    EXPECT_EQ(b.name.value, "stock");
    EXPECT_EQ(expression(p, b.strength), "5 %");
    EXPECT_EQ(expression(p, b.make), "2 L");
    EXPECT_TRUE(b.of_water);
    EXPECT_EQ(b.material->value, "fine sea salt");
    EXPECT_EQ(b.label->value, "x");
    const Parsed q = parse_line("brine stock = 30 g per L of brine , make 2 * fill_room + 1 L");
    EXPECT_FALSE(second<BrineLine>(q).of_water);
    EXPECT_EQ(expression(q, second<BrineLine>(q).strength), "(30 g per L)");
    EXPECT_EQ(codes(parse_line("brine b = 5 % of milk, make 2 L").findings), "expected-word");
    EXPECT_EQ(codes(parse_line("brine b = 5 % of water make 2 L").findings), "expected-comma");
    EXPECT_EQ(codes(parse_line("brine b = 2 * 5 % of water, make 2 L").findings), "expected-word");
}

TEST(LanguageStatement, TheVessel) {
    EXPECT_EQ(codes(parse_line("fill (cabbage + carrot) / packed").findings), "");
    EXPECT_EQ(codes(parse_line("headspace 12 %").findings), "");
    EXPECT_EQ(codes(parse_line("headspace 3 cm").findings), "");
    const Parsed p = parse_line("topup 2 % as fine sea salt");
    EXPECT_EQ(second<TopUpLine>(p).material->value, "fine sea salt");
    EXPECT_EQ(codes(parse_line("fill").findings), "expected-quantity");
}

TEST(LanguageStatement, BoundsOfTheHouse) {
    const Parsed p = parse_line("hold salt / (a + b) between 2.0 % and 2.5 % + x \"why\"");
    const auto& h = second<HoldLine>(p);
    EXPECT_EQ(expression(p, h.value), "(salt/(a+b))");
    EXPECT_EQ(expression(p, h.at_least), "2.0 %");
    EXPECT_EQ(expression(p, h.at_most), "(2.5 %+x)");
    EXPECT_EQ(h.why->value, "why");
    EXPECT_EQ(raw(p, h.value_place), "salt / (a + b)");
    const Parsed least = parse_line("hold a at least 3 g");
    EXPECT_EQ(expression(least, second<HoldLine>(least).at_least), "3 g");
    EXPECT_EQ(second<HoldLine>(least).at_most, no_node);
    const Parsed most = parse_line("hold a at most 3 g \"w\"");
    EXPECT_EQ(expression(most, second<HoldLine>(most).at_most), "3 g");
    EXPECT_EQ(second<HoldLine>(most).at_least, no_node);
    EXPECT_EQ(codes(parse_line("hold a between 2 and 2.5 %").findings), "ambiguous-between");
    EXPECT_EQ(codes(parse_line("hold a between 2 and 3").findings), "");
    EXPECT_EQ(codes(parse_line("hold a").findings), "expected-bound");
    EXPECT_EQ(codes(parse_line("hold a at 2 %").findings), "expected-word");
    EXPECT_EQ(codes(parse_line("hold a between 2 %").findings), "expected-word");
}

TEST(LanguageStatement, StepsHoldValues) {
    const Parsed p =
        parse_line("step \"Rub {salt} into {{it}}: {salt / 3} \\\"each\\\", {a + b}.\"");
    const auto& s = second<StepLine>(p);
    EXPECT_EQ(pieces(p, s.text), "Rub [salt] into {it}: [(salt/3)] \"each\", [(a+b)].");
    ASSERT_EQ(s.text.pieces.size(), 7U);
    EXPECT_EQ(raw(p, s.text.pieces[5].place), "{a + b}");
    EXPECT_EQ(raw(p, p.document.expressions[s.text.pieces[5].value].place), "a + b");
    EXPECT_EQ(pieces(p, second<StepLine>(parse_line("step \"\"")).text), "");
    EXPECT_EQ(codes(parse_line("step").findings), "expected-text");
    EXPECT_EQ(codes(parse_line("step \"a {b\"").findings), "open-brace");
    EXPECT_EQ(codes(parse_line("step \"a } b\"").findings), "stray-brace");
    EXPECT_EQ(codes(parse_line("step \"a {} b\"").findings), "expected-quantity");
    EXPECT_EQ(codes(parse_line("step \"a {b # c} d\"").findings), "left-over");
    EXPECT_EQ(codes(parse_line("note \"a {b\"").findings), "");
}

TEST(LanguageStatement, ReportsEveryFaultyHoleInItsPlace) {
    const Parsed p = parse_line("step \"\\\"Rub\\\" {salt +} and {a b} and {ok} and {(c}\"");
    ASSERT_EQ(codes(p.findings), "expected-quantity missing-operator expected-close");
    EXPECT_EQ(raw(p, *p.findings.all()[1].place), "b");
    EXPECT_EQ(p.document.lines.size(), 1U);
    EXPECT_TRUE(p.document.expressions.nodes.empty());
}

TEST(LanguageStatement, RestsTendsReadyAndKeep) {
    const Parsed rest = parse_line("rest 1 h 30 min \"under {x}\"");
    EXPECT_EQ(second<RestLine>(rest).time.amount.value, 5400);
    EXPECT_EQ(pieces(rest, *second<RestLine>(rest).text), "under [x]");
    const Parsed tend = parse_line("tend burp every 1 day from day 1 to day 7 \"slowly\"");
    const auto& t = second<TendLine>(tend);
    EXPECT_EQ(t.task.value, "burp");
    EXPECT_EQ(t.every->amount.value, 86400);
    EXPECT_EQ(t.from_day->value, 1);
    EXPECT_EQ(t.to_day->value, 7);
    EXPECT_FALSE(t.on_day);
    EXPECT_TRUE(t.text);
    EXPECT_EQ(second<TendLine>(parse_line("tend top_up on day 3")).on_day->value, 3);
    EXPECT_FALSE(second<TendLine>(parse_line("tend taste every 3 days to day 9")).from_day);
    EXPECT_EQ(codes(parse_line("tend taste").findings), "expected-word");
    EXPECT_EQ(codes(parse_line("tend tast every 1 day").findings), "unknown-task");
    EXPECT_EQ(codes(parse_line("tend taste on day 1.5").findings), "expected-whole");
    const Parsed ready = parse_line("ready day 21 to day 28 at 21 to 24 °C \"or so\"");
    const auto& r = second<ReadyLine>(ready);
    EXPECT_EQ(r.from_day.value, 21);
    EXPECT_EQ(r.to_day->value, 28);
    EXPECT_NEAR(r.from_temperature->amount.value, 294.15, 1e-9);
    EXPECT_NEAR(r.to_temperature->amount.value, 297.15, 1e-9);
    EXPECT_FALSE(second<ReadyLine>(parse_line("ready day 21")).to_day);
    EXPECT_TRUE(second<ReadyLine>(parse_line("ready day 3 at 68 °F")).from_temperature);
    const Parsed keep = parse_line("keep cold for 6 months \"in the {x}\"");
    EXPECT_EQ(second<KeepLine>(keep).period, Period::month);
    EXPECT_EQ(second<KeepLine>(keep).count.value, 6);
    EXPECT_EQ(second<KeepLine>(keep).where.value, "cold");
    EXPECT_EQ(second<KeepLine>(parse_line("keep cool for 1 year")).period, Period::year);
    EXPECT_EQ(second<KeepLine>(parse_line("keep cool for 2 weeks")).period, Period::week);
    EXPECT_EQ(second<KeepLine>(parse_line("keep cool for 2 day")).period, Period::day);
    EXPECT_EQ(codes(parse_line("keep warm for 2 days").findings), "unknown-place");
    EXPECT_EQ(codes(parse_line("keep cold for 2 mnths").findings), "unknown-period");
}

TEST(LanguageStatement, MaterialsOfYourOwn) {
    const Parsed p =
        parse_line("material \"grey salt\" is salt water 8 % density 1.0..1.2 kg/L salt "
                   "90 % ± 2 % piece 5 g source \"the sack\"");
    const auto& m = second<MaterialLine>(p);
    EXPECT_EQ(m.name.value, "grey salt");
    EXPECT_EQ(m.role.value, "salt");
    EXPECT_TRUE(m.density && m.salt && m.water && m.piece && m.source);
    EXPECT_TRUE(m.salt->amount.uncertain);
    EXPECT_EQ(codes(parse_line("material \"x\" is salt salt 90 % salt 80 %").findings),
              "said-twice");
    EXPECT_EQ(codes(parse_line("material \"x\" is slat").findings), "unknown-role");
    EXPECT_EQ(codes(parse_kitchen_line("material \"x\" is other").findings), "");
}

TEST(LanguageStatement, KitchenLines) {
    const Parsed scale = parse_kitchen_line("scale bench reads 1 g up to 5 kg within 1 g");
    EXPECT_EQ(second<ScaleLine>(scale).capacity.amount.value, 5000);
    EXPECT_TRUE(second<ScaleLine>(scale).tolerance);
    EXPECT_FALSE(second<ScaleLine>(parse_kitchen_line("scale b reads 1 g up to 5 kg")).tolerance);
    EXPECT_FALSE(second<ScaleLine>(scale).bowl);
    const Parsed full =
        parse_kitchen_line("scale bench reads 1 g up to 5 kg within 1 g bowl 350 g use 90 %");
    EXPECT_EQ(second<ScaleLine>(full).bowl->amount.value, 350);
    EXPECT_NEAR(second<ScaleLine>(full).use->amount.value, 0.9, 1e-12);
    const Parsed used = parse_kitchen_line("scale bench reads 1 g up to 5 kg use 90 %");
    EXPECT_TRUE(second<ScaleLine>(used).use && !second<ScaleLine>(used).bowl);
    EXPECT_EQ(codes(parse_kitchen_line("scale b reads 1 g up to 5 kg bowl").findings),
              "expected-amount");
    EXPECT_EQ(codes(parse_kitchen_line("scale b reads 1 g up to 5 kg use 9 % bowl 3 g").findings),
              "left-over");
    const Parsed jar =
        parse_kitchen_line("jar tall holds 1.50 L brimful across 10 cm weights 100 mL have 3");
    const auto& j = second<VesselLine>(jar);
    EXPECT_FALSE(j.crock);
    EXPECT_EQ(j.name.value, "tall");
    EXPECT_TRUE(j.across && j.weights && j.have && !j.section);
    const auto crock = parse_kitchen_line("crock grey holds 8 L brimful section 380 cm^2");
    EXPECT_TRUE(second<VesselLine>(crock).crock);
    EXPECT_TRUE(second<VesselLine>(crock).section);
    EXPECT_EQ(second<SpoonsLine>(parse_kitchen_line("spoons us")).spoons, units::Spoons::us);
    EXPECT_EQ(second<SpoonsLine>(parse_kitchen_line("spoons metric")).spoons,
              units::Spoons::metric);
    EXPECT_EQ(second<SpoonsLine>(parse_kitchen_line("spoons imperial")).spoons,
              units::Spoons::imperial);
    EXPECT_EQ(codes(parse_kitchen_line("spoons big").findings), "unknown-spoons");
    using System = units::Shown::System;
    EXPECT_EQ(second<UnitsLine>(parse_kitchen_line("units us")).system, System::us);
    EXPECT_EQ(second<UnitsLine>(parse_kitchen_line("units metric")).system, System::metric);
    EXPECT_EQ(codes(parse_kitchen_line("units both").findings), "unknown-units");
    EXPECT_EQ(codes(parse_kitchen_line("units").findings), "expected-word");
    EXPECT_EQ(codes(parse_line("units us").findings), "wrong-file");
    // They are names in a recipe all the same.
    for (const char* name : {"units", "bowl", "use"})
        EXPECT_EQ(codes(parse_line(std::string("let ") + name + " = 3 g").findings), "") << name;
    EXPECT_NEAR(second<RoomLine>(parse_kitchen_line("room 19 °C")).temperature.amount.value, 292.15,
                1e-9);
    EXPECT_EQ(codes(parse_kitchen_line("let packed = 0.9 kg/L \"x\"").findings), "");
    EXPECT_EQ(codes(parse_kitchen_line("note \"x\"").findings), "");
    EXPECT_EQ(codes(parse_kitchen_line("scale bench raeds 1 g").findings), "expected-word");
    EXPECT_EQ(codes(parse_kitchen_line("jar tall holds 1 L").findings), "expected-word");
    EXPECT_EQ(codes(parse_kitchen_line("jar tall holds 1 L brimful have 1/2").findings),
              "expected-whole");
}

TEST(LanguageStatement, TextsGoOnOverLines) {
    const Parsed p =
        parse_bytes("recipe \"A\"\nnote \"one\"   # two\n   \"three \\\"\" # x\n\t\"four\"\n"
                    "step \"a {b}\"\n  \"c {d +}\"\nnote \"z\"\n");
    ASSERT_EQ(codes(p.findings), "expected-quantity");
    const LineColumn where = p.document.source.locate(p.findings.all()[0].place->begin);
    EXPECT_EQ(where.line, 6U);
    EXPECT_EQ(where.column, 10U);
    ASSERT_EQ(p.document.lines.size(), 3U);
    EXPECT_EQ(std::get<RemarkLine>(p.document.lines[1].statement).text.value, "one three \" four");
    EXPECT_EQ(raw(p, p.document.lines[2].place), "note \"z\"");
    const Parsed label = parse_line("given cabbage = 1 kg\n   \"cored\"\n   \"and cut\"");
    EXPECT_EQ(second<Quantity>(label).tail.label->value, "cored and cut");
    EXPECT_EQ(codes(parse_line("note \"a\" \"b\"").findings), "left-over");
    EXPECT_EQ(codes(parse_line("note \"a\"\n\n\"b\"").findings), "stray-text");
    EXPECT_EQ(codes(parse_line("note \"a\"\n# c\n\"b\"").findings), "stray-text");
}

TEST(LanguageStatement, TellsCommentsFromTexts) {
    const Parsed p = parse_line("note \"a # b\" # c \"d\"");
    EXPECT_EQ(second<RemarkLine>(p).text.value, "a # b");
    EXPECT_EQ(codes(parse_line("# note \"a").findings), "");
    EXPECT_EQ(codes(parse_line("let a = 3#x").findings), "");
    EXPECT_EQ(codes(parse_line("note \"a").findings), "open-text");
    EXPECT_EQ(codes(parse_line("note \"a\\n\"").findings), "bad-escape");
    EXPECT_EQ(codes(parse_line("note “a”").findings), "curly-quote");
}

} // namespace jarful::language::testing
