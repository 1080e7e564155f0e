#include "engine/render/tend_report.hpp"
#include "engine/render/words.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

namespace jarful::render {

using tend::print_long_date;

using tend::EntryWhat;

namespace {

std::string short_task(std::string_view task) {
    const std::string words = task_words(task);
    return words.substr(0, words.find(':'));
}

std::string span(std::optional<double> low, std::optional<double> high) {
    const auto figure = [](double value) { return units::print_number(value, 4); };
    if (low && high && *low != *high) return figure(*low) + " to " + figure(*high);
    if (low && high) return figure(*low);
    if (high) return "up to " + figure(*high);
    if (low) return "from " + figure(*low);
    return {};
}

std::string warmth(double celsius, Units units) {
    const std::string first = tend::print_warmth(celsius, units);
    return first +
           (units == Units::both ? " (" + tend::print_warmth(celsius, Units::us) + ")" : "");
}

/// The temperatures of a published row: "at 21.1 to 23.9 °C", "up to 15 °C", "below 60 °F".
std::string row_warmth(const larder::TimingRow& row, Units units) {
    const auto one = [&](double celsius) {
        if (units == Units::us) return tend::print_warmth(celsius, units);
        return units::print_number(celsius, 4) + " °C";
    };
    const auto& low = row.celsius_low;
    const auto& high = row.celsius_high;
    if (row.what == larder::TimingWhat::too_cold) return high ? "below " + one(*high) : "";
    if (row.what == larder::TimingWhat::too_warm) return low ? "above " + one(*low) : "";
    if (low && high) return "at " + units::print_between(one(*low), one(*high));
    if (high) return "up to " + one(*high);
    return low ? "at from " + one(*low) : "";
}

/// A call that does not begin its line.
std::string small(std::string words) {
    if (!words.empty() && words[0] >= 'A' && words[0] <= 'Z')
        words[0] = static_cast<char>(words[0] - 'A' + 'a');
    return words;
}

class TendPage {
  public:
    TendPage(const TendReport& report, const TextStyle& style)
        : report_(report)
        , schedule_(report.schedule)
        , units_(style.units)
        , page_(style) {}

    std::string text() {
        head();
        ready();
        duties();
        days();
        keeping();
        published();
        cautions();
        next();
        return page_.text();
    }

  private:
    void head() {
        std::string title = report_.title.empty() ? "A recipe without a title" : report_.title;
        if (report_.version) title += fmt::format(", version {}", *report_.version);
        page_.heading(title);
        page_.paragraph("Packed on " + print_long_date(schedule_.start) +
                            ", which is day 0. Days count from there.",
                        0, 0);
        std::string room =
            schedule_.room_celsius
                ? "The room is at " + warmth(*schedule_.room_celsius, units_) + "."
                : "The room's temperature is not known: a `room` line in the kitchen, or "
                  "--room 19C, says it.";
        if (!report_.kitchen_built_in && !report_.kitchen.empty())
            room = "Kitchen: " + stopped(report_.kitchen) + " " + room;
        page_.paragraph(room, 0, 0);
        if (!report_.jars.empty()) page_.paragraph("In: " + listed(report_.jars) + ".", 0, 0);
        for (const larder::TimingRow* row : schedule_.published.warnings) {
            page_.gap();
            page_.paragraph(
                (row->what == larder::TimingWhat::too_cold ? "Too cold: " : "Too warm: ") +
                    stopped(timing_words(*row, units_)),
                2, 2, true);
        }
    }

    [[nodiscard]] std::string on(int day) const {
        return fmt::format("{} (day {})", print_long_date(schedule_.date(day)), day);
    }

    void ready() {
        page_.heading("LIKELY READY");
        if (schedule_.ready.days) {
            const tend::Days days = *schedule_.ready.days;
            std::string words = days.from == days.to
                                    ? on(days.from)
                                    : "from " + on(days.from) + " to " + on(days.to);
            if (schedule_.ready.from == tend::ReadyFrom::estimate) words += ", an estimate";
            page_.paragraph(capital(words) + ".");
        }
        page_.paragraph(schedule_.ready.why);
        const std::string remark = plain(schedule_.ready.remark, units_);
        if (!remark.empty()) page_.paragraph(stopped(capital(remark)));
        page_.paragraph(ph_words());
    }

    [[nodiscard]] std::string ph_words() const {
        const std::string limit = fmt::format("Before eating, pH {} or below ({}). ",
                                              tend::ph_limit, tend::ph_limit_source);
        if (!schedule_.published.ph_by) {
            return limit + "No published row says by when this kind is there in this room.";
        }
        const tend::PhBy& by = *schedule_.published.ph_by;
        return limit + "It should be there by " + on(by.day) + ": " +
               (by.general ? "for ferments of any kind, " : "") +
               stopped(timing_words(*by.row, units_));
    }

    void duties() {
        if (schedule_.duties.empty()) return;
        page_.heading("WHAT TO LOOK AFTER");
        for (const tend::Duty& duty : schedule_.duties) {
            std::string words = task_words(duty.task);
            words += words.find(':') == std::string::npos ? " " : ", ";
            if (duty.every_seconds) words += how_often(*duty.every_seconds) + ", ";
            if (duty.days.empty()) {
                words += "on no day before it is ready";
            } else if (duty.days.size() == 1 && !duty.open_ended) {
                words += "on " + on(duty.days.front());
            } else {
                words += "from " + on(duty.days.front());
                words +=
                    duty.open_ended ? " until it goes to the cold" : " to " + on(duty.days.back());
            }
            words += ".";
            const std::string remark = plain(duty.remark, units_);
            if (!remark.empty()) words += " " + stopped(capital(remark));
            page_.item("-", words, 2, 4);
        }
    }

