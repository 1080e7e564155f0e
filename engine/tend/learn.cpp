#include "engine/tend/learn.hpp"

#include "engine/language/parse.hpp"
#include "engine/plan/plan.hpp"
#include "engine/tend/schedule.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace jarful::tend {

using language::NodeKind;
using language::QuantityWord;

namespace {

constexpr double salt_points = 0.05;
constexpr double packed_share = 0.01;

std::string number(double value, int decimals) {
    std::string out = fmt::format("{:.{}f}", value, decimals);
    if (out.find('.') != std::string::npos) {
        while (out.back() == '0')
            out.pop_back();
        if (out.back() == '.') out.pop_back();
    }
    return out;
}

std::string grams(double value) {
    return units::print_mass(value, units::Style::metric);
}

double mean(const std::vector<double>& values) {
    double sum = 0;
    for (const double value : values)
        sum += value;
    return sum / static_cast<double>(values.size());
}

std::optional<plan::WeighOut> weighed_with(const language::Document& recipe,
                                           const kitchen::Kitchen& kitchen,
                                           const plan::Request& request) {
    language::Findings findings;
    plan::RequestFindings found;
    return plan::weigh(recipe, kitchen, request, findings, found);
}

class Learner {
  public:
    Learner(const language::Document& recipe, const kitchen::Kitchen& kitchen,
            const std::vector<Lesson>& lessons, const language::FindBase& find,
            std::vector<std::string>& held_back)
        : recipe_(recipe)
        , kitchen_(kitchen)
        , find_(find)
        , held_back_(held_back) {
        for (const Lesson& lesson : lessons)
            if (lesson.record.did("ready") || lesson.record.did("move"))
                lessons_.push_back(&lesson);
    }

    std::vector<Proposal> run() {
        as_written_ = weighed_with(recipe_, kitchen_, {});
        if (!as_written_) return {};
        for (const Lesson* lesson : lessons_)
            made_.push_back(as_made(lesson->record));
        for (const language::Line& line : recipe_.lines) {
            if (const auto* quantity = std::get_if<language::Quantity>(&line.statement)) {
                salt(*quantity);
                packed(*quantity);
                yield(*quantity);
            }
        }
        ready();
        return std::move(out_);
    }

  private:
    /// What was weighed of the givens and of what is measured later, or planned.
    [[nodiscard]] plan::Request request_of(const Record& record) const {
        plan::Request request;
        request.without = record.without;
        for (const language::Line& line : recipe_.lines) {
            const auto* quantity = std::get_if<language::Quantity>(&line.statement);
            if (quantity == nullptr ||
                (quantity->word != QuantityWord::given && quantity->word != QuantityWord::total &&
                 quantity->word != QuantityWord::measure))
                continue;
            const std::string& name = quantity->name.value;
            const Weighed* known = record.weighed(name);
            if (known == nullptr && quantity->word != QuantityWord::measure)
                known = record.plan_of(name);
            if (known == nullptr || known->pieces) continue;
            language::Findings ignored;
            if (auto setting = plan::read_setting(
                    name + "=" + units::print_number(known->amount, 9) + " g", ignored))
                request.settings.push_back(std::move(*setting));
        }
        return request;
    }

    /// What the recipe comes to for a batch in the vessels that it was made in, or, where the
    /// kitchen no longer has them, in those that it has.
    [[nodiscard]] std::optional<plan::WeighOut> as_made(const Record& record) const {
        const plan::Request request = request_of(record);
        std::string jars;
        for (const std::string& vessel : record.vessels)
            jars += (jars.empty() ? "jar=" : ",") + vessel;
        plan::Request in_jars = request;
        language::Findings ignored;
        if (auto setting = plan::read_setting(jars, ignored))
            in_jars.settings.push_back(std::move(*setting));
        auto out = weighed_with(recipe_, kitchen_, in_jars);
        return out ? std::move(out) : weighed_with(recipe_, kitchen_, request);
    }

    static const plan::Item* item_of(const std::optional<plan::WeighOut>& out,
                                     std::string_view name) {
        if (!out) return nullptr;
        for (const auto* list : {&out->items, &out->givens})
            for (const plan::Item& item : *list)
                if (item.name == name) return &item;
        return nullptr;
    }

