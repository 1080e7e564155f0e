#include "engine/larder/compile/reader.hpp"

namespace jarful::larder::compile {

namespace {

void in_order(Reader& reader, const std::string& where, const std::string& what,
              const std::optional<double>& low, const std::optional<double>& high, double least,
              double greatest) {
    if (low.value_or(least) < least || high.value_or(greatest) > greatest ||
        low.value_or(least) > high.value_or(greatest)) {
        reader.fault(where, what + " are not in order, or out of their bounds");
    }
}

/// A row that a schedule goes by has what the schedule needs.
void check_rules(Reader& reader, const std::string& where, const TimingFact& t) {
    if (t.rules_days && (t.what != TimingWhat::ferment || !t.days_low || !t.days_high)) {
        reader.fault(where, "rules the days, and is no window of days");
    }
    if (t.rules_ph && (!t.ph_high || !t.days_high || *t.ph_high > 4.6)) {
        reader.fault(where, "rules the pH, and does not say by when it is at 4.6 or below");
    }
    if (t.what == TimingWhat::too_cold && !t.celsius_high) {
        reader.fault(where, "does not say below which temperature");
    }
    if (t.what == TimingWhat::too_warm && !t.celsius_low) {
        reader.fault(where, "does not say above which temperature");
    }
}

void check_kind(Reader& reader, const std::string& where, const TimingFact& t, const Facts& facts) {
    if (t.kind == "any") return;
    const auto kind = std::find_if(facts.kinds.begin(), facts.kinds.end(),
                                   [&](const KindFact& k) { return k.name == t.kind; });
    if (kind == facts.kinds.end()) {
        reader.fault(where, "has an unknown kind " + t.kind);
    } else if (!t.method.empty() &&
               std::none_of(kind->rulings.begin(), kind->rulings.end(),
                            [&](const RulingFact& r) { return r.method == t.method; })) {
        reader.fault(where, "has an unknown method " + t.method);
    }
}

} // namespace

void read_timing(Reader& reader, Facts& facts) {
    std::set<std::string> ids;
    for (const json& entry : reader.load("timing.json", "rows")) {
        TimingFact t;
        t.id = reader.text(entry, "id", "timing.json");
        const std::string where = "timing.json, " + t.id;
        reader.only(entry, where,
                    {"id", "kind", "method", "what", "celsius_low", "celsius_high", "celsius_read",
                     "days_low", "days_high", "ph_low", "ph_high", "acid_low", "acid_high",
                     "rules_days", "rules_ph", "source", "section", "status", "note"});
        if (!ids.insert(t.id).second) reader.fault(where, "is there twice");
        t.kind = reader.text(entry, "kind", where);
        t.method = reader.text(entry, "method", where, false);
        t.what = reader.word<TimingWhat>(entry, "what", where,
                                         {{"ferment", TimingWhat::ferment},
                                          {"too_cold", TimingWhat::too_cold},
                                          {"too_warm", TimingWhat::too_warm},
                                          {"end_point", TimingWhat::end_point},
                                          {"store", TimingWhat::store},
                                          {"course", TimingWhat::course}});
        t.celsius_low = reader.number(entry, "celsius_low", where);
        t.celsius_high = reader.number(entry, "celsius_high", where);
        t.celsius_read = reader.flag(entry, "celsius_read", where);
        t.days_low = reader.number(entry, "days_low", where);
        t.days_high = reader.number(entry, "days_high", where);
        t.ph_low = reader.number(entry, "ph_low", where);
        t.ph_high = reader.number(entry, "ph_high", where);
        t.acid_low = reader.number(entry, "acid_low", where);
        t.acid_high = reader.number(entry, "acid_high", where);
        in_order(reader, where, "its temperatures", t.celsius_low, t.celsius_high, -5, 60);
        in_order(reader, where, "its days", t.days_low, t.days_high, 0, 4000);
        in_order(reader, where, "its pH", t.ph_low, t.ph_high, 2, 9);
        in_order(reader, where, "its acid", t.acid_low, t.acid_high, 0, 5);
        t.rules_days = reader.flag(entry, "rules_days", where);
        t.rules_ph = reader.flag(entry, "rules_ph", where);
        t.source = reader.source(entry, where);
        t.section = reader.text(entry, "section", where, false);
        t.status = reader.status(entry, where);
        t.note = reader.text(entry, "note", where, false);
        check_rules(reader, where, t);
        if ((t.rules_days || t.rules_ph) && reader.nameless(entry))
            reader.fault(where, "rules, and its source has no name");
        check_kind(reader, where, t, facts);
        facts.timing.push_back(std::move(t));
    }
}

} // namespace jarful::larder::compile
