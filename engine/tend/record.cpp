#include "engine/tend/record.hpp"

#include "engine/plan/method_times.hpp"
#include "engine/units/amount.hpp"

#include <algorithm>

namespace jarful::tend {

namespace {

Date date_of(const language::Day& day) {
    return Date{std::chrono::year{day.year}, std::chrono::month{static_cast<unsigned>(day.month)},
                std::chrono::day{static_cast<unsigned>(day.day)}};
}

/// The texts of a record hold no values: braces in them are braces.
plan::RichText words_of(const std::optional<language::Template>& text) {
    plan::RichText out;
    if (!text) return out;
    for (const language::Template::Piece& piece : text->pieces) {
        if (piece.value != language::no_node) continue;
        plan::TextPiece words;
        words.words = piece.text;
        out.push_back(std::move(words));
    }
    return out;
}

std::optional<int> whole(const std::optional<language::Whole>& value) {
    if (!value) return std::nullopt;
    return value->value;
}

class Reader {
  public:
    Reader(const language::Document& document, language::Findings& findings)
        : document_(document)
        , findings_(findings) {}

    std::optional<Record> run() {
        for (const language::Line& line : document_.lines)
            std::visit([&](const auto& statement) { take(line, statement); }, line.statement);
        for (auto& [place, correction] : corrections_)
            apply(place, std::move(correction));
        if (!begun_) {
            findings_.fault("not-begun", std::nullopt, "The record does not say when it was begun.",
                            "Write a line as in `begun 2026-11-25`.");
            if (!earliest_) return std::nullopt;
            out_.begun = *earliest_;
        }
        return std::move(out_);
    }

  private:
    template <class Other>
    void take(const language::Line&, const Other&) {}

    void seen(Date date) {
        if (!earliest_ || date < *earliest_) earliest_ = date;
    }

    void take(const language::Line&, const language::BatchHeader& s) {
        out_.title = s.title.value;
        out_.recipe = s.recipe.value;
        if (s.revision) out_.revision = s.revision->value;
    }
    void take(const language::Line& line, const language::BegunLine& s) {
        if (begun_) {
            findings_.fault("duplicate-line", line.keyword, "The batch is begun twice.",
                            "Only the first of these lines counts.");
            return;
        }
        begun_ = true;
        out_.begun = date_of(s.day);
    }
    void take(const language::Line&, const language::KindLine& s) {
        out_.kind = s.kind.value;
        if (s.method) out_.method = s.method->value;
    }
    void take(const language::Line&, const language::RemarkLine& s) {
        out_.remarks.push_back(s.text.value);
    }
    void take(const language::Line&, const language::RoomLine& s) {
        out_.room_celsius = celsius(s.temperature);
    }
    void take(const language::Line&, const language::LeftOutLine& s) {
        out_.without.push_back(s.name.value);
    }
    void take(const language::Line&, const language::InVesselLine& s) {
        out_.vessels.push_back(s.name.value);
    }
    void take(const language::Line&, const language::PlannedLine& s) {
        if (auto amount = weight(s.name, s.amount)) out_.planned.push_back(std::move(*amount));
    }
    void take(const language::Line&, const language::WeighedLine& s) {
        seen(date_of(s.day));
        auto amount = weight(s.name, s.amount);
        if (!amount) return;
        amount->date = date_of(s.day);
        out_.weighings.push_back(std::move(*amount));
    }

    void take(const language::Line&, const language::NotedLine& s) {
        Note note;
        note.date = date_of(s.day);
        seen(note.date);
        if (s.ph) note.ph = ph(*s.ph);
        if (s.temperature) note.celsius = celsius(*s.temperature);
        if (s.filled) note.filled_ml = volume(*s.filled);
        for (const language::Word& deed : s.did)
            note.did.push_back(deed.value);
        if (s.text) note.text = s.text->value;
        out_.notes.push_back(std::move(note));
    }

    void take(const language::Line& line, const language::CorrectedLine& s) {
        using What = Logged::What;
        Correction out;
        out.date = date_of(s.day);
        out.of = date_of(s.of);
        if (s.why) out.why = s.why->value;
        const auto entry = [&](const std::optional<language::Literal>& literal,
                               const std::optional<language::Word>& deed,
                               const std::optional<language::Text>& text) -> std::optional<Logged> {
            if (s.what == What::deed) return Logged{s.what, "", 0, false, deed->value};
            if (s.what == What::text) return Logged{s.what, "", 0, false, text->value};
            if (s.what == What::weighed) {
                const auto amount = weight(*s.name, *literal);
                if (!amount) return std::nullopt;
                return Logged{s.what, amount->name, amount->amount, amount->pieces, ""};
            }
            const auto value = s.what == What::ph            ? ph(*literal)
                               : s.what == What::temperature ? celsius(*literal)
                                                             : volume(*literal);
            if (!value) return std::nullopt;
            return Logged{s.what, "", *value, false, ""};
        };
        auto before = entry(s.before, s.deed_before, s.text_before);
        if (!before) return;
        out.before = *std::move(before);
        if (!s.nothing) {
            out.after = entry(s.after, s.deed_after, s.text_after);
            if (!out.after) return;
        }
        corrections_.emplace_back(line.place, std::move(out));
    }