    /// The written literal at the root of a value: of `2.2 % of …`, or of a value that is one.
    [[nodiscard]] const language::Node* literal(language::NodeId value, bool share) const {
        if (value == language::no_node) return nullptr;
        const language::Node* node = &recipe_.expressions[value];
        if (share) {
            if (node->kind != NodeKind::of) return nullptr;
            node = &recipe_.expressions[node->a];
        }
        return node->kind == NodeKind::amount ? node : nullptr;
    }

    [[nodiscard]] std::string at(language::Place place) const {
        return std::string(recipe_.source.at(place));
    }

    void propose(Proposal proposal) {
        if (proposal.old_text == proposal.new_text) return;
        const std::size_t own = recipe_.source.own_text().size();
        if (proposal.added ? proposal.place.begin > own : proposal.place.begin >= own) {
            held_back_.push_back(fmt::format(
                "{} as \"{}\": the line with \"{}\" stands in {}, and others may be based on it. "
                "Change it there, or give this recipe a line of its own.",
                proposal.what, proposal.new_text, proposal.old_text,
                recipe_.source.name_at(proposal.place.begin)));
            return;
        }
        // The recipe has to stay what it was, inside its range, with all that is proposed.
        std::vector<Proposal> together = out_;
        together.push_back(proposal);
        language::Findings findings;
        const auto all = changed(std::move(together), findings);
        const auto checked = all ? plan::check(*all, kitchen_, findings) : std::nullopt;
        if (!checked || (checked->verdict && *checked->verdict != plan::Verdict::inside)) {
            held_back_.push_back(
                fmt::format("{} as \"{}\" would take the recipe out of its range or its own "
                            "bounds, and is not proposed.",
                            proposal.what, proposal.new_text));
            return;
        }
        if (proposal.what != "ready")
            if (const auto alone = changed({proposal}, findings))
                proposal.meaning = meaning(proposal, *alone);
        out_.push_back(std::move(proposal));
    }

    /// The recipe with some changes; empty if it cannot be read then.
    [[nodiscard]] std::optional<language::Document> changed(std::vector<Proposal> proposals,
                                                            language::Findings& findings) const {
        auto source = language::read_source(
            recipe_.source.name(),
            with_changes(recipe_.source.own_text(), recipe_.source, std::move(proposals)),
            findings);
        if (!source) return std::nullopt;
        auto out = language::inherit(language::parse(std::move(*source), findings),
                                     recipe_.source.name(), find_, findings);
        if (findings.has_faults()) return std::nullopt;
        return out;
    }

    /// Whether the room that the batch takes is something divided by `packed`.
    [[nodiscard]] bool fills_by_packed() const {
        for (const language::Line& line : recipe_.lines) {
            const auto* fill = std::get_if<language::FillLine>(&line.statement);
            if (fill == nullptr || fill->value == language::no_node) continue;
            const language::Node& node = recipe_.expressions[fill->value];
            if (node.kind != NodeKind::divide) return false;
            const language::Node& by = recipe_.expressions[node.b];
            return by.kind == NodeKind::name && recipe_.expressions.names[by.index] == "packed";
        }
        return false;
    }

    /// In grams, at the batch that the recipe is written for.
    [[nodiscard]] std::string meaning(const Proposal& proposal,
                                      const language::Document& changed) const {
        const auto after = weighed_with(changed, kitchen_, {});
        const plan::Item* before_item = item_of(as_written_, proposal.what);
        const plan::Item* after_item = item_of(after, proposal.what);
        std::string batch;
        if (!as_written_->givens.empty())
            batch = " for " + grams(as_written_->givens.front().reading_g) + " of " +
                    as_written_->givens.front().name;
        if (proposal.what == "packed" && after && after->room && as_written_->room)
            return fmt::format(
                "The batch of the recipe{} takes {} instead of {}; a litre of room "
                "holds {} instead of {}.",
                batch, units::print_volume(after->room->fill_ml, units::Style::metric),
                units::print_volume(as_written_->room->fill_ml, units::Style::metric),
                grams(packed_after_ * 1000), grams(packed_before_ * 1000));
        if (before_item != nullptr && after_item != nullptr)
            return fmt::format("{} of {} instead of {}{}.", grams(after_item->exact_g),
                               proposal.what, grams(before_item->exact_g), batch);
        return {};
    }