    void days() {
        if (schedule_.entries.empty()) return;
        page_.heading("DAY BY DAY");
        for (std::size_t i = 0; i < schedule_.entries.size();) {
            const int day = schedule_.entries[i].day;
            std::string words;
            for (; i < schedule_.entries.size() && schedule_.entries[i].day == day; ++i) {
                const tend::Entry& entry = schedule_.entries[i];
                const std::string one = entry_words(schedule_, entry);
                words += words.empty() ? one : "; " + small(one);
            }
            page_.row({{.text = print_long_date(schedule_.date(day)), .width = 15, .keep = true},
                       {.text = fmt::format("day {}", day), .width = 7, .keep = true},
                       {.text = words, .width = page_.width() - 28}});
        }
    }

    void keeping() {
        const tend::Keeping& keep = schedule_.keeping;
        page_.heading("KEEPING");
        std::string words = "Move it to a " + keep.where + " place ";
        words += keep.move_day ? "by " + on(*keep.move_day) +
                                     ", or sooner if it tastes right "
                                     "and the pH is down."
                               : "when it tastes right and the pH is down.";
        if (keep.count > 0) {
            words += fmt::format(" It keeps there for {} {}{}", keep.count, keep.period,
                                 keep.count == 1 ? "" : "s");
            if (keep.keeps_until) words += ", until " + print_long_date(*keep.keeps_until);
            words += ".";
        }
        const std::string remark = plain(keep.remark, units_);
        if (!remark.empty()) words += " " + stopped(capital(remark));
        page_.paragraph(words);
        for (const larder::TimingRow* row : schedule_.published.store)
            page_.paragraph("Published: " + stopped(timing_words(*row, units_)));
    }

    void published() {
        const auto& found = schedule_.published;
        if (found.ruling.empty() && found.beside.empty()) return;
        page_.heading("WHAT IS PUBLISHED OF THE DAYS");
        for (const larder::TimingRow* row : found.ruling)
            page_.item("-", stopped(timing_words(*row, units_)), 2, 4);
        if (found.beside.empty()) return;
        page_.paragraph("Beside these, and not gone by:");
        for (const larder::TimingRow* row : found.beside)
            page_.item("-", stopped(timing_words(*row, units_)), 2, 4);
    }

    void cautions() {
        if (report_.cautions.empty()) return;
        page_.heading("TAKE CARE");
        for (const plan::Warning& warning : report_.cautions)
            page_.titled(warning.title, stopped(warning.text));
    }

    void next() {
        page_.gap();
        if (schedule_.entries.empty()) {
            page_.paragraph("Next: look at it every few days; the recipe says nothing more.", 0, 6,
                            true);
            return;
        }
        const tend::Entry& first = schedule_.entries.front();
        page_.paragraph("Next: " + on(first.day) + ": " + stopped(entry_words(schedule_, first)), 0,
                        6, true);
    }

    const TendReport& report_;
    const tend::Schedule& schedule_;
    Units units_;
    Page page_;
};

} // namespace

std::string entry_words(const tend::Schedule& schedule, const tend::Entry& entry) {
    switch (entry.what) {
    case EntryWhat::tend: {
        const tend::Duty& duty = schedule.duties[entry.duty];
        std::string words = short_task(duty.task);
        if (duty.times_a_day == 2) words += " twice";
        if (duty.times_a_day > 2) words += fmt::format(" {} times", duty.times_a_day);
        return words;
    }
    case EntryWhat::ready:
        return "Taste, and test the pH: likely ready from today";
    case EntryWhat::ph:
        return fmt::format("Test the pH: it should be at {} or below by today", tend::ph_limit);
    case EntryWhat::move:
        return "Move it to a " + schedule.keeping.where + " place";
    case EntryWhat::keeps_until:
        break;
    }
    return "The end of its keeping time";
}

std::string timing_words(const larder::TimingRow& row, Units units) {
    std::string out;
    const auto add = [&](const std::string& words) {
        if (!words.empty()) out += (out.empty() ? "" : ", ") + words;
    };
    const std::string days = span(row.days_low, row.days_high);
    if (!days.empty()) add(days + (days == "1" ? " day" : " days"));
    const std::string at = row_warmth(row, units);
    if (!days.empty() && !at.empty())
        out += " " + at;
    else
        add(at);
    if (const std::string ph = span(row.ph_low, row.ph_high); !ph.empty()) add("pH " + ph);
    std::string source(row.source);
    if (!row.section.empty()) source += ", " + std::string(row.section);
    if (row.status == larder::Status::from_memory) source += ", from memory";
    if (row.status == larder::Status::common_practice)
        source = "common practice, no published figure";
    out += (out.empty() ? "" : ": ") + source;
    if (!row.note.empty()) out += "; " + std::string(row.note);
    return out;
}

std::string tend_text(const TendReport& report, const TextStyle& style) {
    return TendPage(report, style).text();
}

} // namespace jarful::render
