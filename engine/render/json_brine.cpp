#include "engine/render/brine_report.hpp"
#include "engine/render/fields/results.hpp"
#include "engine/render/fields/shared.hpp"

namespace jarful::fields {

namespace {

using larder::BrineAnswer;
using AnswerSort = BrineAnswer::Sort;

std::string_view sort_word(AnswerSort sort) {
    switch (sort) {
    case AnswerSort::gauges:
        return "gauges";
    case AnswerSort::mix:
        return "mix";
    case AnswerSort::found:
        return "found";
    case AnswerSort::dilute:
        return "dilute";
    case AnswerSort::strengthen:
        return "strengthen";
    case AnswerSort::too_strong:
        break;
    }
    return "too_strong";
}
constexpr auto answer_words = one_of<AnswerSort>(
    sort_word, {AnswerSort::gauges, AnswerSort::mix, AnswerSort::found, AnswerSort::dilute,
                AnswerSort::strengthen, AnswerSort::too_strong});

using larder::Figure;
constexpr auto density_fields = fields<Figure>({
    {"low", number<&Figure::low>, "The least that it may be.", "g/mL"},
    {"typical", number<&Figure::typical>, "The usual figure.", "g/mL"},
    {"high", number<&Figure::high>, "The most that it may be.", "g/mL"},
    {"source", text<&Figure::source>, "Document."},
});
constexpr Shape<Figure> density{"density", "A density, with the table's error.",
                                table<density_fields>};

using larder::Strength;
constexpr auto strength_fields = fields<Strength>({
    {"percent_of_brine", number<&Strength::percent_of_brine>,
     "g of salt in 100 g of the finished brine."},
    {"percent_of_water", number<&Strength::percent_of_water>, "g of salt to 100 g of water."},
    {"g_per_l_of_brine", number<&Strength::g_per_l_of_brine>,
     "g of salt in a litre of the brine, at the temperature."},
    {"g_per_l_of_water", number<&Strength::g_per_l_of_water>,
     "g of salt to a litre of water, at the temperature."},
    {"salometer", number<&Strength::salometer>, "Degrees; 100 is saturated at 60 °F."},
    {"baume", number<&Strength::baume>, "Degrees for what is heavier than water, at 60 °F."},
    {"specific_gravity", number<&Strength::specific_gravity>,
     "At the temperature, against water as warm."},
    {"density", object<density, &Strength::density>, "Of the brine at the temperature."},
});
constexpr Shape<Strength> strength{"strength", "One strength by every gauge.",
                                   table<strength_fields>};

using larder::BrineMix;
constexpr auto mix_fields = fields<BrineMix>({
    {"salt_g", number<&BrineMix::salt_g>, "To put in.", "g"},
    {"water_g", number<&BrineMix::water_g>, "To put in.", "g"},
    {"water_ml", number<&BrineMix::water_ml>, "The same water.", "mL"},
    {"had_g", number<&BrineMix::had_g>, "Brine that was there before; 0 where none was.", "g"},
    {"had_ml", number<&BrineMix::had_ml>, "The same.", "mL"},
    {"brine_g", number<&BrineMix::brine_g>, "What comes of it.", "g"},
    {"brine_ml", object<interval, &BrineMix::brine_ml>, "The same, with the error of the density.",
     "mL"},
    {"undissolved_g", number<&BrineMix::undissolved_g>, "Of the salt, what stays at the bottom.",
     "g"},
});
constexpr Shape<BrineMix> mix{"brine_mix", "What is put together.", table<mix_fields>};

Reading as_read(const plan::Item& item) {
    return {item.exact_g,
            item.reading_g,
            item.step_g,
            item.scale,
            item.truth,
            item.too_small,
            item.too_small ? std::vector<plan::Portion>() : item.portions};
}

using plan::BrineWeighed;
std::optional<Reading> water(const BrineWeighed& b) {
    if (!b.water) return std::nullopt;
    return as_read(*b.water);
}
std::optional<Reading> salt_put_in(const BrineWeighed& b) {
    if (!b.salt) return std::nullopt;
    return as_read(*b.salt);
}
AnswerSort sort_of(const BrineWeighed& b) {
    return b.answer.sort;
}
std::string_view strength_basis(const BrineWeighed& b) {
    return b.question.of_water ? "water" : "brine";
}
bool assumed(const BrineWeighed& b) {
    return b.question.assumed;
}
double percent_of_brine(const BrineWeighed& b) {
    return 100 * b.answer.fraction;
}
template <auto member>
const auto& of_answer(const BrineWeighed& b) {
    return b.answer.*member;
}
constexpr auto brine_weighed_fields = fields<BrineWeighed>({
    {"sort", choice<answer_words, sort_of>,
     "gauges: a strength alone; mix: salt and water for an amount; found: the strength of a salt "
     "and an amount; dilute: water to add; strengthen: salt to add; too_strong: more salt than "
     "dissolves."},
    {"strength_of", choice<strength_of_words, strength_basis>,
     "How a % or g/L without a word was taken."},
    {"assumed", flag<assumed>, "Whether nobody said so."},
    {"percent_of_brine", number<percent_of_brine>,
     "Asked for, or come out; may be more than dissolves."},
    {"strength", maybe(object<strength, of_answer<&BrineAnswer::strength>>),
     "Null if more than dissolves, or not known."},
    {"from", maybe(object<strength, of_answer<&BrineAnswer::from>>), "Of the brine that is there."},
    {"mix", maybe(object<mix, of_answer<&BrineAnswer::mix>>), "Null for a strength alone."},
    {"in_the_end", maybe(object<mix, of_answer<&BrineAnswer::in_the_end>>),
     "The same, where the amount is what there is in the end."},
    {"water", maybe(object<reading, water>), "The water to put in."},
    {"salt", maybe(object<reading, salt_put_in>), "The salt to put in."},
    {"as_weighed_percent", maybe(object<interval, &BrineWeighed::percent_of_brine>),
     "Of the finished brine in the worst case of the weighings.", "percent"},
});
constexpr Shape<BrineWeighed> brine_weighed{"brine_answer", "An answer.",
                                            table<brine_weighed_fields>};

struct AskedBrine {
    const plan::BrineSheet* sheet;
    std::string_view asked;
};
double celsius(const AskedBrine& brine) {
    return brine.sheet->taken.question.celsius;
}
KitchenHead kitchen(const AskedBrine& brine) {
    return kitchen_head(*brine.sheet);
}
double saturated(const AskedBrine& /*unused*/) {
    return 100 * larder::saturation;
}
template <auto member>
inline constexpr auto of_sheet = through<&AskedBrine::sheet, member>;
constexpr auto brine_fields = fields<AskedBrine>({
    {"asked", text<&AskedBrine::asked>, "The words as typed."},
    {"celsius", number<celsius>, "Of the brine.", "°C"},
    {"kitchen", object<kitchen_head_shape, kitchen>},
    {"saturated_percent_of_brine", number<saturated>,
     "More than this does not dissolve, percent of the brine."},
    {"answer", object<brine_weighed, of_sheet<&plan::BrineSheet::taken>>},
    {"otherwise", maybe(object<brine_weighed, of_sheet<&plan::BrineSheet::otherwise>>),
     "The same with a bare % or g/L taken the other way; null where somebody said which, or the "
     "scale shows no difference."},
});
constexpr Shape<AskedBrine> brine_shape{"brine", "A brine.", table<brine_fields>};

} // namespace

constexpr Result brine_result{
    "brine", "jarful.brine/1",
    "The answer of `jarful brine --json`. Masses in g of pure salt and water, volumes in mL, "
    "percentages written 3.5 for 3.5 %.",
    brine_shape};

} // namespace jarful::fields

namespace jarful::render {

std::string brine_json(const plan::BrineSheet& sheet, const std::string& asked) {
    return fields::document(fields::brine_result, fields::brine_shape,
                            fields::AskedBrine{&sheet, asked});
}

} // namespace jarful::render
