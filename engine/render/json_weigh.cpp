#include "engine/render/json_weigh.hpp"

#include "engine/render/fields/results.hpp"
#include "engine/render/fields/shared.hpp"
#include "engine/render/words.hpp"
#include "engine/units/amount.hpp"

namespace jarful::fields {

namespace {

// ---- What is weighed and counted. ----

using plan::Item;

/// What is weighed later has no reading yet, unless it was entered.
bool has_reading(const Item& item) {
    return item.fate != plan::Fate::later || item.entered;
}

Reading reading_of(const Item& item) {
    Reading out{item.exact_g, std::nullopt,   item.step_g, item.scale,
                item.truth,   item.too_small, {}};
    if (!has_reading(item)) return out;
    out.reading_g = item.reading_g;
    if (item.too_small) return out;
    out.portions = item.portions;
    if (out.portions.empty()) out.portions = {{item.scale, item.reading_g}};
    return out;
}

template <class T>
bool is_optional_line(const T& line) {
    return line.fate == plan::Fate::optional;
}

constexpr auto statement_words =
    one_of_words({"given", "total", "share", "weigh", "cap", "measure", "brine"});

constexpr auto item_fields = fields<Item>({
    {"name", text<&Item::name>, "The name in the recipe."},
    {"label", maybe(text<&Item::label>), "The text beside it."},
    {"word", choice<statement_words, &Item::word>, "The statement it comes from."},
    {"role", maybe(choice<role_words, &Item::role>)},
    {"material", maybe(text<&Item::material>),
     "The entry of the larder, or the brine, as resolved."},
    {"optional", flag<is_optional_line<Item>>, "Whether the cook may leave it out."},
    {"fate", choice<fate_words, &Item::fate>},
    {"entered", flag<&Item::entered>, "Whether it was set from outside."},
    {"solved", flag<&Item::solved>, "Whether it answers a question asked backwards."},
    {"poured", flag<&Item::poured>, "Whether it is what really went in, as the cook says."},
    {"moved", flag<&Item::moved>, "Not the nearest reading: the nearest that keeps the bounds."},
    parts<reading, reading_of>,
    {"written_ml", sometimes(number<&Item::written_ml>), "The volume that the recipe says.", "mL"},
    {"spread_g", sometimes(object<interval, &Item::spread_g>), "What so much by volume may weigh.",
     "g"},
    {"display_g", sometimes(number<&Item::display_g>),
     "What the display shows when so much is in the one bowl; absent where there is none.", "g"},
    {"spoon_ml", sometimes(number<&Item::spoon_ml>),
     "About how much by the spoon, for what the scale cannot show.", "mL"},
});
constexpr Shape<Item> item{"item", "One quantity on one scale, and what it is.",
                           table<item_fields>};

using plan::Count;
constexpr auto count_fields = fields<Count>({
    {"name", text<&Count::name>, "The name in the recipe."},
    {"label", maybe(text<&Count::label>), "The text beside it."},
    {"role", maybe(choice<role_words, &Count::role>)},
    {"material", maybe(text<&Count::material>), "The entry of the larder."},
    {"optional", flag<is_optional_line<Count>>, "Whether the cook may leave it out."},
    {"fate", choice<fate_words, &Count::fate>},
    {"count", how_many<&Count::count>, "Whole pieces."},
    {"exact", number<&Count::exact>, "What the recipe comes to, and what other lines use."},
    {"each_jar", flag<&Count::each_jar>, "So many in every jar."},
});
constexpr Shape<Count> count{"count", "Whole pieces.", table<count_fields>};

using plan::Stock;
std::string_view strength_of(const Stock& stock) {
    return stock.of_water ? "water" : "brine";
}
constexpr auto stock_fields = fields<Stock>({
    {"name", text<&Stock::name>, "The name in the recipe."},
    {"label", maybe(text<&Stock::label>), "The text beside it."},
    {"strength_percent", number<&Stock::strength_percent>, "As stated.", "percent"},
    {"strength_of", choice<strength_of_words, strength_of>,
     "Salt per water, or per finished brine."},
    {"made_g", number<&Stock::made_g>, "What is made of it.", "g"},
    {"made_ml", number<&Stock::made_ml>, "The same by its usual density.", "mL"},
    {"poured_g", number<&Stock::poured_g>, "What goes in the jar.", "g"},
    {"left_g", number<&Stock::left_g>, "What is left over; negative if not enough is made.", "g"},
    {"water", object<item, &Stock::water>},
    {"salt", object<item, &Stock::salt>},
});
constexpr Shape<Stock> stock{"stock", "A brine made beforehand.", table<stock_fields>};

// ---- Room, top-up, bowl. ----

using plan::TopUp;
constexpr auto top_up_fields = fields<TopUp>({
    {"percent", number<&TopUp::percent>, "Salt in g per 100 g of water."},
    {"material", maybe(text<&TopUp::material>), "Which salt."},
    {"stated", flag<&TopUp::stated>, "Whether the recipe says it; otherwise source does."},
    {"source", maybe(text<&TopUp::source>), "Of a published top-up."},
    {"water_g", number<&TopUp::water_g>, "A glass of water.", "g"},
    {"salt_g", number<&TopUp::salt_g>, "The salt for it.", "g"},
    {"before_percent", maybe(number<&TopUp::before_percent>), "Salt of everything in the jar.",
     "percent"},
    {"after_percent", maybe(number<&TopUp::after_percent>), "The same after one glass.", "percent"},
});
constexpr Shape<TopUp> top_up{"top_up", "What to mix if the juice does not cover.",
                              table<top_up_fields>};

using plan::Room;
constexpr auto room_fields = fields<Room>({
    {"fill_ml", number<&Room::fill_ml>, "What it likely takes.", "mL"},
    {"low_ml", low<&Room::fill_bounds>, "The least that it may take.", "mL"},
    {"high_ml", high<&Room::fill_bounds>, "The most that it may take.", "mL"},
    {"headspace_percent", maybe(number<&Room::headspace_percent>),
     "What stays free above, in percent of the brimful volume; null where the recipe says none, or "
     "a height."},
    {"headspace_cm", maybe(number<&Room::headspace_cm>),
     "The height that stays free above; null where the recipe says none, or a share.", "cm"},
    {"brimful_ml", maybe(number<&Room::brimful_ml>), "A vessel of so much would hold it.", "mL"},
});
constexpr Shape<Room> room{"room", "The room that the batch takes.", table<room_fields>};

using plan::Bowl;
constexpr auto bowl_fields = fields<Bowl>({
    {"tare_g", number<&Bowl::tare_g>, "The empty bowl.", "g"},
    {"scale", maybe(text<&Bowl::scale>), "The scale that carries it all; null if none does."},
});
constexpr Shape<Bowl> bowl{"bowl", "The one bowl that everything is weighed into.",
                           table<bowl_fields>};

// ---- Questions, and what would do. ----

using Moved = plan::Answer::Moved;
constexpr auto moved_fields = fields<Moved>({
    {"name", text<&Moved::name>, "The name in the recipe."},
    {"exact_g", maybe(number<&Moved::exact_g>), "What answers the question exactly.", "g"},
    {"entered_g", maybe(number<&Moved::entered_g>),
     "The same on the scale's step: the rest is computed from it.", "g"},
});
constexpr Shape<Moved> moved{"moved", "A given or a total.", table<moved_fields>};

using plan::Answer;
constexpr auto answer_fields = fields<Answer>({
    {"asked", text<&Answer::asked>, "As in \"salt = 24 g\"."},
    {"moved", list<moved, &Answer::moved>, "What answers it."},
    {"others_g", numbers<&Answer::others_g>,
     "Other answers, as the weight of the first that moved; the one taken is the smallest change.",
     "g"},
});
constexpr Shape<Answer> answer{"answer", "A question asked backwards, and its answer.",
                               table<answer_fields>};

using plan::NoReading;
constexpr auto no_reading_fields = fields<NoReading>({
    {"limit", text<&NoReading::limit>, "What cannot be kept: the salt, or a bound as written."},
    {"batch_name", maybe(text<&NoReading::batch_name>),
     "A given of the smallest batch that would do."},
    {"batch_g", maybe(number<&NoReading::batch_g>), "Its weight.", "g"},
    {"step_g", maybe(number<&NoReading::step_g>),
     "A scale of this step, as exact as its step, would do.", "g"},
    {"brine_percent", maybe(number<&NoReading::brine_percent>),
     "Salt weighed as a brine that has so much salt in it would do.", "percent"},
    {"brine_g", maybe(number<&NoReading::brine_g>), "How much of that brine.", "g"},
});
constexpr Shape<NoReading> no_reading{"no_reading", "What would do where no reading holds.",
                                      table<no_reading_fields>};

using plan::SaltNeeded;
constexpr auto salt_needed_fields = fields<SaltNeeded>({
    {"name", text<&SaltNeeded::name>, "The line's."},
    {"low_g", number<&SaltNeeded::low_g>, "The least that the scale may show.", "g"},
    {"high_g", maybe(number<&SaltNeeded::high_g>),
     "The most that it may show; null where the range has no upper end.", "g"},
});
constexpr Shape<SaltNeeded> salt_needed{
    "salt_needed",
    "The readings of the one line of salt by which the salt is inside its range in every variant, "
    "and the bounds of the house are kept if that can be.",
    table<salt_needed_fields>};

// ---- What is looked after: for a program that puts dates to it. ----

using Line = plan::MethodLine;
using Sort = plan::MethodLine::Sort;

bool is_tend(const Line& line) {
    return line.sort == Sort::tend;
}
bool is_keep(const Line& line) {
    return line.sort == Sort::keep;
}
std::string_view tending_word(Sort sort) {
    return sort == Sort::tend ? "tend" : sort == Sort::keep ? "keep" : "ready";
}
constexpr auto tending_words = one_of<Sort>(tending_word, {Sort::tend, Sort::ready, Sort::keep});
std::optional<std::string_view> task(const Line& line) {
    if (!is_tend(line)) return std::nullopt;
    return line.task;
}
std::optional<std::string_view> where(const Line& line) {
    if (!is_keep(line)) return std::nullopt;
    return line.task;
}
std::optional<double> every_days(const Line& line) {
    if (!is_tend(line) || !line.seconds) return std::nullopt;
    return *line.seconds / 86'400;
}
std::optional<double> celsius(const std::optional<double>& kelvin) {
    if (!kelvin) return std::nullopt;
    return *kelvin - units::zero_celsius;
}
std::optional<double> celsius_low(const Line& line) {
    return celsius(line.from_kelvin);
}
std::optional<double> celsius_high(const Line& line) {
    return celsius(line.to_kelvin ? line.to_kelvin : line.from_kelvin);
}
std::optional<int> keep_count(const Line& line) {
    if (!is_keep(line)) return std::nullopt;
    return line.count;
}
std::optional<std::string_view> keep_period(const Line& line) {
    if (!is_keep(line)) return std::nullopt;
    return line.period;
}
std::string remark(const Line& line) {
    return render::plain(line.text, render::Units::metric);
}
constexpr auto tending_fields = fields<Line>({
    {"what", choice<tending_words, &Line::sort>, "What the line is about."},
    {"task", maybe(word<task_words, task>), "Of `tend`: what is to be done."},
    {"every_days", maybe(number<every_days>),
     "Of `tend`: how often, in days; 0.5 is every 12 hours. null for one day."},
    {"on_day", maybe(whole<&Line::on_day>),
     "Of `tend`: the one day, counted from the packing of the jar, which is day 0."},
    {"from_day", maybe(whole<&Line::from_day>), "The first day."},
    {"to_day", maybe(whole<&Line::to_day>), "The last day."},
    {"celsius_low", maybe(number<celsius_low>),
     "Of `ready`: the temperature that the days are for.", "°C"},
    {"celsius_high", maybe(number<celsius_high>), "Of `ready`: its upper end.", "°C"},
    {"where", maybe(choice<place_words, where>), "Of `keep`: what kind of place."},
    {"count", maybe(whole<keep_count>), "Of `keep`: how many periods it keeps."},
    {"period", maybe(word<period_words, keep_period>),
     "Of `keep`: what is counted. A month is a calendar month."},
    {"text", maybe(text<remark>), "The remark of the line, its values put in."},
});
constexpr Shape<Line> tending{"tending", "A line of what to look after, without dates.",
                              table<tending_fields>};

// ---- The whole. ----

using plan::WeighOut;

struct WeighedRecipe {
    std::string_view title;
    std::optional<int> version;
    std::string_view kind, kind_title, method;
};
WeighedRecipe recipe_of(const WeighOut& out) {
    return {out.title, out.version, out.kind, out.kind_title, out.method};
}
constexpr auto weighed_recipe_fields = fields<WeighedRecipe>({
    {"title", text<&WeighedRecipe::title>, "As in the recipe."},
    {"version", maybe(whole<&WeighedRecipe::version>), "As in the recipe."},
    {"kind", maybe(text<&WeighedRecipe::kind>), "The kind of ferment."},
    {"kind_title", maybe(text<&WeighedRecipe::kind_title>), "The kind in words."},
    {"method", maybe(text<&WeighedRecipe::method>), "The kind's method, where it has several."},
});
constexpr Shape<WeighedRecipe> weighed_recipe{"weighed_recipe", "The recipe.",
                                              table<weighed_recipe_fields>};

std::optional<double> usable_ml(const WeighOut& out) {
    if (out.chosen_jars.empty()) return std::nullopt;
    return out.usable_ml;
}
std::string_view salt_reason(const WeighOut& out) {
    if (out.salt) return "";
    return out.no_salt_reason.empty() ? std::string_view("The recipe says no kind of ferment.")
                                      : std::string_view(out.no_salt_reason);
}
using plan::JarChoice;
constexpr auto unplaced_fields = fields<JarChoice>({
    {"ml", number<&JarChoice::unplaced_ml>, "The room that it would take.", "mL"},
    {"g", number<&JarChoice::unplaced_g>, "Its weight, without whole pieces.", "g"},
    {"why", text<&JarChoice::why>, "Why it has no place."},
});
constexpr Shape<JarChoice> unplaced{"unplaced", "What has no place in the jars.",
                                    table<unplaced_fields>};
const JarChoice* unplaced_of(const WeighOut& out) {
    return out.jar_choice && out.jar_choice->unplaced_ml > 0 ? &*out.jar_choice : nullptr;
}
const std::vector<plan::JarShare>* jars_of(const WeighOut& out) {
    return out.jars.empty() ? nullptr : &out.jars;
}
template <bool steps>
std::vector<std::string> sentences(const WeighOut& out) {
    std::vector<std::string> list;
    for (const Line& line : out.method_lines)
        if (render::is_step(line) == steps)
            list.push_back(render::sentence(line, render::Units::metric));
    return list;
}
std::vector<const Line*> looked_after(const WeighOut& out) {
    std::vector<const Line*> list;
    for (const Line& line : out.method_lines)
        if (!render::is_step(line)) list.push_back(&line);
    return list;
}

constexpr auto weigh_fields = fields<WeighOut>({
    {"recipe", object<weighed_recipe, recipe_of>},
    {"kitchen", object<kitchen_head_shape, kitchen_head<WeighOut>>},
    {"verdict", maybe(choice<verdict_words, &WeighOut::verdict>),
     "The worst of the salt, of the batch and of each jar, and of the bounds of the house; null if "
     "nothing is judged."},
    {"left_out", texts<&WeighOut::left_out>, "Names of optional lines that were left out."},
    {"answer", maybe(object<answer, &WeighOut::answer>), "Null if nothing was asked backwards."},
    {"no_reading", maybe(object<no_reading, &WeighOut::no_reading>),
     "Null if the readings keep every bound that the exact amounts keep."},
    {"bowl", maybe(object<bowl, &WeighOut::bowl>), "Null if none was said."},
    {"chosen_jars", texts<&WeighOut::chosen_jars>,
     "Jars asked for by name, as the kitchen calls them."},
    {"usable_ml", maybe(number<usable_ml>),
     "What they take under the headspace; null if none were asked for.", "mL"},
    {"in_jar_g", maybe(number<&WeighOut::in_jar_g>),
     "Everything that goes in the jar, by the exact amounts.", "g"},
    {"givens", list<item, &WeighOut::givens>,
     "What is weighed at the counter and can be set from outside."},
    {"items", list<item, &WeighOut::items>, "What else is weighed, in the recipe's order."},
    {"counts", list<count, &WeighOut::counts>, "What is counted."},
    {"stocks", list<stock, &WeighOut::stocks>, "Brines to mix first."},
    {"salt", maybe(object<salt, &WeighOut::salt>),
     "Null if the salt is not judged: see salt_reason."},
    {"salt_reason", sometimes(text<salt_reason>),
     "Why the salt is not judged; only where salt is null."},
    {"salt_needed", sometimes(object<salt_needed, &WeighOut::salt_needed>),
     "The least and the most that the scale may show for the one line of salt so that the salt is "
     "inside its range in every variant, all else being as it is weighed. Absent where the salt is "
     "inside or not judged, where several lines are salt or none is, and where no reading would "
     "do."},
    {"other_bases", list<basis_figure, &WeighOut::other_bases>, "The same salt by other bases."},
    {"checks", list<check, &WeighOut::checks>, "Bounds of the house."},
    {"room", sometimes(object<room, &WeighOut::room>), "Absent if the recipe does not say."},
    {"jars", sometimes(list<jar, jars_of>),
     "What goes into each jar: of those that were named, otherwise of those that `jarful jars` "
     "chooses; absent if there are none."},
    {"unplaced", sometimes(object<unplaced, unplaced_of>), "Only if something has no place."},
    {"top_up", sometimes(object<top_up, &WeighOut::top_up>),
     "Absent where there is nothing to say."},
    {"steps", texts<sentences<true>>,
     "The method with its amounts filled in, in sentences and metric units."},
    {"afterwards", texts<sentences<false>>,
     "What to look after, when it is likely ready, how it keeps, likewise."},
    {"tending", list<tending, looked_after>, "The lines of `afterwards` as fields."},
    {"cautions", list<caution, &WeighOut::cautions>, "What can hurt, and what to do."},
    {"assumptions", texts<&WeighOut::assumptions>, "What was taken for granted, in sentences."},
    {"sources", texts<&WeighOut::sources>, "`source`, `by` and `note` lines, as in the recipe."},
});
constexpr Shape<WeighOut> weigh_shape{"weigh", "A weigh-out.", table<weigh_fields>};

} // namespace

constexpr Result weigh_result{
    "weigh", "jarful.weigh/1",
    "The answer of `jarful weigh --json`. Masses in g, volumes in mL, percentages written 2.2 for "
    "2.2 %.",
    weigh_shape};

} // namespace jarful::fields

namespace jarful::render {

std::string weigh_json(const plan::WeighOut& out) {
    return fields::document(fields::weigh_result, fields::weigh_shape, out);
}

} // namespace jarful::render
