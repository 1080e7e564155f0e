#include "engine/larder/house.hpp"

#include "engine/larder/fold.hpp"
#include "engine/units/amount.hpp"
#include "engine/units/nearest.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace jarful::larder {

namespace {

/// More salt than dissolves (saturation, 26.4 %) can still be meant for a cure; beyond a half it is
/// a slip.
constexpr double most_percent = 50;

std::string percent(double value) {
    return units::print_number(value, 4);
}

/// "2 to 3 %", "at least 2 %", or empty.
std::string range_words(const Ruling& r) {
    if (r.low && r.high)
        return fmt::format("{} to {} %", percent(r.low->percent), percent(r.high->percent));
    if (r.low) return fmt::format("at least {} %", percent(r.low->percent));
    if (r.high) return fmt::format("at most {} %", percent(r.high->percent));
    return {};
}

/// "published range", "range of our own reading", …: of both ends, or of neither.
std::string range_title(const Ruling& r) {
    const auto of = [](const std::optional<Bound>& b) {
        return b && b->row != nullptr ? standing(*b->row) : std::string_view();
    };
    const std::string_view low = r.low ? of(r.low) : of(r.high);
    const std::string_view high = r.high ? of(r.high) : low;
    if (low != high) return fmt::format("range (low: {}; high: {})", low, high);
    if (low == describe(Status::published)) return "published range";
    if (low == describe(Status::common_practice)) return "range of common practice";
    return fmt::format("range ({})", low);
}

} // namespace

/// Takes a house file apart.
class HouseReader {
  public:
    HouseReader(House& house, language::Findings& findings)
        : house_(house)
        , findings_(findings) {}

    void run(const language::Document& document) {
        for (const language::Line& line : document.lines)
            if (const auto* header = std::get_if<language::HouseHeader>(&line.statement))
                house_.name_ = header->name.value;
        for (const language::Line& line : document.lines)
            if (const auto* range = std::get_if<language::RangeLine>(&line.statement))
                read(line, *range);
    }

  private:
    language::Diagnostic& fault(const char* code, language::Place place, std::string message,
                                std::string advice) {
        return findings_.fault(code, place, std::move(message), std::move(advice));
    }

    /// A bound in percent; -1 with a fault if it is none.
    double bound(const language::Literal& literal) {
        const units::Amount& a = literal.amount;
        if (a.dimension != units::dim::plain || !a.percent || a.range || a.uncertain) {
            fault("range-not-percent", literal.place, "The bound of a salt range is a percentage.",
                  "Write it as in \"between 2 % and 2.6 %\".");
            return -1;
        }
        const double value = a.value * 100;
        if (value < 0 || value > most_percent) {
            fault("absurd-amount", literal.place,
                  fmt::format("No ferment has {} % salt.", percent(value)), "Check the number.");
            return -1;
        }
        return value;
    }

    void read(const language::Line& line, const language::RangeLine& r) {
        std::optional<double> low;
        std::optional<double> high;
        if (r.low) low = bound(*r.low);
        if (r.high) high = bound(*r.high);
        if ((low && *low < 0) || (high && *high < 0)) return;
        if (low && high && *low > *high) {
            fault("reversed-range", r.low->place, "This range goes downwards.",
                  "Write the smaller percentage first.");
            return;
        }
        const std::string method = r.method ? r.method->value : "";
        for (const auto& [kind, its_method, place] : seen_) {
            const Kind* other = larder::find_kind(kind);
            const bool same = fold(kind) == fold(r.kind.value) ||
                              (other != nullptr && other == larder::find_kind(r.kind.value));
            if (!same || its_method != method) continue;
            language::Diagnostic d{
                "duplicate-range",           language::Severity::fault,     line.keyword,
                "This range is said twice.", "Keep the one that is meant.", {}};
            d.related.push_back({place, "the first one"});
            findings_.add(std::move(d));
            return;
        }
        seen_.push_back({r.kind.value, method, line.keyword});
        if (const Kind* known = larder::find_kind(r.kind.value)) {
            change(*known, r, low, high);
        } else {
            own(r, low, high);
        }
    }

