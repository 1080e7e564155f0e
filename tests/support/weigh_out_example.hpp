#pragma once

#include "engine/plan/weigh_out.hpp"

/// A weigh-out made by hand: every sort of line in it, and figures that are easy to check.
namespace jarful::testing {

inline plan::Item example_item(const char* name, const char* material, double exact, double step,
                               const char* scale) {
    plan::Item item;
    item.name = name;
    item.word = "weigh";
    item.material = material;
    item.role = larder::Role::aromatic;
    item.exact_g = exact;
    item.step_g = step;
    item.scale = scale;
    item.reading_g = exact;
    item.truth = {exact - 1.5 * step, exact + 1.5 * step};
    item.portions = {{scale, exact}};
    return item;
}

inline plan::WeighOut example_weigh_out() {
    using plan::MethodLine;
    using plan::TextPiece;
    plan::WeighOut out;
    out.title = "Quay Street winter kraut";
    out.version = 4;
    out.kind = "kraut";
    out.kind_title = "shredded, dry-salted cabbage";
    out.kitchen = "Quay Street";
    out.in_jar_g = 1883.3;
    out.givens = {example_item("cabbage", "white cabbage", 1840, 1, "bench")};
    out.givens[0].word = "given";
    out.givens[0].role = larder::Role::vegetable;
    out.givens[0].label = "cored and shredded, 3 mm";
    out.items = {example_item("salt", "fine sea salt", 42.9, 0.1, "pocket"),
                 example_item("mustard", "mustard seed", 0.4, 1, "bench"),
                 example_item("drained", "cabbage", 900, 1, "bench")};
    out.items[0].role = larder::Role::salt;
    out.items[1].reading_g = 0;
    out.items[1].too_small = true;
    out.items[1].spoon_ml = 0.6;
    out.items[2].fate = plan::Fate::later;
    out.items[2].word = "measure";
    out.items[2].truth = {850, 950};
    plan::Count bay;
    bay.name = "bay";
    bay.material = "bay leaf";
    bay.count = 2;
    bay.exact = 1.84;
    out.counts = {bay};

    plan::SaltJudgement salt;
    salt.figure = {larder::Basis::of_vegetables, 2.2, {2.17, 2.23}};
    salt.low = plan::RangeEnd{2, "A grade standard, section 1", "published", "row-a"};
    salt.high = plan::RangeEnd{3, "A grade standard, section 1", "published", "row-a"};
    salt.why = "The standard is the one limit in words";
    salt.verdict = plan::Verdict::inside;
    salt.reason = "All of 2.17 to 2.23 % is inside";
    salt.nearby = {{"1.93 % (worked out)", "A guide (ingredient list)"}};
    salt.variants = {{"without mustard", {2.17, 2.23}, plan::Verdict::inside}};
    out.salt = salt;
    out.other_bases = {{larder::Basis::of_everything, 2.14, {2.12, 2.16}}};

    plan::HoldCheck hold;
    hold.text = "salt / cabbage";
    hold.unit = "%";
    hold.why = "below it goes soft, above it stalls";
    hold.value = {2.17, 2.23};
    hold.at_least = 2;
    hold.at_most = 2.5;
    hold.verdict = plan::Verdict::inside;
    hold.reason = "It is all inside.";
    out.checks = {hold};

    out.room = plan::Room{2170, {2160, 2180}, 12.0, std::nullopt, 2466.0};
    plan::TopUp mix;
    mix.percent = 2;
    mix.stated = true;
    mix.water_g = 250;
    mix.salt_g = 5;
    mix.before_percent = 2.15;
    mix.after_percent = 2.13;
    out.top_up = mix;

    MethodLine rub;
    TextPiece words;
    words.words = "Rub ";
    TextPiece reading;
    reading.sort = TextPiece::Sort::reading;
    reading.value = 42.9;
    reading.step_g = 0.1;
    TextPiece goes;
    goes.words = " in, in goes of ";
    TextPiece portions;
    portions.sort = TextPiece::Sort::portions;
    portions.step_g = 0.1;
    portions.portions = {14.5, 14.2, 14.2};
    TextPiece end;
    end.words = ".";
    rub.text = {words, reading, goes, portions, end};
    MethodLine wait;
    wait.sort = MethodLine::Sort::rest;
    wait.seconds = 1800;
    MethodLine burp;
    burp.sort = MethodLine::Sort::tend;
    burp.task = "burp";
    burp.seconds = 86400;
    burp.from_day = 1;
    burp.to_day = 7;
    MethodLine ready;
    ready.sort = MethodLine::Sort::ready;
    ready.from_day = 21;
    ready.to_day = 28;
    ready.from_kelvin = 294.15;
    ready.to_kelvin = 297.15;
    MethodLine keep;
    keep.sort = MethodLine::Sort::keep;
    keep.task = "cold";
    keep.count = 6;
    keep.period = "month";
    out.method_lines = {rub, wait, burp, ready, keep};
    out.cautions = {{"ph", "Check the pH", "It must be 4.6 or below.", "A regulation"}};
    out.assumptions = {"Spoons are taken as US spoons"};
    out.sources = {"house notes, three seasons"};
    out.verdict = plan::Verdict::inside;
    return out;
}

} // namespace jarful::testing
