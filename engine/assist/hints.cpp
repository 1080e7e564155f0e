#include "engine/assist/hints.hpp"

#include "engine/render/text_parts.hpp"
#include "engine/render/weigh_words.hpp"
#include "engine/render/words.hpp"

#include <algorithm>
#include <unordered_map>

namespace jarful::assist {

namespace {

using language::Line;
using plan::WeighOut;

/// The end of a line's first row: what goes on over several rows is one text.
std::uint32_t end_of_row(const language::Source& source, const Line& line) {
    const std::string_view text = source.at(line.place);
    const std::size_t row = std::min(text.find('\n'), text.size());
    std::size_t end = row;
    while (end > 0 && (text[end - 1] == ' ' || text[end - 1] == '\t'))
        --end;
    return line.place.begin + static_cast<std::uint32_t>(end);
}

class Hinting {
  public:
    Hinting(const Look& look, const WeighOut& out)
        : look_(look)
        , out_(out)
        , units_(out.shown) {
        for (const auto* list : {&out.givens, &out.items})
            for (const plan::Item& item : *list)
                items_.emplace(item.name, &item);
        for (const plan::Count& count : out.counts)
            counts_.emplace(count.name, &count);
        for (const plan::Stock& stock : out.stocks)
            stocks_.emplace(stock.name, &stock);
        find_values();
    }

    std::vector<Hint> run() {
        const language::Document& document = look_.document();
        const auto own = static_cast<std::uint32_t>(document.source.own_text().size());
        std::size_t hold = 0;
        for (const Line& line : document.lines) {
            const bool holds = std::holds_alternative<language::HoldLine>(line.statement);
            if (line.place.begin < own) {
                Hint hint = of(line, hold);
                hint.at = end_of_row(document.source, line);
                if (!hint.text.empty()) hints_.push_back(std::move(hint));
            }
            if (holds) ++hold; // inherited ones count: the judgement has them all, in this order
        }
        std::stable_sort(hints_.begin(), hints_.end(),
                         [](const Hint& a, const Hint& b) { return a.at < b.at; });
        return std::move(hints_);
    }

  private:
    Hint of(const Line& line, std::size_t hold) {
        if (const auto* q = std::get_if<language::Quantity>(&line.statement)) return quantity(*q);
        if (const auto* b = std::get_if<language::BrineLine>(&line.statement)) return brine(*b);
        if (!look_.whole()) return {};
        if (std::holds_alternative<language::KindLine>(line.statement)) return verdict();
        if (std::holds_alternative<language::HoldLine>(line.statement))
            return hold < out_.checks.size() ? bound(out_.checks[hold]) : Hint{};
        if (std::holds_alternative<language::FillLine>(line.statement)) return fill();
        if (std::holds_alternative<language::TopUpLine>(line.statement)) return top_up();
        return {};
    }

    Hint quantity(const language::Quantity& q) {
        const std::string& name = q.name.value;
        if (!look_.tells(name)) return {};
        if (const auto found = items_.find(name); found != items_.end())
            return item(*found->second);
        if (const auto found = counts_.find(name); found != counts_.end())
            return pieces(*found->second);
        return is_worked_out(q) ? value(name) : Hint{};
    }

    Hint item(const plan::Item& item) {
        Hint out;
        if (item.too_small) {
            out.text = "a pinch";
            out.more = render::pinch_words(item, units_);
        } else if (item.fate == plan::Fate::later && !item.entered) {
            out.text = "about " + render::mass(item.exact_g, units_);
            out.more = render::later_words(item, units_);
        } else {
            out.text = render::reading_words(item.reading_g, item.step_g, units_);
            out.more = "On " + item.scale + ", really " +
                       render::reading_between(item.truth, item.step_g, units_) + ".";
            for (const std::string& remark : render::remarks_of(out_, item, units_))
                out.more += " " + render::stopped(render::capital(remark));
        }
        return out;
    }

    static Hint pieces(const plan::Count& count) {
        Hint out;
        out.text = std::to_string(count.count) + (count.each_jar ? " each jar" : "");
        out.more = "Calculated " + units::print_number(count.exact) + ".";
        return out;
    }

