#include "engine/tend/schedule.hpp"

#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace jarful::tend {

using plan::MethodLine;
using Sort = plan::MethodLine::Sort;

namespace {

constexpr double day_seconds = 86'400;
/// How far a line without an end is listed when nothing says how long the ferment takes.
constexpr int unforeseen_days = 28;

std::optional<double> celsius(const std::optional<double>& kelvin) {
    if (!kelvin) return std::nullopt;
    return *kelvin - units::zero_celsius;
}

/// The temperatures a `ready` line is for; one alone stands for itself.
struct LineTemperatures {
    std::optional<double> low, high;
    explicit LineTemperatures(const MethodLine& line)
        : low(celsius(line.from_kelvin))
        , high(line.to_kelvin ? celsius(line.to_kelvin) : low) {
        if (low && high && *low > *high) std::swap(low, high);
    }
    [[nodiscard]] std::string words(units::Shown shown) const {
        return low ? "at " + print_warmth(*low, *high, shown) : std::string();
    }
};

std::string row_words(const larder::TimingRow& row) {
    std::string out(row.source);
    if (!row.section.empty()) out += ", " + std::string(row.section);
    if (row.status == larder::Status::from_memory) out += " (from memory)";
    if (row.status == larder::Status::common_practice) out = "common practice, no published figure";
    return out;
}

std::string days_words(Days days) {
    if (days.from == days.to) return fmt::format("day {}", days.from);
    return fmt::format("day {} to {}", days.from, days.to);
}

std::string temperature_words(const larder::TimingRow& row, units::Shown shown) {
    if (!row.celsius_low || !row.celsius_high) return {};
    return "at " + print_warmth(*row.celsius_low, *row.celsius_high, shown);
}

class Scheduler {
  public:
    Scheduler(std::span<const MethodLine> lines, Schedule& out, units::Shown shown)
        : lines_(lines)
        , out_(out)
        , shown_(shown) {}

    void run() {
        ready();
        keeping();
        for (const MethodLine& line : lines_)
            if (line.sort == Sort::tend) duty(line);
        entries();
    }

  private:
    void ready() {
        const MethodLine* fitting = nullptr;
        const MethodLine* other = nullptr;
        for (const MethodLine& line : lines_) {
            if (line.sort != Sort::ready) continue;
            const LineTemperatures at(line);
            const bool fits =
                !at.low || (out_.room_celsius && covers(at.low, at.high, *out_.room_celsius));
            if (fits && fitting == nullptr) fitting = &line;
            if (!fits && other == nullptr) other = &line;
        }
        if (fitting != nullptr) return by_recipe(*fitting, ReadyFrom::recipe);
        if (out_.published.window) return by_window(*out_.published.window, other);
        if (other != nullptr && !out_.room_celsius) return by_recipe(*other, ReadyFrom::other_room);
        if (other != nullptr) {
            out_.ready.why = "The recipe's own " + days_words(days_of(*other)) + " is for " +
                             LineTemperatures(*other).words(shown_).substr(3) +
                             ", and this room is at " + print_warmth(*out_.room_celsius, shown_) +
                             ", where no published row says how long it takes. Go by taste and pH.";
            return;
        }
        out_.ready.why = "Neither the recipe nor a published row says when it is ready. Taste it, "
                         "and test the pH.";
    }

    void by_recipe(const MethodLine& line, ReadyFrom from) {
        Ready& ready = out_.ready;
        ready.days = days_of(line);
        ready.from = from;
        ready.remark = line.text;
        const std::string at = LineTemperatures(line).words(shown_);
        ready.why = "The recipe says " + days_words(*ready.days) + (at.empty() ? "" : " " + at);
        ready.why += from == ReadyFrom::recipe ? "." : "; this room's temperature is not known.";
    }

    void by_window(const Window& window, const MethodLine* recipes) {
        Ready& ready = out_.ready;
        ready.days = window.days;
        ready.from = window.estimate() ? ReadyFrom::estimate : ReadyFrom::published;
        if (recipes != nullptr) ready.remark = recipes->text;
        if (window.estimate()) {
            const auto one = [&](const larder::TimingRow& row) {
                return fmt::format("{} to {} days {}", *row.days_low, *row.days_high,
                                   temperature_words(row, shown_));
            };
            ready.why = fmt::format("An estimate for {}, between {} and {}: {}.",
                                    print_warmth(*out_.room_celsius, shown_), one(*window.row),
                                    one(*window.other), row_words(*window.row));
        } else {
            const std::string at = temperature_words(*window.row, shown_);
            ready.why = capital(days_words(window.days)) +
                        (at.empty() ? ", at no stated temperature" : " " + at) + ": " +
                        row_words(*window.row) + ".";
        }
        if (recipes == nullptr) return;
        ready.why += " The recipe's own " + days_words(days_of(*recipes)) + " is for " +
                     LineTemperatures(*recipes).words(shown_).substr(3) + ".";
    }

    static Days days_of(const MethodLine& line) {
        const int first = line.from_day.value_or(0);
        return {first, line.to_day.value_or(first)};
    }

    static std::string capital(std::string text) {
        if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
            text[0] = static_cast<char>(text[0] - 'a' + 'A');
        return text;
    }