    /// The row that the house's bounds rest on.
    const RangeRow& row(const language::RangeLine& r, std::string_view kind, Basis basis,
                        std::optional<double> low, std::optional<double> high) {
        RangeRow out;
        out.id = house_.keep("house-" + std::string(kind));
        out.kind = kind;
        out.basis = basis;
        out.low = low;
        out.high = high;
        out.source = house_.keep("house \"" + house_.name_ + "\"");
        out.section = house_.keep(r.reason ? r.reason->value : std::string());
        out.status = Status::house;
        return house_.rows_.emplace_back(out);
    }

    void change(const Kind& known, const language::RangeLine& r, std::optional<double> low,
                std::optional<double> high) {
        const std::string method = r.method ? r.method->value : "";
        const Ruling* published = find_ruling(known, method);
        if (published == nullptr) {
            std::string methods;
            for (const Ruling& one : known.rulings)
                if (!one.method.empty())
                    methods += (methods.empty() ? "" : ", ") + std::string(one.method);
            fault(r.method ? "unknown-method" : "method-needed",
                  r.method ? r.method->place : r.kind.place,
                  r.method
                      ? fmt::format("{} is not made by a method called \"{}\".", known.name, method)
                      : fmt::format("{} is made in more than one way, and the salt differs.",
                                    known.name),
                  methods.empty() ? "Leave the method out." : "The methods: " + methods + ".");
            return;
        }
        if (r.basis && r.basis->value != key(published->basis)) {
            fault(
                "range-basis", r.basis->place,
                fmt::format("The salt of {} is judged {}.", known.name, describe(published->basis)),
                "Leave the basis out, or state the range on that one.");
            return;
        }
        const std::optional<double> final_low =
            low || !published->low ? low : std::optional(published->low->percent);
        const std::optional<double> final_high =
            high || !published->high ? high : std::optional(published->high->percent);
        if (final_low && final_high && *final_low > *final_high + 1e-9) {
            fault("reversed-range", (r.low ? r.low : r.high)->place,
                  fmt::format("The other bound stays the published one, and from {} to {} % the "
                              "range goes downwards.",
                              percent(*final_low), percent(*final_high)),
                  "State both bounds, or write one inside the published range.");
            return;
        }
        const bool wider = (low && (!published->low || *low < published->low->percent - 1e-9)) ||
                           (high && (!published->high || *high > published->high->percent + 1e-9));
        if (wider && !r.reason) {
            const std::string range = range_words(*published);
            fault("range-without-reason", (r.low ? r.low : r.high)->place,
                  range.empty()
                      ? "No range is published for this, and the house gives no reason for its own."
                      : fmt::format("This is wider than the {} of {}, and gives no reason.",
                                    range_title(*published), range),
                  "Write the reason in quotes behind it. It is shown in every verdict.");
            return;
        }
        Ruling& ruling = mine(known, *published);
        const RangeRow& said = row(r, known.name, published->basis, low, high);
        const std::string before = range_words(*published);
        std::string why =
            fmt::format("The house \"{}\" says {}{}.", house_.name_,
                        range_words(Ruling{{},
                                           {},
                                           {},
                                           low ? std::optional(Bound{*low, &said}) : std::nullopt,
                                           high ? std::optional(Bound{*high, &said}) : std::nullopt,
                                           {},
                                           {}}),
                        r.reason ? ": " + r.reason->value : std::string());
        if (before.empty()) {
            why += " No range is published for this.";
        } else {
            why += fmt::format(" That is {} the {}, {}.", wider ? "WIDER than" : "within",
                               range_title(*published), before);
        }
        if (low) ruling.low = Bound{*low, &said};
        if (high) ruling.high = Bound{*high, &said};
        if (ruling.typical && ((ruling.low && *ruling.typical < ruling.low->percent) ||
                               (ruling.high && *ruling.typical > ruling.high->percent)))
            ruling.typical.reset();
        ruling.why = house_.keep(std::move(why));
    }

