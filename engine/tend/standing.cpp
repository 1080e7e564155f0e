#include "engine/tend/standing.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace jarful::tend {

namespace {

/// Readings of one meter on one brine differ by so much; our own choice.
constexpr double ph_climb = 0.3;

std::string figure(double value) {
    std::string out = fmt::format("{:.2f}", value);
    while (out.back() == '0')
        out.pop_back();
    if (out.back() == '.') out.pop_back();
    return out;
}

std::string plural(int days) {
    return days == 1 ? "1 day" : fmt::format("{} days", days);
}

class Judge {
  public:
    Judge(const Record& record, Date today, units::Shown shown)
        : record_(record)
        , today_(today)
        , shown_(shown) {
        out_.schedule = make_schedule(record.kind, record.method, record.tending, record.begun,
                                      record.room_celsius, shown);
        out_.day = days_between(record.begun, today);
        out_.begun = out_.day >= 0;
        for (const Note* note : record.by_date())
            if (note->date <= today && !note->empty()) notes_.push_back(note);
        out_.ended = done("end");
        out_.moved = done("move");
        last_values();
    }

    Standing run() {
        if (!out_.begun || out_.ended) return std::move(out_);
        ph();
        if (!out_.moved) {
            temperature();
            tasks();
            silence();
        }
        keeping();
        return std::move(out_);
    }

  private:
    [[nodiscard]] bool done(std::string_view deed) const { return last(deed).has_value(); }

    [[nodiscard]] std::optional<Date> last(std::string_view deed) const {
        std::optional<Date> out;
        for (const Note* note : notes_)
            if (std::find(note->did.begin(), note->did.end(), deed) != note->did.end())
                out = note->date;
        return out;
    }

    [[nodiscard]] int times(std::string_view deed, Date date) const {
        int count = 0;
        for (const Note* note : notes_)
            if (note->date == date)
                count += static_cast<int>(std::count(note->did.begin(), note->did.end(), deed));
        return count;
    }

    void last_values() {
        for (const Note* note : notes_) {
            if (note->ph) {
                out_.last_ph = note->ph;
                out_.last_ph_date = note->date;
                ph_words_ = figure(*note->ph) + corrected(*note);
                lowest_ph_ = std::min(lowest_ph_.value_or(*note->ph), *note->ph);
            }
            if (note->celsius) out_.last_celsius = note->celsius;
            out_.last_note = note->date;
        }
        for (const Weighed& weighed : record_.weighings)
            if (!weighed.taken_back && weighed.date && *weighed.date <= today_ &&
                (!out_.last_note || *weighed.date > *out_.last_note))
                out_.last_note = weighed.date;
    }

    /// What the pH was before it was put right: " (3.1 was noted, and corrected on 2026-12-10)".
    static std::string corrected(const Note& note) {
        for (auto one = note.corrections.rbegin(); one != note.corrections.rend(); ++one)
            if (one->before.what == Logged::What::ph)
                return fmt::format(" ({} was noted, and corrected on {})",
                                   figure(one->before.value), print_date(one->date));
        return {};
    }

    void add(Concern concern, std::string text, std::string advice, std::string source = {},
             int late = 0, std::string task = {}) {
        add_finding(out_.findings, {concern, std::move(task), late, std::move(text),
                                    std::move(advice), std::move(source)});
    }

    /// "ready" or "moved" for what somebody may take for food.
    [[nodiscard]] std::string_view taken_for() const {
        return out_.moved ? "moved" : done("ready") ? "ready" : "";
    }