    void salt(const language::Quantity& quantity) {
        const language::Node* node = literal(quantity.value, true);
        const plan::Item* item = item_of(as_written_, quantity.name.value);
        if (node == nullptr || item == nullptr || item->role != larder::Role::salt) return;
        const units::Amount& amount = recipe_.expressions.amounts[node->index];
        if (!amount.percent || amount.range || amount.uncertain) return;
        Proposal proposal;
        std::vector<double> shares;
        for (std::size_t i = 0; i < lessons_.size(); ++i) {
            const Weighed* weighed = lessons_[i]->record.weighed(item->name);
            const plan::Item* there = item_of(made_[i], item->name);
            if (weighed == nullptr || weighed->pieces || there == nullptr || !(there->exact_g > 0))
                continue;
            shares.push_back(100 * amount.value * weighed->amount / there->exact_g);
            proposal.evidence.push_back(fmt::format(
                "{}: {} was weighed where the recipe comes to {}: {} %.", lessons_[i]->name,
                grams(weighed->amount), grams(there->exact_g), number(shares.back(), 2)));
        }
        if (shares.empty()) return;
        const double share = mean(shares);
        if (std::abs(share - 100 * amount.value) < salt_points) return;
        proposal.what = item->name;
        proposal.place = node->place;
        proposal.old_text = at(node->place);
        proposal.new_text = number(share, 2) + " %";
        propose(std::move(proposal));
    }

    void packed(const language::Quantity& quantity) {
        if (quantity.word != QuantityWord::let || quantity.name.value != "packed" ||
            !fills_by_packed())
            return;
        const language::Node* node = literal(quantity.value, false);
        if (node == nullptr) return;
        const units::Amount& amount = recipe_.expressions.amounts[node->index];
        if (amount.dimension != units::dim::density || amount.range || amount.uncertain) return;
        Proposal proposal;
        std::vector<double> found;
        for (std::size_t i = 0; i < lessons_.size(); ++i) {
            std::optional<double> filled;
            for (const Note* note : lessons_[i]->record.by_date())
                if (note->filled_ml && !filled) filled = note->filled_ml;
            if (!filled || !made_[i] || !made_[i]->room) continue;
            const double produce = amount.value * made_[i]->room->fill_ml;
            found.push_back(produce / *filled);
            proposal.evidence.push_back(fmt::format(
                "{}: {} took {}: {} kg/L.", lessons_[i]->name, grams(produce),
                units::print_volume(*filled, units::Style::metric), number(found.back(), 3)));
        }
        if (found.empty()) return;
        const double density = std::round(mean(found) * 100) / 100;
        if (!(density > 0) || std::abs(density - amount.value) < packed_share * amount.value)
            return;
        packed_before_ = amount.value;
        packed_after_ = density;
        proposal.what = "packed";
        proposal.place = node->place;
        proposal.old_text = at(node->place);
        proposal.new_text = number(density, 2) + " kg/L";
        propose(std::move(proposal));
    }

    void yield(const language::Quantity& quantity) {
        if (quantity.word != QuantityWord::measure || !quantity.about || !quantity.about_of) return;
        const units::Amount& about = quantity.about->amount;
        if (!about.percent) return;
        Proposal proposal;
        double low = 100 * about.low;
        double high = 100 * about.high;
        bool outside = false;
        for (const Lesson* lesson : lessons_) {
            const Weighed* left = lesson->record.weighed(quantity.name.value);
            const Weighed* of = lesson->record.weighed(quantity.about_of->value);
            if (of == nullptr) of = lesson->record.plan_of(quantity.about_of->value);
            if (left == nullptr || of == nullptr || left->pieces || of->pieces || !(of->amount > 0))
                continue;
            const double share = 100 * left->amount / of->amount;
            outside = outside || share < low || share > high;
            low = std::min(low, std::floor(share));
            high = std::max(high, std::ceil(share));
            proposal.evidence.push_back(fmt::format("{}: {} was left of {}: {} %.", lesson->name,
                                                    grams(left->amount), grams(of->amount),
                                                    number(share, 1)));
        }
        if (!outside) return;
        proposal.what = quantity.name.value;
        proposal.place = quantity.about->place;
        proposal.old_text = at(proposal.place);
        proposal.new_text = number(low, 1) + ".." + number(high, 1) + " %";
        propose(std::move(proposal));
    }

