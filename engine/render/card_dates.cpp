#include "engine/render/card_parts.hpp"
#include "engine/render/words.hpp"
#include "engine/units/amount.hpp"

#include <algorithm>

namespace jarful::render {

namespace {

using tend::Days;

class Dates {
  public:
    Dates(const CardTimes& times, Units units)
        : times_(times)
        , schedule_(times.schedule)
        , units_(units) {}

    void add_to(Card& card) {
        card.dates_heading = times_.dated ? "Packed on " + tend::print_long_date(schedule_.start)
                                          : "Afterwards, counted from the day of packing";
        duties();
        ready();
        ph();
        keeping();
        std::stable_sort(lines_.begin(), lines_.end(),
                         [](const Line& a, const Line& b) { return a.first < b.first; });
        for (Line& line : lines_)
            card.dates.push_back(std::move(line.date));
        for (const larder::TimingRow* row : schedule_.published.warnings) {
            const bool cold = row->what == larder::TimingWhat::too_cold;
            card.date_words.push_back(
                shown((cold ? "This room is too cold: " : "This room is too warm: ") +
                      stopped(row->note.empty() ? row->source : row->note)));
        }
        if (!schedule_.ready.why.empty()) card.date_words.push_back(shown(schedule_.ready.why));
    }

    /// "day 1 to 7", "Thu 26 Nov to Wed 2 Dec".
    [[nodiscard]] std::string span(Days days) const {
        if (!times_.dated) {
            if (days.from == days.to) return "day " + std::to_string(days.from);
            return "day " + std::to_string(days.from) + " to " + std::to_string(days.to);
        }
        if (days.from == days.to) return date(days.from);
        return date(days.from) + " to " + date(days.to);
    }

  private:
    struct Line {
        int first = 0;
        CardDate date;
    };

    /// The year only where it is another than that of packing.
    [[nodiscard]] std::string date(int day) const {
        const tend::Date that = schedule_.date(day);
        std::string words = tend::print_long_date(that);
        if (that.year() == schedule_.start.year()) words.resize(words.rfind(' '));
        return words;
    }

    void add(int first, std::string when, std::string what, const plan::RichText& remark) {
        const std::string more = plain(remark, units_);
        if (!more.empty()) what += " " + stopped(capital(more));
        lines_.push_back({first, {std::move(when), shown(what)}});
    }

    void duties() {
        for (const tend::Duty& duty : schedule_.duties) {
            if (duty.days.empty()) continue;
            std::string what = task_words(duty.task);
            if (duty.every_seconds)
                what += (what.find(':') == std::string::npos ? " " : ", ") +
                        how_often(*duty.every_seconds);
            const int first = duty.days.front();
            std::string when = duty.open_ended
                                   ? (times_.dated ? date(first) : span({first, first})) + " on"
                                   : span({first, duty.days.back()});
            add(first, std::move(when), what + ".", duty.remark);
        }
    }

    void ready() {
        if (!schedule_.ready.days) return;
        const bool estimate = schedule_.ready.from == tend::ReadyFrom::estimate;
        add(schedule_.ready.days->from, span(*schedule_.ready.days),
            std::string("Likely ready") + (estimate ? ", an estimate" : "") +
                ". Taste it, and test the pH, before you believe the calendar.",
            schedule_.ready.remark);
    }

    void ph() {
        if (!schedule_.published.ph_by) return;
        const int day = schedule_.published.ph_by->day;
        // Later than it is tasted, it would only seem to say that it may be eaten without.
        if (schedule_.ready.days && day > schedule_.ready.days->from) return;
        add(day, "by " + span({day, day}),
            "The pH should be " + units::print_number(tend::ph_limit) + " or below.", {});
    }

    void keeping() {
        const tend::Keeping& keep = schedule_.keeping;
        if (keep.count == 0 && !keep.move_day) return;
        std::string what = "Move it to a " + keep.where + " place.";
        if (keep.count > 0) {
            what += " It keeps there for " + std::to_string(keep.count) + " " + keep.period +
                    (keep.count == 1 ? "" : "s");
            if (times_.dated && keep.keeps_until)
                what += ", until " + tend::print_long_date(*keep.keeps_until);
            what += ".";
        }
        // After everything else, also where no day is foreseen.
        constexpr int last = 100'000;
        add(keep.move_day.value_or(last),
            keep.move_day ? "by " + span({*keep.move_day, *keep.move_day}) : "when ready", what,
            keep.remark);
    }

    const CardTimes& times_;
    const tend::Schedule& schedule_;
    Units units_;
    std::vector<Line> lines_;
};

} // namespace

void add_dates(Card& card, const CardTimes& times, Units units) {
    Dates(times, units).add_to(card);
}

std::string ready_days(const CardTimes& times) {
    if (!times.schedule.ready.days) return "";
    return Dates(times, Units::metric).span(*times.schedule.ready.days);
}

CardTimes card_times(const plan::WeighOut& out, std::optional<double> room_celsius,
                     std::optional<tend::Date> start) {
    CardTimes times;
    times.dated = start.has_value();
    // Without a day of packing any will do: days are then told by their numbers.
    constexpr tend::Date any{std::chrono::year{2000}, std::chrono::January, std::chrono::day{1}};
    times.schedule = tend::make_schedule(out.kind, out.method, out.method_lines,
                                         start.value_or(any), room_celsius, out.shown);
    return times;
}

} // namespace jarful::render