    void ph() {
        const auto& by = out_.schedule.published.ph_by;
        if (out_.last_ph && *out_.last_ph > ph_limit) {
            const std::string_view taken = taken_for();
            if (lowest_ph_ && *lowest_ph_ <= ph_limit) {
                rising();
            } else if (!taken.empty() && !(by && out_.day > by->day)) {
                add(Concern::ph_high,
                    fmt::format("It is noted as {}, and its last pH, {} on {}, is above {}.", taken,
                                ph_words_, print_date(*out_.last_ph_date), figure(ph_limit)),
                    "Do not eat it: it is not sour enough. Keep it in its room, not in the cold, "
                    "and test again in two days.",
                    std::string(ph_limit_source));
            } else if (!by) {
                add(Concern::unknown,
                    fmt::format("pH {} on {} is above {}. By when it should be down is unknown: no "
                                "published row says so of this kind at this temperature.",
                                ph_words_, print_date(*out_.last_ph_date), figure(ph_limit)),
                    "Do not eat it yet; test again in a few days.");
            } else if (out_.day > by->day) {
                const int late = out_.day - by->day;
                add(Concern::ph_high,
                    fmt::format("pH {} on {} is above {}, and it should have been down by day {}, "
                                "{} ago.",
                                ph_words_, print_date(*out_.last_ph_date), figure(ph_limit),
                                by->day, plural(late)),
                    "Do not eat it. Test again with a calibrated meter or fresh strips, and "
                    "look at the salt and the temperature. If it is above 4.6 still, throw it "
                    "away.",
                    std::string(ph_limit_source) + "; " + std::string(by->row->source), late);
            }
            return;
        }
        if (out_.last_ph && lowest_ph_ && *out_.last_ph >= *lowest_ph_ + ph_climb) rising();
        if (const std::string_view taken = taken_for(); !out_.last_ph && !taken.empty()) {
            add(Concern::missed, fmt::format("This batch is marked {}, but no pH is recorded.", taken),
                fmt::format("Test it before anybody eats from it: {} or below.", figure(ph_limit)),
                std::string(ph_limit_source), 0, "ph");
        } else if (!out_.last_ph && by && out_.day >= by->day) {
            const int late = out_.day - by->day;
            const std::string text =
                fmt::format("No pH is noted, and it should be at {} or below by day {}.",
                            figure(ph_limit), by->day);
            if (late == 0)
                add(Concern::due, text, "Test it today.", std::string(by->row->source), 0, "ph");
            else
                add(Concern::missed, text, "Test it before anybody eats from it.",
                    std::string(by->row->source), late, "ph");
        }
    }

    void rising() {
        std::string source;
        for (const larder::TimingRow& row : larder::timing_rows())
            if (row.id == "any-jfs") source = row.source;
        add(Concern::ph_rising,
            fmt::format("The pH was down to {} and is at {} again.", figure(*lowest_ph_),
                        ph_words_),
            *out_.last_ph > ph_limit
                ? "Throw it away: something is eating the acid."
                : "Test again in two days, keep it cold, and throw it away if it goes on rising.",
            source);
    }

    void temperature() {
        if (!out_.last_celsius) return;
        const Outlook there = outlook(record_.kind, record_.method, out_.last_celsius);
        if (!there.warnings.empty()) {
            const larder::TimingRow& row = *there.warnings.front();
            const bool cold = row.what == larder::TimingWhat::too_cold;
            const double bound = cold ? *row.celsius_high : *row.celsius_low;
            add(cold ? Concern::too_cold : Concern::too_warm,
                fmt::format("At {} it is {} than {}: {}.", print_warmth(*out_.last_celsius, shown_),
                            cold ? "colder" : "warmer", print_warmth(bound, shown_), row.note),
                cold ? "Move it to a warmer place, and count on more days."
                     : "Move it to a cooler place, and taste it sooner.",
                std::string(row.source));
            return;
        }
        const auto with_temperature = [](const larder::TimingRow* row) {
            return row->celsius_low || row->celsius_high;
        };
        const bool published =
            std::any_of(there.ruling.begin(), there.ruling.end(), with_temperature);
        if (published && !there.window)
            add(Concern::unknown,
                "What " + print_warmth(*out_.last_celsius, shown_) +
                    " does to this kind is unknown: no published window is that warm or that cold.",
                "");
    }

    static std::string task_name(std::string_view task) {
        return task == "top_up" ? "top up" : std::string(task);
    }

    void tasks() {
        for (const Duty& duty : out_.schedule.duties)
            this->duty(duty);
        ready();
    }