    /// A working value: as a trace has it.
    Hint value(const std::string& name) {
        const auto found = values_.find(name);
        if (found == values_.end()) return {};
        const plan::TraceValue& value = found->second;
        Hint out{0, value.text, ""};
        if (value.low_text != value.high_text)
            out.more = "From " + value.low_text + " to " + value.high_text + ".";
        return out;
    }

    /// Those of all working values, from one model.
    void find_values() {
        std::vector<std::string> names;
        for (const Line& line : look_.document().lines)
            if (const auto* q = std::get_if<language::Quantity>(&line.statement);
                q != nullptr && is_worked_out(*q) && look_.tells(q->name.value))
                names.push_back(q->name.value);
        if (names.empty()) return;
        auto values = look_.values(names);
        for (std::size_t i = 0; i < names.size(); ++i)
            if (values[i]) values_.emplace(names[i], *std::move(values[i]));
    }

    static bool is_worked_out(const language::Quantity& q) {
        return q.word == language::QuantityWord::let || q.word == language::QuantityWord::total;
    }

    Hint brine(const language::BrineLine& b) {
        const auto found = stocks_.find(b.name.value);
        if (found == stocks_.end() || !look_.tells(b.name.value)) return {};
        const plan::Stock& stock = *found->second;
        return {0,
                render::reading_words(stock.salt.reading_g, stock.salt.step_g, units_) +
                    " of salt in " +
                    render::reading_words(stock.water.reading_g, stock.water.step_g, units_) +
                    " of water",
                render::stock_words(stock, units_)};
    }

    Hint verdict() {
        if (!out_.salt) return {0, "not judged", render::stopped(out_.no_salt_reason)};
        Hint out{0, render::salt_headline(*out_.salt), ""};
        for (const std::string& words : render::salt_reasons(*out_.salt))
            out.more += (out.more.empty() ? "" : " ") + words;
        return out;
    }

    static Hint bound(const plan::HoldCheck& check) {
        return {0, render::loud(check.verdict), render::hold_words(check)};
    }

    Hint fill() {
        if (!out_.room) return {};
        return {0, render::volume(out_.room->fill_ml, units_), render::room_words(out_, units_)};
    }

    Hint top_up() {
        if (!out_.top_up) return {};
        const plan::TopUp& mix = *out_.top_up;
        return {0,
                render::reading_words(mix.salt_g, mix.salt_step_g, units_) + " of salt in " +
                    render::reading_words(mix.water_g, mix.water_step_g, units_) + " of water",
                render::top_up_words(mix, units_)};
    }

    const Look& look_;
    const WeighOut& out_;
    render::Units units_;
    std::unordered_map<std::string_view, const plan::Item*> items_;
    std::unordered_map<std::string_view, const plan::Count*> counts_;
    std::unordered_map<std::string_view, const plan::Stock*> stocks_;
    std::vector<Hint> hints_;
    std::unordered_map<std::string, plan::TraceValue> values_;
};

} // namespace

std::vector<Hint> hints(const Look& look) {
    const WeighOut* out = look.weighed();
    return out == nullptr ? std::vector<Hint>{} : Hinting(look, *out).run();
}

std::string headline(const Look& look) {
    if (look.document().kind != language::FileKind::recipe) return {};
    if (!look.sound()) {
        const auto faults = static_cast<int>(look.faults());
        return "not judged: " + render::number_of(faults, "fault", "faults");
    }
    const WeighOut* out = look.weighed();
    if (out == nullptr) return {};
    std::string words = out->salt ? "SALT " + render::salt_headline(*out->salt) : "salt not judged";
    const auto broken =
        std::count_if(out->checks.begin(), out->checks.end(), [](const plan::HoldCheck& check) {
            return check.verdict != plan::Verdict::inside;
        });
    if (broken > 0)
        words +=
            "; " +
            render::number_of(static_cast<int>(broken), "bound of your own", "bounds of your own") +
            " not kept";
    return words;
}

std::optional<language::Place> header_of(const language::Document& document) {
    for (const Line& line : document.lines)
        if (std::holds_alternative<language::RecipeHeader>(line.statement) ||
            std::holds_alternative<language::KitchenHeader>(line.statement) ||
            std::holds_alternative<language::HouseHeader>(line.statement) ||
            std::holds_alternative<language::BatchHeader>(line.statement))
            return line.place;
    return std::nullopt;
}

} // namespace jarful::assist