    /// Once all is read: the order of lines is free.
    void apply(language::Place place, Correction correction) {
        const std::string what = print_entry(correction.before);
        const std::string day = print_date(correction.of);
        if (correct(out_, std::move(correction))) return;
        findings_.fault("nothing-corrected", place,
                        "There is no \"" + what + "\" of " + day + ", so nothing is corrected.",
                        "Write the entry with the value that it has now, and its day.");
    }

    void take(const language::Line&, const language::TendLine& s) {
        plan::MethodLine line;
        line.sort = plan::MethodLine::Sort::tend;
        line.task = s.task.value;
        if (s.every) line.seconds = s.every->amount.value;
        line.from_day = whole(s.from_day);
        line.to_day = whole(s.to_day);
        line.on_day = whole(s.on_day);
        line.text = words_of(s.text);
        if (plan::can_be_meant(s, findings_)) out_.tending.push_back(std::move(line));
    }
    void take(const language::Line&, const language::ReadyLine& s) {
        plan::MethodLine line;
        line.sort = plan::MethodLine::Sort::ready;
        line.from_day = s.from_day.value;
        line.to_day = whole(s.to_day);
        if (s.from_temperature) line.from_kelvin = s.from_temperature->amount.value;
        if (s.to_temperature) line.to_kelvin = s.to_temperature->amount.value;
        line.text = words_of(s.text);
        if (plan::can_be_meant(s, findings_)) out_.tending.push_back(std::move(line));
    }
    void take(const language::Line&, const language::KeepLine& s) {
        static constexpr const char* names[] = {"day", "week", "month", "year"};
        plan::MethodLine line;
        line.sort = plan::MethodLine::Sort::keep;
        line.task = s.where.value;
        line.count = s.count.value;
        line.period = names[static_cast<std::size_t>(s.period)];
        line.text = words_of(s.text);
        if (plan::can_be_meant(s, findings_)) out_.tending.push_back(std::move(line));
    }

    std::optional<Weighed> weight(const language::Word& name, const language::Literal& literal) {
        Weighed out;
        out.name = name.value;
        out.amount = literal.amount.value;
        out.pieces = literal.amount.plain_number;
        const bool mass = literal.amount.dimension == units::dim::mass;
        if ((!mass && !out.pieces) || !(out.amount >= 0) || out.amount > 1e9) {
            findings_.fault("wrong-dimension", literal.place,
                            "A record holds weights, and this is none.",
                            "Write it as in `weighed salt = 41 g on 2026-11-25`.");
            return std::nullopt;
        }
        return out;
    }

    std::optional<double> celsius(const language::Literal& literal) {
        const double value = literal.amount.value - units::zero_celsius;
        if (literal.amount.temperature_point && value >= -10 && value <= 50) return value;
        findings_.fault("absurd-amount", literal.place, "This is no temperature of a jar.",
                        "Write it as in `at 19 °C`.");
        return std::nullopt;
    }

    std::optional<double> ph(const language::Literal& literal) {
        const units::Amount& a = literal.amount;
        if (a.plain_number && a.value >= 0 && a.value <= 14) return a.value;
        findings_.fault("absurd-amount", literal.place, "A pH is a plain number from 0 to 14.",
                        "Write it as in `pH 3.9`.");
        return std::nullopt;
    }

    std::optional<double> volume(const language::Literal& literal) {
        const units::Amount& a = literal.amount;
        if (a.dimension == units::dim::volume && a.value > 0 && a.value < 1e6) return a.value;
        findings_.fault("wrong-dimension", literal.place,
                        "How much room it fills is a volume, and this is none.",
                        "Write it as in `filled 1.9 L`.");
        return std::nullopt;
    }

    const language::Document& document_;
    language::Findings& findings_;
    Record out_;
    std::vector<std::pair<language::Place, Correction>> corrections_;
    bool begun_ = false;
    std::optional<Date> earliest_;
};

const Weighed* last_of(const std::vector<Weighed>& list, std::string_view name) {
    const auto found = std::find_if(list.rbegin(), list.rend(), [&](const Weighed& w) {
        return w.name == name && !w.taken_back;
    });
    return found == list.rend() ? nullptr : &*found;
}

} // namespace

const Weighed* Record::weighed(std::string_view name) const {
    return last_of(weighings, name);
}

const Weighed* Record::plan_of(std::string_view name) const {
    return last_of(planned, name);
}

std::vector<const Note*> Record::by_date() const {
    std::vector<const Note*> out;
    for (const Note& note : notes)
        out.push_back(&note);
    std::stable_sort(out.begin(), out.end(),
                     [](const Note* a, const Note* b) { return a->date < b->date; });
    return out;
}

std::optional<Date> Record::did(std::string_view deed) const {
    std::optional<Date> first;
    for (const Note& note : notes)
        if (std::find(note.did.begin(), note.did.end(), deed) != note.did.end() &&
            (!first || note.date < *first))
            first = note.date;
    return first;
}

std::optional<Record> read_record(const language::Document& document,
                                  language::Findings& findings) {
    return Reader(document, findings).run();
}

} // namespace jarful::tend
