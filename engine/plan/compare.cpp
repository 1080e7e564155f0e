#include "engine/plan/compare.hpp"

#include "engine/language/tidy.hpp"
#include "engine/plan/compare_texts.hpp"
#include "engine/plan/entering.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace jarful::plan {

using language::Document;
using language::Quantity;
using language::QuantityWord;

namespace {

bool equal(double a, double b) {
    return std::fabs(a - b) <= 1e-9 * std::max(std::fabs(a), std::fabs(b));
}

// ---- The same batch ----

bool sets_the_batch(QuantityWord word) {
    return word == QuantityWord::given || word == QuantityWord::total;
}

const Quantity* quantity(const Document& recipe, std::string_view name) {
    for (const language::Line& line : recipe.lines) {
        const auto* q = std::get_if<Quantity>(&line.statement);
        if (q != nullptr && q->name.value == name) return q;
    }
    return nullptr;
}

std::vector<std::string> givens(const Document& recipe) {
    std::vector<std::string> names;
    for (const language::Line& line : recipe.lines) {
        const auto* q = std::get_if<Quantity>(&line.statement);
        if (q != nullptr && sets_the_batch(q->word)) names.push_back(q->name.value);
    }
    return names;
}

bool sets(const Request& request, std::string_view name) {
    return std::any_of(request.settings.begin(), request.settings.end(),
                       [&](const Setting& s) { return s.name == name; });
}

/// Whether something is asked backwards: then each recipe finds its own batch.
bool asks_backwards(const Document& recipe, const Request& request) {
    return std::any_of(request.settings.begin(), request.settings.end(), [&](const Setting& s) {
        if (s.name == "jar" || s.name == "fill") return true;
        const Quantity* q = quantity(recipe, s.name);
        return q != nullptr && !sets_the_batch(q->word) && q->word != QuantityWord::measure;
    });
}

Setting weight(const std::string& name, double grams) {
    units::Amount amount;
    amount.value = amount.low = amount.high = grams;
    amount.dimension = units::dim::mass;
    Setting out;
    out.name = name;
    out.parts.push_back(amount);
    return out;
}

/// What a recipe's givens and totals come to by a request, with their names.
std::vector<std::pair<std::string, double>>
batch_of(CompareSide& side, const kitchen::Kitchen& kitchen, const Request& request) {
    std::vector<std::pair<std::string, double>> out;
    language::Findings findings;
    RequestFindings request_findings;
    const std::unique_ptr<Model> model = compile(side.recipe, kitchen, findings);
    if (!model) return out;
    static_cast<void>(enter_request(*model, kitchen, request, request_findings));
    if (request_findings.has_faults()) return out;
    for (const std::string& name : givens(side.recipe))
        if (const auto cell = model->sheet->find(name))
            out.emplace_back(name, model->sheet->value(*cell));
    return out;
}

/// The request as it concerns one recipe: what only the other one has is left out.
struct Concerning {
    Request request;
    std::vector<std::size_t> settings, without; ///< where each stands in the whole request

    Concerning(const Request& whole, const Document& recipe, const Document& other)
        : request(whole) {
        const auto elsewhere = [&](const std::string& name) {
            return quantity(recipe, name) == nullptr && quantity(other, name) != nullptr;
        };
        request.settings.clear();
        request.without.clear();
        for (std::size_t i = 0; i < whole.settings.size(); ++i) {
            if (elsewhere(whole.settings[i].name)) continue;
            request.settings.push_back(whole.settings[i]);
            settings.push_back(i);
        }
        for (std::size_t i = 0; i < whole.without.size(); ++i) {
            if (elsewhere(whole.without[i])) continue;
            request.without.push_back(whole.without[i]);
            without.push_back(i);
        }
    }

