#include "engine/render/tend_report.hpp"
#include "engine/render/text_parts.hpp"
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
        if (!page_.brief()) {
            days();
            published();
        }
        print_safety(page_, cautions());
        page_.next(next());
        page_.more("day by day, sources", "-o jar.ics (a calendar)");
        return page_.text();
    }

  private:
    void head() {
        std::string title = report_.title.empty() ? "A recipe without a title" : report_.title;
        if (report_.version) title += fmt::format(", version {}", *report_.version);
        page_.heading(title);
        std::string words = "Packed on " + print_long_date(schedule_.start) + ", which is day 0.";
        if (schedule_.room_celsius)
            words += " The room is at " + warmth(*schedule_.room_celsius, units_) + ".";
        if (!report_.jars.empty()) words += " In: " + listed(report_.jars) + ".";
        page_.paragraph(words, 0, 0);
        if (!page_.brief() && !report_.kitchen_built_in && !report_.kitchen.empty())
            page_.paragraph("Kitchen: " + stopped(report_.kitchen), 0, 0);
        if (!schedule_.room_celsius)
            page_.paragraph("The room's temperature is not known: write it behind --room, as in "
                            "--room 19C, or as a `room` line in the kitchen.",
                            0, 0);
        for (const larder::TimingRow* row : schedule_.published.warnings) {
            const std::string what =
                row->what == larder::TimingWhat::too_cold ? "TOO COLD: " : "TOO WARM: ";
            const std::string about =
                page_.brief() ? row_warmth(*row, units_) +
                                    (row->note.empty() ? "" : " (" + std::string(row->note) + ")")
                              : timing_words(*row, units_);
            page_.paragraph(what + stopped(about), 0, 2, true);
        }
    }

    [[nodiscard]] std::string on(int day) const {
        return fmt::format("{} (day {})", print_long_date(schedule_.date(day)), day);
    }

    void ready() {
        const tend::Ready& found = schedule_.ready;
        if (!found.days) {
            page_.paragraph(page_.brief() && schedule_.room_celsius
                                ? "NO SOURCE SAYS WHEN IT IS READY at " +
                                      warmth(*schedule_.room_celsius, units_) +
                                      ". Test the pH, then taste it."
                                : "WHEN IT IS READY IS NOT KNOWN. " + found.why,
                            0, 2, true);
        } else {
            const auto [from, to] = *found.days;
            page_.paragraph("LIKELY READY " +
                                (from == to
                                     ? on(from)
                                     : fmt::format("{} to {} (day {} to {})",
                                                   print_long_date(schedule_.date(from)),
                                                   print_long_date(schedule_.date(to)), from, to)) +
                                (found.from == tend::ReadyFrom::estimate ? ", an estimate." : "."),
                            0, 2, true);
            const std::string why = page_.brief() ? why_in_short() : found.why;
            if (!why.empty()) page_.paragraph(why);
        }
        const std::string remark = plain(found.remark, units_);
        if (!remark.empty()) page_.paragraph(stopped(capital(remark)));
        page_.paragraph(ph_words());
    }

    /// What the days rest on, without the sources.
    [[nodiscard]] std::string why_in_short() const {
        switch (schedule_.ready.from) {
        case tend::ReadyFrom::published:
            return "These days are published for this temperature.";
        case tend::ReadyFrom::estimate:
            return "The days lie between those published for a warmer and a colder room.";
        case tend::ReadyFrom::recipe:
            return "";
        case tend::ReadyFrom::other_room:
        case tend::ReadyFrom::not_foreseen:
            break;
        }
        return schedule_.ready.why;
    }

    [[nodiscard]] std::string ph_words() const {
        const auto& by = schedule_.published.ph_by;
        std::string words = fmt::format(
            "Eat it only at pH {} or below{}: test it.", tend::ph_limit,
            page_.brief() ? std::string() : fmt::format(" ({})", tend::ph_limit_source));
        if (!by) return words + " No source says when that is.";
        if (page_.brief())
            return words + " Expected by " + print_long_date(schedule_.date(by->day)) + ".";
        words += " Expected by " + on(by->day);
        return words + ". " + (by->general ? "For ferments of any kind: " : "Source: ") +
               stopped(timing_words(*by->row, units_));
    }

    // ---- What is done when, each once ----

    void line(const std::string& from, const std::string& to, const std::string& often,
              const std::string& what, bool dim = false) {
        page_.row({{.text = from, .width = 15, .dim = dim},
                   {.text = to, .width = 15, .dim = dim},
                   {.text = often, .width = 12, .dim = dim},
                   {.text = what, .width = page_.width() - 50, .dim = dim}});
    }

    void duties() {
        if (!page_.brief()) page_.gap();
        line("from", "to", "how often", "WHAT TO DO", true);
        for (const tend::Duty& duty : schedule_.duties) {
            const bool once = duty.days.size() == 1 && !duty.open_ended;
            std::string to = duty.open_ended ? "the move" : "";
            if (!duty.open_ended && duty.days.size() > 1)
                to = print_long_date(schedule_.date(duty.days.back()));
            line(duty.days.empty() ? "not before it"
                                   : print_long_date(schedule_.date(duty.days[0])),
                 duty.days.empty() ? "is ready" : to,
                 !once && duty.every_seconds ? how_often(*duty.every_seconds) : "once",
                 task_words(duty.task));
            remark(plain(duty.remark, units_));
        }
        const tend::Keeping& keep = schedule_.keeping;
        line(keep.move_day ? print_long_date(schedule_.date(*keep.move_day)) : "when ready", "",
             "once", "Move it to a " + keep.where + " place");
        std::string words = "Sooner if pH and taste are right.";
        if (keep.count > 0) {
            words += fmt::format(" It keeps {} {}{}", keep.count, keep.period,
                                 keep.count == 1 ? "" : "s");
            if (keep.keeps_until) words += ", until " + print_long_date(*keep.keeps_until);
            words += ".";
        }
        remark(words);
        remark(plain(keep.remark, units_));
    }

    void remark(const std::string& words) {
        if (!words.empty()) page_.paragraph(stopped(capital(words)), 4, 4);
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

    void published() {
        const auto& found = schedule_.published;
        rows("WHAT IS PUBLISHED OF THE DAYS", found.ruling);
        rows("PUBLISHED TOO, AND NOT USED HERE", found.beside);
        rows("PUBLISHED OF THE KEEPING", found.store);
    }

    void rows(std::string_view heading, const std::vector<const larder::TimingRow*>& found) {
        if (found.empty()) return;
        page_.heading(heading);
        for (const larder::TimingRow* row : found)
            page_.item("-", stopped(timing_words(*row, units_)), 2, 4);
    }

    /// On a brief page without that of the pH, which stands above.
    [[nodiscard]] std::vector<plan::Warning> cautions() const {
        std::vector<plan::Warning> out = report_.cautions;
        if (page_.brief())
            std::erase_if(out, [](const plan::Warning& warning) { return warning.id == "ph"; });
        return out;
    }

    /// What is in the way of a good ferment, otherwise the first thing to be done.
    [[nodiscard]] std::string next() const {
        if (!schedule_.published.warnings.empty()) {
            const larder::TimingRow& row = *schedule_.published.warnings.front();
            return row.what == larder::TimingWhat::too_cold
                       ? "find the jar a warmer place, not " + row_warmth(row, units_) + "."
                       : "find the jar a cooler place, not " + row_warmth(row, units_) + ".";
        }
        if (schedule_.entries.empty())
            return "look at it every few days; the recipe says nothing more.";
        const tend::Entry& first = schedule_.entries.front();
        return on(first.day) + ": " + stopped(small(entry_words(schedule_, first)));
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