    /// The mean of what was noted before it was ready; without notes, the room.
    static std::optional<double> warmth(const Record& record, Date until) {
        std::vector<double> found;
        for (const Note& note : record.notes)
            if (note.celsius && note.date <= until) found.push_back(*note.celsius);
        if (!found.empty()) return mean(found);
        return record.room_celsius;
    }

    /// How long the batches took, and how warm it was where that is known.
    struct Course {
        std::vector<std::string> evidence;
        int low = 0, high = 0; ///< days
        std::optional<double> cold, warm;

        void take(const std::string& name, int days, bool moved, std::optional<double> there) {
            low = evidence.empty() ? days : std::min(low, days);
            high = evidence.empty() ? days : std::max(high, days);
            if (there) cold = std::min(cold.value_or(*there), *there);
            if (there) warm = std::max(warm.value_or(*there), *there);
            evidence.push_back(fmt::format("{}: {} on day {}, {}.", name,
                                           moved ? "moved to the cold" : "ready", days,
                                           there ? "at " + print_celsius(*there) + " on average"
                                                 : "at a temperature that nobody noted"));
        }
        /// "day 21 to day 24 at 18 to 20 °C"
        [[nodiscard]] std::string words() const {
            std::string out = fmt::format("day {}", low);
            if (high != low) out += fmt::format(" to day {}", high);
            if (!cold) return out;
            const double from = std::floor(*cold);
            const double to = std::ceil(*warm);
            return out + " at " + number(from, 0) + (to > from ? " to " + number(to, 0) : "") +
                   " °C";
        }
    };

    [[nodiscard]] Course course() const {
        Course out;
        for (const Lesson* lesson : lessons_) {
            const auto ready = lesson->record.did("ready");
            const auto date = ready ? ready : lesson->record.did("move");
            const int days = date ? days_between(lesson->record.begun, *date) : 0;
            if (days >= 1) out.take(lesson->name, days, !ready, warmth(lesson->record, *date));
        }
        return out;
    }

    /// Of several lines that of the batches' warmth, or the first.
    [[nodiscard]] const language::ReadyLine* ready_line(const Course& course) const {
        const language::ReadyLine* first = nullptr;
        for (const language::Line& line : recipe_.lines) {
            const auto* ready = std::get_if<language::ReadyLine>(&line.statement);
            if (ready == nullptr) continue;
            if (first == nullptr) first = ready;
            if (!course.cold || !ready->from_temperature) continue;
            const auto celsius = [](const language::Literal& literal) {
                return literal.amount.value - units::zero_celsius;
            };
            const double low = celsius(*ready->from_temperature);
            const double high = ready->to_temperature ? celsius(*ready->to_temperature) : low;
            const double middle = (*course.cold + *course.warm) / 2;
            if (middle >= low - 0.5 && middle <= high + 0.5) return ready;
        }
        return first;
    }