    /// Findings about it, in the places that the whole request has for them.
    [[nodiscard]] RequestFindings of_whole(RequestFindings own, const Request& whole) const {
        RequestFindings out = own;
        out.settings.assign(whole.settings.size(), {});
        out.without.assign(whole.without.size(), {});
        for (std::size_t i = 0; i < settings.size() && i < own.settings.size(); ++i)
            out.settings[settings[i]] = std::move(own.settings[i]);
        for (std::size_t i = 0; i < without.size() && i < own.without.size(); ++i)
            out.without[without[i]] = std::move(own.without[i]);
        return out;
    }
};

/// Sets the givens of one recipe to what those of the other come to.
void follow(Request& request, const Document& recipe,
            const std::vector<std::pair<std::string, double>>& batch) {
    const std::vector<std::string> names = givens(recipe);
    for (const auto& [name, grams] : batch)
        if (std::find(names.begin(), names.end(), name) != names.end() && !sets(request, name))
            request.settings.push_back(weight(name, grams));
    if (names.size() == 1 && batch.size() == 1 && !sets(request, names.front()))
        request.settings.push_back(weight(names.front(), batch.front().second));
}

std::string in_words(const std::vector<std::pair<std::string, double>>& batch, units::Shown shown) {
    std::string out;
    for (const auto& [name, grams] : batch)
        out += fmt::format("{}{} = {}", out.empty() ? "" : ", ", name,
                           units::print_mass(grams, shown));
    return out;
}

// ---- Lines ----

/// What all that counts as vegetable comes to.
double produce_of(const WeighOut& out) {
    double grams = 0;
    for (const auto* list : {&out.givens, &out.items})
        for (const Item& item : *list)
            if (item.role == larder::Role::vegetable &&
                (item.fate == Fate::in_jar || item.fate == Fate::optional))
                grams += item.exact_g;
    return grams;
}

std::string role_words(const std::optional<larder::Role>& role) {
    return role ? std::string(larder::describe(*role)) : std::string();
}

std::vector<std::pair<std::string, ComparedAmount>> amounts_of(const WeighOut& out) {
    std::vector<std::pair<std::string, ComparedAmount>> all;
    const double produce = produce_of(out);
    for (const auto* list : {&out.givens, &out.items}) {
        for (const Item& item : *list) {
            ComparedAmount a;
            a.exact_g = item.exact_g;
            a.reading_g = item.reading_g;
            a.step_g = item.step_g;
            if (produce > 0) a.share_percent = 100 * item.exact_g / produce;
            a.word = item.word;
            a.material = item.material;
            a.label = item.label;
            a.role = role_words(item.role);
            a.fate = describe(item.fate);
            all.emplace_back(item.name, std::move(a));
        }
    }
    for (const Count& count : out.counts) {
        ComparedAmount a;
        a.pieces = true;
        a.exact_g = count.exact;
        a.reading_g = count.count;
        a.word = count.each_jar ? "count, each jar" : "count";
        a.material = count.material;
        a.label = count.label;
        a.role = role_words(count.role);
        a.fate = describe(count.fate);
        all.emplace_back(count.name, std::move(a));
    }
    for (const Stock& stock : out.stocks) {
        ComparedAmount a;
        a.exact_g = a.reading_g = stock.made_g;
        a.word = "brine";
        a.material = stock.salt.material;
        a.label = stock.label;
        a.strength = fmt::format("{} % of {}", units::print_percent(stock.strength_percent / 100),
                                 stock.of_water ? "the water" : "the brine");
        all.emplace_back(stock.name, std::move(a));
    }
    return all;
}

void remark(ComparedLine& line, std::string_view about, const std::string& before,
            const std::string& after) {
    if (before == after) return;
    const auto shown = [&](const std::string& text) {
        return text.empty() ? std::string("nothing said") : text;
    };
    line.remarks.push_back(fmt::format("{}: {}, before {}", about, shown(after), shown(before)));
}

void compare_amounts(ComparedLine& line) {
    const ComparedAmount& a = *line.before;
    const ComparedAmount& b = *line.after;
    line.amount_differs = a.pieces != b.pieces || !equal(a.exact_g, b.exact_g);
    remark(line, "line", a.word, b.word);
    remark(line, "as", a.material, b.material);
    remark(line, "counts as", a.role, b.role);
    remark(line, "becomes", a.fate, b.fate);
    remark(line, "strength", a.strength, b.strength);
    remark(line, "words", a.label, b.label);
}

std::vector<ComparedLine> compare_lines(const WeighOut& before, const WeighOut& after) {
    auto old = amounts_of(before);
    std::vector<ComparedLine> out;
    for (auto& [name, amount] : amounts_of(after)) {
        ComparedLine line;
        line.name = name;
        line.after = std::move(amount);
        const auto same = std::find_if(old.begin(), old.end(),
                                       [&](const auto& o) { return o.first == line.name; });
        if (same != old.end()) {
            line.before = std::move(same->second);
            old.erase(same);
            compare_amounts(line);
        }
        out.push_back(std::move(line));
    }
    for (auto& [name, amount] : old) {
        ComparedLine line;
        line.name = name;
        line.before = std::move(amount);
        out.push_back(std::move(line));
    }
    return out;
}

// ---- Texts ----

/// A `tend` line can only have changed into another one of the same task.
std::string key_of(const Document& recipe, const language::Line& line) {
    std::string key(recipe.source.at(line.keyword));
    if (const auto* tend = std::get_if<language::TendLine>(&line.statement))
        key += ' ' + tend->task.value;
    return key;
}

template <class... Kinds>
std::vector<KeyedText> texts_of(const Document& recipe) {
    std::vector<KeyedText> out;
    for (const language::Line& line : recipe.lines)
        if ((std::holds_alternative<Kinds>(line.statement) || ...))
            out.push_back({key_of(recipe, line), language::tidy_line(recipe, line)});
    return out;
}

template <class... Kinds>
std::vector<ComparedText> changes(const Document& before, const Document& after, bool ordered) {
    std::vector<KeyedText> a = texts_of<Kinds...>(before);
    std::vector<KeyedText> b = texts_of<Kinds...>(after);
    if (!ordered) {
        const auto by_text = [](const KeyedText& x, const KeyedText& y) { return x.text < y.text; };
        std::stable_sort(a.begin(), a.end(), by_text);
        std::stable_sort(b.begin(), b.end(), by_text);
    }
    return compare_texts(std::move(a), std::move(b), ordered);
}

// ---- The rest ----

std::string kind_words(const WeighOut& out) {
    return out.method.empty() ? out.kind : out.kind + " " + out.method;
}

bool salts_differ(const ComparedSalt& a, const ComparedSalt& b) {
    if (a.salt.has_value() != b.salt.has_value()) return true;
    if (!a.salt) return a.why_not != b.why_not;
    const auto end = [](const std::optional<RangeEnd>& e) {
        return e ? std::pair(e->percent, e->row) : std::pair(-1.0, std::string());
    };
    return !equal(a.salt->figure.percent, b.salt->figure.percent) ||
           a.salt->figure.basis != b.salt->figure.basis || a.salt->verdict != b.salt->verdict ||
           end(a.salt->low) != end(b.salt->low) || end(a.salt->high) != end(b.salt->high);
}

void compare_vessels(Comparison& c, const WeighOut& before, const WeighOut& after) {
    if (before.room) {
        c.fill_ml.before = before.room->fill_ml;
        c.headspace_percent.before = before.room->headspace_percent;
        c.headspace_cm.before = before.room->headspace_cm;
    }
    if (after.room) {
        c.fill_ml.after = after.room->fill_ml;
        c.headspace_percent.after = after.room->headspace_percent;
        c.headspace_cm.after = after.room->headspace_cm;
    }
    if (before.top_up) c.topup_percent.before = before.top_up->percent;
    if (after.top_up) c.topup_percent.after = after.top_up->percent;
}

void compare_headers(Comparison& c, const CompareSide& before, const CompareSide& after,
                     const kitchen::Kitchen& kitchen) {
    const auto version = [](const std::optional<int>& v) {
        return v ? fmt::format("version {}", *v) : std::string("no version");
    };
    if (c.title_before != c.title_after)
        c.aside.push_back(
            fmt::format("Called \"{}\", before \"{}\".", c.title_after, c.title_before));
    if (c.version_before != c.version_after)
        c.aside.push_back(
            fmt::format("Now {}, before {}.", version(c.version_after), version(c.version_before)));
    // The batch as each is written.
    CompareSide old{before.recipe, {}, {}, {}};
    CompareSide present{after.recipe, {}, {}, {}};
    const std::string then = in_words(batch_of(old, kitchen, {}), kitchen.shown);
    const std::string now = in_words(batch_of(present, kitchen, {}), kitchen.shown);
    if (then != now) c.aside.push_back(fmt::format("Written for {}, before {}.", now, then));
    for (const ComparedText& t : changes<language::RemarkLine, language::MaterialLine>(
             before.recipe, after.recipe, false)) {
        if (!t.after.empty())
            c.aside.push_back(t.before.empty()
                                  ? fmt::format("New: {}", t.after)
                                  : fmt::format("Now {} (before: {})", t.after, t.before));
        else
            c.aside.push_back(fmt::format("Gone: {}", t.before));
    }
}

} // namespace

