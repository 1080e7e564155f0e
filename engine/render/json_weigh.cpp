#include "engine/render/json_weigh.hpp"

#include "engine/render/json_parts.hpp"
#include "engine/render/words.hpp"
#include "engine/units/amount.hpp"

#include <nlohmann/json.hpp>

namespace jarful::render {

using Json = nlohmann::ordered_json;

namespace {

Json role(const std::optional<larder::Role>& role) {
    return role ? Json(larder::describe(*role)) : Json(nullptr);
}

template <class Value>
Json optional(const std::optional<Value>& value) {
    return value ? json_number(static_cast<double>(*value)) : Json(nullptr);
}

Json item(const plan::Item& item) {
    const bool weighed = item.fate != plan::Fate::later || item.entered;
    Json portions = Json::array();
    if (weighed && !item.too_small) {
        for (const plan::Portion& portion : item.portions) {
            portions.push_back(
                Json{{"scale", portion.scale}, {"reading_g", json_number(portion.reading_g)}});
        }
        if (item.portions.empty()) {
            portions.push_back(
                Json{{"scale", item.scale}, {"reading_g", json_number(item.reading_g)}});
        }
    }
    Json out{{"name", item.name},
             {"label", json_text(item.label)},
             {"word", item.word},
             {"role", role(item.role)},
             {"material", json_text(item.material)},
             {"optional", item.fate == plan::Fate::optional},
             {"fate", plan::key(item.fate)},
             {"entered", item.entered},
             {"solved", item.solved},
             {"poured", item.poured},
             {"moved", item.moved},
             {"exact_g", json_number(item.exact_g)},
             {"reading_g", weighed ? json_number(item.reading_g) : Json(nullptr)},
             {"step_g", json_number(item.step_g)},
             {"scale", json_text(item.scale)},
             {"low_g", json_low(item.truth)},
             {"high_g", json_high(item.truth)},
             {"too_small", item.too_small},
             {"portions", std::move(portions)}};
    if (item.written_ml) out["written_ml"] = json_number(*item.written_ml);
    if (item.spread_g) {
        out["spread_g"] =
            Json{{"low", json_low(*item.spread_g)}, {"high", json_high(*item.spread_g)}};
    }
    if (item.display_g) out["display_g"] = json_number(*item.display_g);
    if (item.spoon_ml) out["spoon_ml"] = json_number(*item.spoon_ml);
    return out;
}

Json count(const plan::Count& count) {
    return Json{{"name", count.name},
                {"label", json_text(count.label)},
                {"role", role(count.role)},
                {"material", json_text(count.material)},
                {"optional", count.fate == plan::Fate::optional},
                {"fate", plan::key(count.fate)},
                {"count", count.count},
                {"exact", json_number(count.exact)},
                {"each_jar", count.each_jar}};
}

Json stock(const plan::Stock& stock) {
    return Json{{"name", stock.name},
                {"label", json_text(stock.label)},
                {"strength_percent", json_number(stock.strength_percent)},
                {"strength_of", stock.of_water ? "water" : "brine"},
                {"made_g", json_number(stock.made_g)},
                {"made_ml", json_number(stock.made_ml)},
                {"poured_g", json_number(stock.poured_g)},
                {"left_g", json_number(stock.left_g)},
                {"water", item(stock.water)},
                {"salt", item(stock.salt)}};
}

Json top_up(const plan::TopUp& mix) {
    return Json{{"percent", json_number(mix.percent)},
                {"material", json_text(mix.material)},
                {"stated", mix.stated},
                {"source", json_text(mix.source)},
                {"water_g", json_number(mix.water_g)},
                {"salt_g", json_number(mix.salt_g)},
                {"before_percent", optional(mix.before_percent)},
                {"after_percent", optional(mix.after_percent)}};
}

Json room(const plan::Room& room) {
    return Json{{"fill_ml", json_number(room.fill_ml)},
                {"low_ml", json_low(room.fill_bounds)},
                {"high_ml", json_high(room.fill_bounds)},
                {"headspace_percent", optional(room.headspace_percent)},
                {"headspace_cm", optional(room.headspace_cm)},
                {"brimful_ml", optional(room.brimful_ml)}};
}

Json answer(const plan::Answer& answer) {
    Json moved = Json::array();
    for (const plan::Answer::Moved& one : answer.moved) {
        moved.push_back(Json{{"name", one.name},
                             {"exact_g", json_number(one.exact_g)},
                             {"entered_g", json_number(one.entered_g)}});
    }
    Json others = Json::array();
    for (const double grams : answer.others_g)
        others.push_back(json_number(grams));
    return Json{
        {"asked", answer.asked}, {"moved", std::move(moved)}, {"others_g", std::move(others)}};
}

Json no_reading(const plan::NoReading& none) {
    return Json{{"limit", none.limit},
                {"batch_name", none.batch_name ? Json(*none.batch_name) : Json(nullptr)},
                {"batch_g", optional(none.batch_g)},
                {"step_g", optional(none.step_g)},
                {"brine_percent", optional(none.brine_percent)},
                {"brine_g", optional(none.brine_g)}};
}

Json celsius(const std::optional<double>& kelvin) {
    return kelvin ? json_number(*kelvin - units::zero_celsius) : Json(nullptr);
}

Json day(const std::optional<int>& number) {
    return number ? Json(*number) : Json(nullptr);
}

/// What is looked after, as fields: for a program that puts dates to it.
Json tending(const plan::MethodLine& line) {
    using Sort = plan::MethodLine::Sort;
    const bool keep = line.sort == Sort::keep;
    const bool tend = line.sort == Sort::tend;
    return Json{
        {"what", tend   ? "tend"
                 : keep ? "keep"
                        : "ready"},
        {"task", tend ? Json(line.task) : Json(nullptr)},
        {"every_days", tend && line.seconds ? json_number(*line.seconds / 86'400) : Json(nullptr)},
        {"on_day", day(line.on_day)},
        {"from_day", day(line.from_day)},
        {"to_day", day(line.to_day)},
        {"celsius_low", celsius(line.from_kelvin)},
        {"celsius_high", celsius(line.to_kelvin ? line.to_kelvin : line.from_kelvin)},
        {"where", keep ? Json(line.task) : Json(nullptr)},
        {"count", keep ? Json(line.count) : Json(nullptr)},
        {"period", keep ? Json(line.period) : Json(nullptr)},
        {"text", json_text(plain(line.text, Units::metric))}};
}

template <class List, class Make>
Json array(const List& list, Make make) {
    Json out = Json::array();
    for (const auto& entry : list)
        out.push_back(make(entry));
    return out;
}

} // namespace

std::string weigh_json(const plan::WeighOut& out) {
    Json steps = Json::array();
    Json afterwards = Json::array();
    Json looked_after = Json::array();
    for (const plan::MethodLine& line : out.method_lines) {
        (is_step(line) ? steps : afterwards).push_back(sentence(line, Units::metric));
        if (!is_step(line)) looked_after.push_back(tending(line));
    }
    Json document;
    document["format"] = "jarful.weigh/1";
    document["recipe"] = Json{{"title", out.title},
                              {"version", out.version ? Json(*out.version) : Json(nullptr)},
                              {"kind", json_text(out.kind)},
                              {"kind_title", json_text(out.kind_title)},
                              {"method", json_text(out.method)}};
    document["kitchen"] = Json{{"name", out.kitchen}, {"built_in", out.kitchen_built_in}};
    document["verdict"] = out.verdict ? Json(plan::describe(*out.verdict)) : Json(nullptr);
    document["left_out"] = out.left_out;
    document["answer"] = out.answer ? answer(*out.answer) : Json(nullptr);
    document["no_reading"] = out.no_reading ? no_reading(*out.no_reading) : Json(nullptr);
    document["bowl"] = out.bowl ? Json{{"tare_g", json_number(out.bowl->tare_g)},
                                       {"scale", json_text(out.bowl->scale)}}
                                : Json(nullptr);
    document["chosen_jars"] = out.chosen_jars;
    document["usable_ml"] = out.chosen_jars.empty() ? Json(nullptr) : json_number(out.usable_ml);
    document["in_jar_g"] = json_number(out.in_jar_g);
    document["givens"] = array(out.givens, item);
    document["items"] = array(out.items, item);
    document["counts"] = array(out.counts, count);
    document["stocks"] = array(out.stocks, stock);
    document["salt"] = out.salt ? json_salt(*out.salt) : Json(nullptr);
    if (!out.salt) {
        document["salt_reason"] =
            out.no_salt_reason.empty() ? "The recipe says no kind of ferment." : out.no_salt_reason;
    }
    if (out.salt_needed) {
        const plan::SaltNeeded& needed = *out.salt_needed;
        document["salt_needed"] =
            Json{{"name", needed.name},
                 {"low_g", json_number(needed.low_g)},
                 {"high_g", needed.high_g ? json_number(*needed.high_g) : Json(nullptr)}};
    }
    document["other_bases"] = array(out.other_bases, [](const plan::BasisFigure& figure) {
        return Json{{"basis", larder::key(figure.basis)},
                    {"percent", json_number(figure.percent)},
                    {"low", json_low(figure.bounds)},
                    {"high", json_high(figure.bounds)}};
    });
    document["checks"] = array(out.checks, json_check_line);
    if (out.room) document["room"] = room(*out.room);
    if (!out.jars.empty()) document["jars"] = json_jar_shares(out.jars);
    if (out.jar_choice && out.jar_choice->unplaced_ml > 0)
        document["unplaced"] = Json{{"ml", json_number(out.jar_choice->unplaced_ml)},
                                    {"g", json_number(out.jar_choice->unplaced_g)},
                                    {"why", out.jar_choice->why}};
    if (out.top_up) document["top_up"] = top_up(*out.top_up);
    document["steps"] = std::move(steps);
    document["afterwards"] = std::move(afterwards);
    document["tending"] = std::move(looked_after);
    document["cautions"] = array(out.cautions, [](const plan::Warning& warning) {
        return Json{{"id", warning.id},
                    {"title", warning.title},
                    {"text", warning.text},
                    {"source", json_text(warning.source)}};
    });
    document["assumptions"] = out.assumptions;
    document["sources"] = out.sources;
    return dumped(document);
}

} // namespace jarful::render
