#include "engine/render/mark.hpp"
#include "engine/render/tend_report.hpp"
#include "engine/render/words.hpp"
#include "engine/tend/identity.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <map>

/// iCalendar, RFC 5545.
namespace jarful::render {

using tend::print_date;
using tend::print_long_date;

using tend::EntryWhat;

namespace {

constexpr int minutes_a_day = 24 * 60;

/// A TEXT value (section 3.3.11). What a calendar cannot carry is made visible first.
std::string escaped(std::string_view text) {
    std::string out;
    std::size_t begin = 0;
    while (begin <= text.size()) {
        const std::size_t end = std::min(text.find('\n', begin), text.size());
        for (const char c : visible(text.substr(begin, end - begin))) {
            if (c == '\\' || c == ';' || c == ',') out += '\\';
            out += c;
        }
        if (end == text.size()) break;
        out += "\\n";
        begin = end + 1;
    }
    return out;
}

/// Lines of at most 75 octets (section 3.1), folded between characters of UTF-8 and ended by CRLF.
class Lines {
  public:
    void add(std::string_view line) {
        std::size_t room = 75;
        while (line.size() > room) {
            std::size_t cut = room;
            while (cut > 1 && (static_cast<unsigned char>(line[cut]) & 0xC0U) == 0x80U)
                --cut;
            out_.append(line.substr(0, cut)).append("\r\n ");
            line.remove_prefix(cut);
            room = 74; // the blank that marks the fold counts
        }
        out_.append(line).append("\r\n");
    }
    void text(std::string_view property, std::string_view value) {
        add(std::string(property) + ":" + escaped(value));
    }
    [[nodiscard]] const std::string& all() const { return out_; }

  private:
    std::string out_;
};

std::string date_form(tend::Date date) {
    std::string out = print_date(date);
    out.erase(std::remove(out.begin(), out.end(), '-'), out.end());
    return out;
}

/// A floating time (section 3.3.5, form 1).
std::string time_form(tend::Date date, int minutes) {
    return date_form(date) + fmt::format("T{:02}{:02}00", minutes / 60, minutes % 60);
}

std::string moment_form(std::chrono::sys_seconds moment) {
    const auto day = std::chrono::floor<std::chrono::days>(moment);
    const std::chrono::hh_mm_ss clock{moment - day};
    return date_form(tend::Date{day}) + fmt::format("T{:02}{:02}{:02}Z", clock.hours().count(),
                                                    clock.minutes().count(),
                                                    clock.seconds().count());
}

class Calendar {
  public:
    Calendar(const TendReport& report, const CalendarForm& form)
        : report_(report)
        , schedule_(report.schedule)
        , shown_(report.shown)
        , form_(form)
        , made_(moment_form(form.made)) {
        using namespace std::chrono;
        constexpr sys_days first{year{2020} / January / 1};
        sequence_ = std::max<long long>(0, duration_cast<minutes>(form.made - first).count());
        title_ = report.title.empty() ? "A recipe without a title" : report.title;
        if (!form.name.empty()) title_ += " (" + form.name + ")";
    }

    std::string text() {
        lines_.add("BEGIN:VCALENDAR");
        lines_.add("VERSION:2.0");
        lines_.add("PRODID:-//Jarful//jarful tend//EN");
        lines_.add("CALSCALE:GREGORIAN");
        lines_.text("NAME", title_); // RFC 7986, section 5.1
        std::map<std::string, int> ordinals;
        for (const tend::Duty& duty : schedule_.duties)
            this->duty(duty, ordinals[duty.task]++);
        ready();
        for (const tend::Entry& entry : schedule_.entries)
            if (entry.what != EntryWhat::tend) once(entry);
        lines_.add("END:VCALENDAR");
        return lines_.all();
    }

  private:
    void begin(std::string_view what) {
        // A title and a name may hold anything; what stands between them keeps them apart.
        const std::string known = report_.title + '\n' + print_date(schedule_.start) + '\n' +
                                  form_.name + '\n' + std::string(what);
        lines_.add("BEGIN:VEVENT");
        lines_.add("UID:" + tend::named_uuid(known));
        lines_.add("DTSTAMP:" + made_);
        lines_.add("LAST-MODIFIED:" + made_);
        lines_.add("SEQUENCE:" + std::to_string(sequence_));
        lines_.add("TRANSP:TRANSPARENT"); // nobody is busy because a jar has to be opened
    }

    void end(const std::string& summary, const std::string& description, bool alarm,
             bool day_before = false) {
        lines_.text("SUMMARY", summary + ": " + title_);
        lines_.text("DESCRIPTION", description);
        if (alarm) this->alarm(summary, "PT0S");
        if (day_before) this->alarm("Tomorrow: " + summary, "-P1D");
        lines_.add("END:VEVENT");
    }