bool ComparedFigure::differs() const {
    return before.has_value() != after.has_value() || (before && !equal(*before, *after));
}

bool Comparison::same() const {
    const bool lines_same =
        std::none_of(lines.begin(), lines.end(), [](const ComparedLine& l) { return l.differs(); });
    return lines_same && !salt_differs && holds.empty() && method.empty() && later.empty() &&
           kind_before == kind_after && !fill_ml.differs() && !headspace_percent.differs() &&
           !headspace_cm.differs() && !topup_percent.differs();
}

std::optional<Comparison> compare(CompareSide& before, CompareSide& after,
                                  const kitchen::Kitchen& kitchen, const Request& request) {
    Concerning new_words(request, after.recipe, before.recipe);
    Concerning old_words(request, before.recipe, after.recipe);
    Request& for_after = new_words.request;
    Request& for_before = old_words.request;
    Comparison c;
    if (!asks_backwards(after.recipe, request) && !asks_backwards(before.recipe, request)) {
        // Set for the one, a given of another name is set for the other as well.
        if (for_after.settings.empty() && !for_before.settings.empty())
            follow(for_after, after.recipe, batch_of(before, kitchen, for_before));
        follow(for_after, after.recipe, batch_of(after, kitchen, for_after));
        follow(for_before, before.recipe, batch_of(after, kitchen, for_after));
    }
    before.out = weigh(before.recipe, kitchen, for_before, before.findings, before.request);
    after.out = weigh(after.recipe, kitchen, for_after, after.findings, after.request);
    before.request = old_words.of_whole(std::move(before.request), request);
    after.request = new_words.of_whole(std::move(after.request), request);
    if (!before.out || !after.out) return std::nullopt;
    const std::string ours = in_words(batch_of(after, kitchen, for_after), kitchen.shown);
    const std::string theirs = in_words(batch_of(before, kitchen, for_before), kitchen.shown);
    c.batch = ours == theirs ? ours : fmt::format("{} (before: {})", ours, theirs);
    const WeighOut& a = *before.out;
    const WeighOut& b = *after.out;
    c.title_before = a.title;
    c.title_after = b.title;
    c.version_before = a.version;
    c.version_after = b.version;
    c.kind_before = kind_words(a);
    c.kind_after = kind_words(b);
    c.lines = compare_lines(a, b);
    c.salt_before = {a.salt, a.no_salt_reason};
    c.salt_after = {b.salt, b.no_salt_reason};
    c.salt_differs = salts_differ(c.salt_before, c.salt_after);
    c.holds = changes<language::HoldLine>(before.recipe, after.recipe, false);
    c.method = changes<language::StepLine, language::RestLine>(before.recipe, after.recipe, true);
    c.later = changes<language::TendLine, language::ReadyLine, language::KeepLine>(
        before.recipe, after.recipe, false);
    compare_vessels(c, a, b);
    compare_headers(c, before, after, kitchen);
    return c;
}

} // namespace jarful::plan