    void ready() {
        const Course found = course();
        if (found.evidence.empty()) return;
        const auto span = [](int first, int last) {
            return first == last ? fmt::format("on day {}", first)
                                 : fmt::format("from day {} to {}", first, last);
        };
        Proposal proposal;
        proposal.what = "ready";
        proposal.evidence = found.evidence;
        const language::ReadyLine* line = ready_line(found);
        if (line == nullptr) {
            proposal.added = true;
            proposal.place = end_of_method();
            proposal.new_text = "ready  " + found.words();
            proposal.meaning =
                fmt::format("Likely ready {}; the recipe has no `ready` line yet. No weight "
                            "changes.",
                            span(found.low, found.high));
            return propose(std::move(proposal));
        }
        const std::uint32_t end = line->to_temperature     ? line->to_temperature->place.end
                                  : line->from_temperature ? line->from_temperature->place.end
                                  : line->to_day           ? line->to_day->place.end
                                                           : line->from_day.place.end;
        proposal.place = {line->from_day.place.begin, end};
        proposal.new_text = found.words();
        // With the word before it, where it stands there with one blank, to be read better.
        if (proposal.place.begin > 4 &&
            at({proposal.place.begin - 4, proposal.place.begin}) == "day ") {
            proposal.place.begin -= 4;
        } else {
            proposal.new_text.erase(0, 4);
        }
        proposal.old_text = at(proposal.place);
        proposal.meaning = fmt::format(
            "Likely ready {}, instead of {}. No weight changes.", span(found.low, found.high),
            span(line->from_day.value, line->to_day ? line->to_day->value : line->from_day.value));
        propose(std::move(proposal));
    }

    /// Where the last line of the method ends that the recipe has itself, its comment included.
    [[nodiscard]] language::Place end_of_method() const {
        const std::string_view text = recipe_.source.own_text();
        std::size_t last = 0;
        bool method = false;
        for (const language::Line& line : recipe_.lines) {
            if (line.place.end > text.size()) continue;
            const bool does = std::holds_alternative<language::StepLine>(line.statement) ||
                              std::holds_alternative<language::RestLine>(line.statement) ||
                              std::holds_alternative<language::TendLine>(line.statement);
            if (method && !does) continue;
            if (does && !method) last = 0;
            method = method || does;
            last = std::max<std::size_t>(last, line.place.end);
        }
        const auto end = static_cast<std::uint32_t>(std::min(text.find('\n', last), text.size()));
        return {end, end};
    }

    const language::Document& recipe_;
    const kitchen::Kitchen& kitchen_;
    const language::FindBase& find_;
    std::vector<std::string>& held_back_;
    std::vector<const Lesson*> lessons_;
    std::vector<std::optional<plan::WeighOut>> made_;
    std::optional<plan::WeighOut> as_written_;
    std::vector<Proposal> out_;
    double packed_before_ = 0, packed_after_ = 0;
};

/// Where the lines of a text begin.
std::vector<std::size_t> line_starts(std::string_view text) {
    std::vector<std::size_t> out{0};
    for (std::size_t i = 0; i < text.size(); ++i)
        if (text[i] == '\n') out.push_back(i + 1);
    return out;
}

} // namespace

std::vector<Proposal> learn(const language::Document& recipe, const kitchen::Kitchen& kitchen,
                            const std::vector<Lesson>& lessons, const language::FindBase& find,
                            std::vector<std::string>& held_back) {
    return Learner(recipe, kitchen, lessons, find, held_back).run();
}

std::string with_changes(std::string_view bytes, const language::Source& source,
                         std::vector<Proposal> proposals) {
    std::sort(proposals.begin(), proposals.end(),
              [](const Proposal& a, const Proposal& b) { return a.place.begin > b.place.begin; });
    std::string out(bytes);
    // The source has no byte-order mark and no carriage returns; its lines are those of the bytes.
    const std::vector<std::size_t> raw = line_starts(bytes);
    const std::vector<std::size_t> read = line_starts(source.text());
    const std::size_t mark = bytes.starts_with("\xEF\xBB\xBF") ? 3 : 0;
    for (const Proposal& one : proposals) {
        const std::size_t line =
            static_cast<std::size_t>(std::upper_bound(read.begin(), read.end(), one.place.begin) -
                                     read.begin()) -
            1;
        const std::size_t begin =
            raw.at(line) + (line == 0 ? mark : 0) + (one.place.begin - read[line]);
        // The end of a line as the line above has it.
        const bool carriage = begin < bytes.size() && bytes[begin] == '\r';
        const std::string before = !one.added ? "" : carriage ? "\r\n" : "\n";
        out.replace(begin, one.place.end - one.place.begin, before + one.new_text);
    }
    return out;
}

} // namespace jarful::tend