    void alarm(const std::string& words, const char* trigger) {
        lines_.add("BEGIN:VALARM");
        lines_.add("ACTION:DISPLAY");
        lines_.text("DESCRIPTION", words + ": " + title_);
        lines_.add(std::string("TRIGGER:") + trigger);
        lines_.add("END:VALARM");
    }

    void times(tend::Date date, int minutes) {
        lines_.add("DTSTART:" + time_form(date, minutes));
        lines_.add("DURATION:PT15M");
    }

    /// One series for each time of the day. Days at even distances repeat by a rule, others are
    /// listed.
    void duty(const tend::Duty& duty, int ordinal) {
        if (duty.days.empty()) return;
        // More often than every six hours nobody is woken: once, with the words saying how often.
        const int times_a_day = duty.times_a_day > 4 ? 1 : duty.times_a_day;
        for (int slot = 0; slot < times_a_day; ++slot) {
            const int minutes =
                (form_.at_minutes + slot * minutes_a_day / times_a_day) % minutes_a_day;
            begin(fmt::format("{} {} {}", duty.task, ordinal, slot));
            times(schedule_.date(duty.days.front()), minutes);
            repeat(duty.days, minutes);
            std::string words = task_words(duty.task);
            if (duty.every_seconds) words += ", " + how_often(*duty.every_seconds);
            words += ".";
            const std::string remark = plain(duty.remark, shown_);
            if (!remark.empty()) words += "\n" + stopped(capital(remark));
            const std::string task = task_words(duty.task);
            end(task.substr(0, task.find(':')), words, true);
        }
    }

    void repeat(const std::vector<int>& days, int minutes) {
        if (days.size() < 2) return;
        const int step = days[1] - days[0];
        bool even = true;
        for (std::size_t i = 1; i < days.size(); ++i)
            even = even && days[i] - days[i - 1] == step;
        if (even) {
            lines_.add(fmt::format("RRULE:FREQ=DAILY;INTERVAL={};COUNT={}", step, days.size()));
            return;
        }
        std::string list = "RDATE:";
        for (std::size_t i = 1; i < days.size(); ++i)
            list += (i > 1 ? "," : "") + time_form(schedule_.date(days[i]), minutes);
        lines_.add(list);
    }

    /// The days on which it is likely ready, as a bar across them.
    void ready() {
        if (!schedule_.ready.days) return;
        const tend::Days days = *schedule_.ready.days;
        begin("ready days");
        lines_.add("DTSTART;VALUE=DATE:" + date_form(schedule_.date(days.from)));
        lines_.add("DTEND;VALUE=DATE:" + date_form(schedule_.date(days.to + 1))); // exclusive
        const bool estimate = schedule_.ready.from == tend::ReadyFrom::estimate;
        end(estimate ? "Likely ready (estimate)" : "Likely ready", description(EntryWhat::ready),
            false);
    }

    void once(const tend::Entry& entry) {
        begin(tend::key(entry.what));
        times(entry.date, form_.at_minutes);
        end(entry_words(schedule_, entry), description(entry.what), true,
            entry.what == EntryWhat::move);
    }

    [[nodiscard]] std::string description(EntryWhat what) const {
        const std::string limit = fmt::format("Before eating, pH {} or below ({}).", tend::ph_limit,
                                              tend::ph_limit_source);
        switch (what) {
        case EntryWhat::ready: {
            const std::string remark = plain(schedule_.ready.remark, shown_);
            return schedule_.ready.why + (remark.empty() ? "" : "\n" + stopped(capital(remark))) +
                   "\nTaste it, and test the pH, before you believe the calendar. " + limit;
        }
        case EntryWhat::ph:
            return limit + "\n" + stopped(timing_words(*schedule_.published.ph_by->row, shown_));
        case EntryWhat::move:
            return "If it tastes right and the pH is down. " + limit + kept();
        default:
            return "Look, smell and test before using it after this day. " + limit;
        }
    }

    [[nodiscard]] std::string kept() const {
        const tend::Keeping& keep = schedule_.keeping;
        if (!keep.keeps_until) return {};
        const std::string remark = plain(keep.remark, shown_);
        return fmt::format("\nIt keeps {} for {} {}{}, until {}.", keep.where, keep.count,
                           keep.period, keep.count == 1 ? "" : "s",
                           print_long_date(*keep.keeps_until)) +
               (remark.empty() ? "" : " " + stopped(capital(remark)));
    }

    const TendReport& report_;
    const tend::Schedule& schedule_;
    Units shown_;
    const CalendarForm& form_;
    std::string made_;
    std::string title_;
    long long sequence_ = 0;
    Lines lines_;
};

} // namespace

std::string tend_calendar(const TendReport& report, const CalendarForm& form) {
    return with_mark(Calendar(report, form).text(), made::calendar, MarkForm::calendar);
}

} // namespace jarful::render