    void duty(const Duty& duty) {
        const std::string name = task_name(duty.task);
        const std::optional<int> before = duty.due_before(out_.day);
        if (duty.due_on(out_.day)) {
            const int left = duty.times_a_day - times(duty.task, today_);
            if (left > 0)
                add(Concern::due,
                    duty.times_a_day > 1 ? fmt::format("{}, {} more today.", name, left)
                                         : name + ".",
                    "", "", 0, duty.task);
        }
        if (!before) return;
        const Date due = out_.schedule.date(*before);
        const auto done_on = last(duty.task);
        if (done_on && *done_on >= due) return;
        // What is over is let go, but for what is done once: that is asked for until it is done.
        const bool over = !duty.open_ended && duty.days.size() > 1 && *before == duty.days.back();
        if (over && out_.day - *before > after_days) return;
        // How long: since the first day that was missed.
        const int first =
            duty.due_after(done_on ? days_between(record_.begun, *done_on) : -1).value_or(*before);
        const int late = out_.day - first;
        add(Concern::missed,
            fmt::format("{} was due on {}, {} ago, and nothing is noted of it.", name,
                        print_date(out_.schedule.date(first)), plural(late)),
            duty.task == "burp"
                ? "A closed jar may be under pressure: open it slowly, over a tray, "
                  "and away from the face."
                : "Do it today, and note it.",
            "", late, duty.task);
    }

    void ready() {
        if (!out_.schedule.ready.days) return;
        const Days days = *out_.schedule.ready.days;
        if (out_.day > days.to) {
            const int late = out_.day - days.to;
            add(Concern::missed,
                fmt::format(
                    "It was likely ready by {}, {} ago, and is not noted as moved to the {}.",
                    print_date(out_.schedule.date(days.to)), plural(late),
                    out_.schedule.keeping.where),
                "Taste it and test the pH; if both are right, move it and note it with --did move.",
                "", late, "move");
        } else if (out_.day >= days.from && !done("ready")) {
            add(Concern::due,
                fmt::format("taste it and test the pH: it is likely ready between today and {}{}.",
                            print_date(out_.schedule.date(days.to)),
                            out_.schedule.ready.from == ReadyFrom::estimate ? ", an estimate" : ""),
                "Note --did ready when it is.", "", 0, "ready");
        } else if (out_.day == days.to) {
            add(Concern::due, "move it to the " + out_.schedule.keeping.where + ".", "", "", 0,
                "move");
        }
    }

    void silence() {
        const Date since = out_.last_note.value_or(record_.begun);
        const int days = days_between(since, today_);
        if (days <= silent_days) return;
        add(Concern::silence,
            fmt::format("Nothing was noted for {}, since {}.", plural(days), print_date(since)),
            "Look at it today: is everything under the brine?", "common practice, no source",
            days - silent_days);
    }

    /// From the day on which it was really moved, where that is known.
    void keeping() {
        std::optional<Date> until = out_.schedule.keeping.keeps_until;
        if (const auto moved = last("move"); moved && out_.schedule.keeping.count > 0)
            until = kept_until(*moved, out_.schedule.keeping);
        if (!until || today_ <= *until) return;
        const int late = days_between(*until, today_);
        add(Concern::past_keeping,
            fmt::format("Its keeping time was over on {}, {} ago.", print_date(*until),
                        plural(late)),
            "Look, smell and test the pH before using it; note --did end when it is used up.", "",
            late);
    }

    const Record& record_;
    Date today_;
    units::Shown shown_;
    Standing out_;
    std::vector<const Note*> notes_;
    std::optional<double> lowest_ph_;
    std::string ph_words_; ///< the last pH, and what it was before it was corrected
};

} // namespace

std::string_view key(Concern concern) {
    static constexpr std::string_view names[] = {"ph_high",  "salt_low", "ph_rising",    "too_cold",
                                                 "too_warm", "missed",   "past_keeping", "salt_off",
                                                 "silence",  "due",      "unknown"};
    return names[static_cast<std::size_t>(concern)];
}

Standing standing(const Record& record, Date today, units::Shown shown) {
    return Judge(record, today, shown).run();
}

void add_finding(std::vector<Finding>& findings, Finding finding) {
    const auto worse = [](const Finding& a, const Finding& b) {
        if (a.concern != b.concern) return a.concern < b.concern;
        // Of what was missed, gas comes first, and then the pH.
        const auto rank = [](const Finding& f) {
            return f.task == "burp" ? 0 : f.task == "ph" ? 1 : 2;
        };
        if (rank(a) != rank(b)) return rank(a) < rank(b);
        return a.days_late > b.days_late;
    };
    findings.insert(std::upper_bound(findings.begin(), findings.end(), finding, worse),
                    std::move(finding));
}

} // namespace jarful::tend