    /// The house's copy of a ruling.
    Ruling& mine(const Kind& known, const Ruling& published) {
        auto found = std::find_if(house_.kinds_.begin(), house_.kinds_.end(),
                                  [&](const auto& own) { return own.kind.name == known.name; });
        if (found == house_.kinds_.end()) {
            House::OwnKind& own = house_.kinds_.emplace_back();
            own.kind = known;
            own.rulings.assign(known.rulings.begin(), known.rulings.end());
            own.kind.rulings = std::span<const Ruling>(own.rulings);
            found = std::prev(house_.kinds_.end());
        }
        return *std::find_if(found->rulings.begin(), found->rulings.end(),
                             [&](const Ruling& r) { return r.method == published.method; });
    }

    void own(const language::RangeLine& r, std::optional<double> low, std::optional<double> high) {
        if (!r.basis || !low || !high || !r.reason || r.method) {
            const auto near = larder::nearest_kind(r.kind.value);
            language::Diagnostic& unknown = fault(
                "own-kind", r.kind.place,
                fmt::format("There is no kind of ferment called \"{}\"; a kind of the house's own "
                            "says its basis, both bounds and a reason, and has no method.",
                            r.kind.value),
                near ? fmt::format("Did you mean \"{}\"?", *near)
                     : "Write it as in: range ash-turnips of vegetables between 2 % and 3 % "
                       "\"six winters\".");
            if (near) unknown.fixes.push_back({r.kind.place, std::string(*near)});
            return;
        }
        const Basis basis = r.basis->value == "of_vegetables"   ? Basis::of_vegetables
                            : r.basis->value == "of_brine"      ? Basis::of_brine
                            : r.basis->value == "of_everything" ? Basis::of_everything
                                                                : Basis::of_vegetables_and_water;
        House::OwnKind& own = house_.kinds_.emplace_back();
        own.kind.name = house_.keep(r.kind.value);
        own.kind.title = house_.keep("a kind of the house \"" + house_.name_ + "\"");
        const RangeRow& said = row(r, own.kind.name, basis, low, high);
        Ruling ruling;
        ruling.title = own.kind.title;
        ruling.basis = basis;
        ruling.low = Bound{*low, &said};
        ruling.high = Bound{*high, &said};
        ruling.why = house_.keep(fmt::format("The house \"{}\" says {}: {}. It is a kind of the "
                                             "house's own, and nothing is published for it.",
                                             house_.name_, range_words(ruling), r.reason->value));
        own.rulings.push_back(ruling);
        own.kind.rulings = std::span<const Ruling>(own.rulings);
    }

    struct Seen {
        std::string kind, method;
        language::Place place;
    };

    House& house_;
    language::Findings& findings_;
    std::vector<Seen> seen_;
};

std::string_view House::keep(std::string text) {
    return strings_.emplace_back(std::move(text));
}

const Kind* House::find_kind(std::string_view name) const {
    const Kind* known = larder::find_kind(name);
    const std::string folded = fold(name);
    for (const OwnKind& own : kinds_)
        if (known != nullptr ? own.kind.name == known->name : fold(own.kind.name) == folded)
            return &own.kind;
    return known;
}

std::vector<const Kind*> House::own_kinds() const {
    std::vector<const Kind*> out;
    for (const OwnKind& own : kinds_)
        if (larder::find_kind(own.kind.name) == nullptr) out.push_back(&own.kind);
    return out;
}

std::optional<std::string_view> House::nearest_kind(std::string_view misspelt) const {
    std::vector<std::string_view> names;
    for (const OwnKind& own : kinds_)
        names.push_back(own.kind.name);
    if (const auto near = units::nearest(misspelt, names)) return near;
    return larder::nearest_kind(misspelt);
}

std::shared_ptr<const House> House::read(const language::Document& document,
                                         language::Findings& findings) {
    auto house = std::make_shared<House>();
    HouseReader(*house, findings).run(document);
    return house;
}

} // namespace jarful::larder