    void keeping() {
        Keeping& keep = out_.keeping;
        if (out_.ready.days) keep.move_day = out_.ready.days->to;
        for (const MethodLine& line : lines_) {
            if (line.sort != Sort::keep) continue;
            keep.where = line.task;
            keep.count = line.count;
            keep.period = line.period;
            keep.remark = line.text;
            break;
        }
        if (!keep.move_day || keep.count == 0) return;
        keep.keeps_until = kept_until(out_.date(*keep.move_day), keep);
    }

    /// The day as far as which a line without an end is listed.
    [[nodiscard]] int foreseen() const {
        return out_.ready.days ? out_.ready.days->to : unforeseen_days;
    }

    void duty(const MethodLine& line) {
        Duty duty;
        duty.task = line.task;
        duty.remark = line.text;
        if (line.on_day) {
            duty.days = {*line.on_day};
        } else {
            const double every = line.seconds.value_or(day_seconds);
            duty.every_seconds = every;
            duty.open_ended = !line.to_day;
            if (every < day_seconds)
                duty.times_a_day = static_cast<int>(std::floor(day_seconds / every + 1e-9));
            duty.first_day =
                line.from_day ? *line.from_day : std::max(1.0, std::floor(every / day_seconds));
            duty.step_days = std::max(1.0, every / day_seconds);
            const int last =
                line.to_day.value_or(std::max(foreseen(), static_cast<int>(duty.first_day)));
            for (int count = 0; duty.day_of(count) <= last; ++count)
                duty.days.push_back(duty.day_of(count));
        }
        out_.duties.push_back(std::move(duty));
    }

    void add(EntryWhat what, int day, std::size_t duty = 0) {
        out_.entries.push_back({what, day, out_.date(day), duty});
    }

    void entries() {
        for (std::size_t i = 0; i < out_.duties.size(); ++i)
            for (const int day : out_.duties[i].days)
                add(EntryWhat::tend, day, i);
        if (out_.ready.days) add(EntryWhat::ready, out_.ready.days->from);
        if (out_.published.ph_by) add(EntryWhat::ph, out_.published.ph_by->day);
        if (out_.keeping.move_day) add(EntryWhat::move, *out_.keeping.move_day);
        if (out_.keeping.keeps_until)
            add(EntryWhat::keeps_until, days_between(out_.start, *out_.keeping.keeps_until));
        std::stable_sort(out_.entries.begin(), out_.entries.end(),
                         [](const Entry& a, const Entry& b) {
                             return a.day != b.day ? a.day < b.day : a.what < b.what;
                         });
    }

    std::span<const MethodLine> lines_;
    Schedule& out_;
    units::Shown shown_;
};

} // namespace

std::string_view key(ReadyFrom from) {
    static constexpr std::string_view names[] = {"recipe", "published", "estimate", "other_room",
                                                 "not_foreseen"};
    return names[static_cast<std::size_t>(from)];
}

std::string_view key(EntryWhat what) {
    static constexpr std::string_view names[] = {"tend", "ready", "ph", "move", "keeps_until"};
    return names[static_cast<std::size_t>(what)];
}

Date kept_until(Date moved, const Keeping& keeping) {
    if (keeping.period == "day") return add_days(moved, keeping.count);
    if (keeping.period == "week") return add_days(moved, 7 * keeping.count);
    return add_months(moved, keeping.period == "year" ? 12 * keeping.count : keeping.count);
}

std::string print_celsius(double value) {
    std::string out = fmt::format("{:.1f}", value);
    if (out.ends_with(".0")) out.resize(out.size() - 2);
    if (out == "-0") out = "0";
    return out + " °C";
}

std::string print_warmth(double celsius, units::Shown shown) {
    return print_warmth(celsius, celsius, shown);
}

std::string print_warmth(double low, double high, units::Shown shown) {
    const auto one = [&](double celsius) {
        return shown.style() == units::Style::us
                   ? units::print_temperature(celsius + units::zero_celsius, shown)
                   : print_celsius(celsius);
    };
    return units::print_between(one(low), one(high));
}

int Duty::day_of(int count) const {
    return static_cast<int>(std::floor(first_day + count * step_days + 1e-9));
}

std::optional<int> Duty::due_before(int day) const {
    const auto later = std::lower_bound(days.begin(), days.end(), day);
    if (!open_ended || (later != days.end() && later != days.begin()))
        return later == days.begin() ? std::nullopt : std::optional(*std::prev(later));
    int count = static_cast<int>(std::ceil((day - first_day) / step_days)) + 1;
    while (count >= 0 && day_of(count) >= day)
        --count;
    return count < 0 ? std::nullopt : std::optional(day_of(count));
}

std::optional<int> Duty::due_after(int day) const {
    const auto later = std::upper_bound(days.begin(), days.end(), day);
    if (later != days.end()) return *later;
    if (!open_ended) return std::nullopt;
    int count = std::max(0, static_cast<int>(std::floor((day - first_day) / step_days)) - 1);
    while (day_of(count) <= day)
        ++count;
    return day_of(count);
}

bool Duty::due_on(int day) const {
    return due_after(day - 1) == day;
}

Schedule make_schedule(std::string_view kind, std::string_view method,
                       std::span<const MethodLine> lines, Date start,
                       std::optional<double> room_celsius, units::Shown shown) {
    Schedule out;
    out.start = start;
    out.room_celsius = room_celsius;
    out.published = outlook(kind, method, room_celsius);
    Scheduler(lines, out, shown).run();
    return out;
}

} // namespace jarful::tend
