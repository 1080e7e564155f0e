#include "engine/plan/counter.hpp"

#include "engine/language/parse.hpp"
#include "engine/units/nearest.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <utility>

namespace jarful::plan {

using language::QuantityWord;

namespace {

constexpr std::size_t longest_line = 1000;
constexpr std::size_t most_undone = 1000;

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view blanks = " \t\r\n";
    const std::size_t first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

CounterReply refused(std::string_view text, language::Findings findings) {
    CounterReply reply;
    reply.refusals.push_back({std::string(text), std::move(findings)});
    return reply;
}

CounterReply refused(std::string_view line, std::string_view part, std::string code,
                     std::string message, std::string advice) {
    language::Findings findings;
    std::size_t begin = 0;
    std::size_t end = line.size();
    if (!part.empty() && part.data() >= line.data() && part.data() < line.data() + line.size()) {
        begin = static_cast<std::size_t>(part.data() - line.data());
        end = begin + part.size();
    }
    findings.fault(
        std::move(code),
        language::Place{static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(end)},
        std::move(message), std::move(advice));
    return refused(line, std::move(findings));
}

CounterReply note(std::string text) {
    CounterReply reply;
    reply.sort = CounterReply::Sort::said;
    reply.notes.push_back(std::move(text));
    return reply;
}

/// Takes a setting out of a list and its text out of the other.
bool erase_named(std::vector<Setting>& settings, std::vector<std::string>& texts,
                 std::string_view name) {
    for (std::size_t i = 0; i < settings.size(); ++i) {
        if (settings[i].name != name) continue;
        settings.erase(settings.begin() + static_cast<std::ptrdiff_t>(i));
        texts.erase(texts.begin() + static_cast<std::ptrdiff_t>(i));
        return true;
    }
    return false;
}

/// Whether something is wrong, and nothing but faults of these codes.
bool refused_for(const CounterReply& reply, std::initializer_list<std::string_view> codes) {
    bool any = false;
    for (const CounterReply::Refusal& r : reply.refusals) {
        for (const language::Diagnostic& d : r.findings.all()) {
            if (d.severity != language::Severity::fault) continue;
            any = true;
            if (std::find(codes.begin(), codes.end(), d.code) == codes.end()) return false;
        }
    }
    return any;
}

/// Whether more was asked than there is freedom for, and nothing else is wrong.
bool asked_too_much(const CounterReply& reply) {
    return refused_for(reply, {"asked-too-much", "nothing-to-move"});
}

std::string joined(const std::vector<std::string>& texts) {
    std::string out;
    for (const std::string& text : texts)
        out += (out.empty() ? "" : ", ") + text;
    return out;
}

} // namespace

const std::vector<CounterWord>& counter_words() {
    static const std::vector<CounterWord> words{
        {"poured", "poured NAME=AMOUNT", "what really went in; the salt is judged by it"},
        {"without", "without NAME", "leave out an optional line"},
        {"with", "with NAME", "put it back"},
        {"bowl", "bowl AMOUNT", "all goes into one bowl of that weight; bowl alone: no more"},
        {"forget", "forget NAME", "take back what was said of it; forget all: everything"},
        {"yes", "yes", "a weight that was doubted is so"},
        {"undo", "undo", "as it was before the last change"},
        {"why", "why NAME", "where a number comes from; why alone: the salt"},
        {"check", "check", "the salt and the bounds of the house"},
        {"jars", "jars", "which jars the batch goes into, and what into each"},
        {"sheet", "sheet", "everything"},
        {"help", "help", "this list"},
        {"quit", "quit", "the end"},
    };
    return words;
}

Counter::Counter(const language::Document& recipe, const kitchen::Kitchen& kitchen, Request start,
                 std::vector<std::string> setting_texts, std::vector<std::string> poured_texts)
    : recipe_(recipe)
    , kitchen_(kitchen)
    , weighing_(recipe, kitchen, recipe_findings_)
    , names_(traceable_names(recipe, kitchen)) {
    state_.request = std::move(start);
    state_.setting_texts = std::move(setting_texts);
    state_.poured_texts = std::move(poured_texts);
    state_.setting_texts.resize(state_.request.settings.size());
    state_.poured_texts.resize(state_.request.poured.size());
}

CounterReply Counter::open() {
    CounterReply reply;
    now_ = weigh_by(state_, reply);
    if (!now_) return reply;
    reply.sort = CounterReply::Sort::changed;
    reply.after = now_;
    return reply;
}

bool Counter::question(std::string_view name) const {
    for (const language::Line& line : recipe_.lines) {
        const auto* q = std::get_if<language::Quantity>(&line.statement);
        if (q == nullptr || q->name.value != name) continue;
        return q->word != QuantityWord::given && q->word != QuantityWord::total &&
               q->word != QuantityWord::measure;
    }
    return true; // jar and fill
}

std::optional<WeighOut> Counter::weigh_by(const State& state, CounterReply& reply) {
    language::Findings findings = recipe_findings_;
    RequestFindings found;
    auto out = weighing_.by(state.request, findings, found);
    if (out) return out;
    const auto keep = [&](const std::string& text, const language::Findings& list) {
        if (list.has_faults()) reply.refusals.push_back({text, list});
    };
    if (findings.has_faults()) reply.refusals.push_back({{}, findings});
    for (std::size_t i = 0; i < found.settings.size(); ++i)
        keep(state.setting_texts[i], found.settings[i]);
    for (std::size_t i = 0; i < found.without.size(); ++i)
        keep(state.request.without[i], found.without[i]);
    for (std::size_t i = 0; i < found.poured.size(); ++i)
        keep(state.poured_texts[i], found.poured[i]);
    keep(state.request.moving, found.moving);
    keep(state.bowl_text, found.bowl);
    return std::nullopt;
}

CounterReply Counter::take(State next) {
    CounterReply reply;
    auto out = weigh_by(next, reply);
    if (!out) {
        if (refused_for(reply, {"measured-unlikely"})) doubted_ = std::move(next);
        return reply;
    }
    reply.sort = CounterReply::Sort::changed;
    reply.before = std::move(now_);
    now_ = std::move(out);
    reply.after = now_;
    past_.push_back(std::move(state_));
    if (past_.size() > most_undone) past_.erase(past_.begin());
    state_ = std::move(next);
    return reply;
}

std::vector<std::string> Counter::drop(State& state, bool questions, const std::string& but) const {
    std::vector<std::string> dropped;
    std::vector<Setting>& settings = state.request.settings;
    for (std::size_t i = settings.size(); i-- > 0;) {
        if (settings[i].name == but || question(settings[i].name) != questions) continue;
        dropped.insert(dropped.begin(), state.setting_texts[i]);
        settings.erase(settings.begin() + static_cast<std::ptrdiff_t>(i));
        state.setting_texts.erase(state.setting_texts.begin() + static_cast<std::ptrdiff_t>(i));
    }
    return dropped;
}

CounterReply Counter::say(std::string_view typed) {
    const std::string_view line = trimmed(typed);
    if (line.empty() || line.front() == '#') return {};
    if (line.size() > longest_line)
        return refused(line.substr(0, 60), {}, "long-line",
                       "That is too long for one line of the conversation.",
                       "Say one thing at a time; `help` shows what there is.");
    const auto doubted = std::exchange(doubted_, std::nullopt);
    const std::string_view word = line.substr(0, line.find_first_of(" \t"));
    const std::string_view rest = trimmed(line.substr(word.size()));
    if (word == "poured") return pour(line, rest);
    if (word == "bowl" && !rest.starts_with("=")) return bowl(line, rest);
    if (word == "without") return leave_out(line, rest);
    if (word == "with") return put_back(line, rest);
    if (line.find('=') != std::string_view::npos) return set(line);
    if (word == "why") return why(rest);
    if (word == "forget") return forget(line, rest);
    if (units::read_number(line)) return weight_alone(line);
    if (units::read_number(rest) && std::find(names_.begin(), names_.end(), word) != names_.end())
        return set(fmt::format("{}={}", word, rest));
    const auto known = std::find_if(counter_words().begin(), counter_words().end(),
                                    [&](const CounterWord& w) { return w.word == word; });
    if (known == counter_words().end() && word != "exit") return unknown(line, word);
    if (!rest.empty())
        return refused(line, rest, "left-over", fmt::format("`{}` stands alone.", word),
                       "Leave out what follows it.");
    CounterReply reply;
    reply.after = now_;
    using Sort = CounterReply::Sort;
    if (word == "undo") return undo();
    if (word == "yes") return yes(doubted);
    if (word == "jars") return jars();
    if (word == "check") reply.sort = Sort::check;
    if (word == "sheet") reply.sort = Sort::sheet;
    if (word == "help") reply.sort = Sort::help;
    if (word == "quit" || word == "exit") reply.sort = Sort::quit;
    return reply;
}

CounterReply Counter::set(std::string_view line) {
    language::Findings findings;
    auto setting = read_setting(line, findings);
    if (!setting || findings.has_faults()) return refused(line, std::move(findings));
    const std::string name = setting->name;
    const bool asks = question(name);
    State next = state_;
    erase_named(next.request.settings, next.setting_texts, name);
    next.request.settings.push_back(std::move(*setting));
    next.setting_texts.emplace_back(line);
    CounterReply first = take(next);
    if (!asked_too_much(first)) return first;
    // The newest word counts: what stands in its way is let go, as little as will do.
    std::vector<std::string> dropped = drop(next, true, name);
    CounterReply second = take(next);
    if (asked_too_much(second) && asks) {
        for (std::string& text : drop(next, false, name))
            dropped.push_back(std::move(text));
        second = take(next);
    }
    if (!second.refusals.empty() || dropped.empty()) return first;
    second.notes.push_back(fmt::format("No longer: {}.", joined(dropped)));
    return second;
}

CounterReply Counter::weight_alone(std::string_view line) {
    std::vector<std::string> givens;
    for (const language::Line& one : recipe_.lines) {
        const auto* q = std::get_if<language::Quantity>(&one.statement);
        if (q != nullptr && (q->word == QuantityWord::given || q->word == QuantityWord::total))
            givens.push_back(q->name.value);
    }
    if (givens.size() == 1) return set(fmt::format("{}={}", givens.front(), line));
    return refused(line, {}, "not-a-setting", "Of what is that?",
                   givens.empty()
                       ? "Write a name before it, as in `salt 42g`."
                       : fmt::format("Write a name before it, as in `{} {}`. What is given here: "
                                     "{}.",
                                     givens.front(), line, joined(givens)));
}

CounterReply Counter::pour(std::string_view line, std::string_view rest) {
    if (rest.empty())
        return refused(line, {}, "not-a-setting", "What was poured, and how much of it?",
                       "Write it as in `poured salt=45g`.");
    language::Findings findings;
    auto setting = read_setting(rest, findings);
    if (!setting || findings.has_faults()) return refused(rest, std::move(findings));
    State next = state_;
    erase_named(next.request.poured, next.poured_texts, setting->name);
    next.request.poured.push_back(std::move(*setting));
    next.poured_texts.emplace_back(rest);
    return take(std::move(next));
}

CounterReply Counter::bowl(std::string_view line, std::string_view rest) {
    State next = state_;
    if (rest.empty()) {
        if (!next.request.bowl)
            return refused(line, {}, "not-a-setting", "How much does the empty bowl weigh?",
                           "Write it as in `bowl 640g`.");
        next.request.bowl.reset();
        next.bowl_text.clear();
        return take(std::move(next));
    }
    // As long as what was typed, so that places fit.
    std::string text = fmt::format("bowl={}", rest);
    language::Findings findings;
    auto setting = read_setting(text, findings);
    if (!setting || findings.has_faults()) return refused(text, std::move(findings));
    next.request.bowl = std::move(*setting);
    next.bowl_text = std::move(text);
    return take(std::move(next));
}

CounterReply Counter::leave_out(std::string_view line, std::string_view name) {
    if (name.empty())
        return refused(line, {}, "unknown-name", "Without what?", "Name an optional line.");
    State next = state_;
    std::vector<std::string>& without = next.request.without;
    if (std::find(without.begin(), without.end(), name) != without.end())
        return note(fmt::format("{} is left out already.", name));
    without.emplace_back(name);
    return take(std::move(next));
}

CounterReply Counter::put_back(std::string_view line, std::string_view name) {
    State next = state_;
    std::vector<std::string>& without = next.request.without;
    const auto found = std::find(without.begin(), without.end(), name);
    if (found == without.end()) {
        const std::vector<std::string_view> known(without.begin(), without.end());
        const auto near = units::nearest(name, known);
        return refused(line, name, "not-left-out",
                       name.empty() ? std::string("With what?")
                                    : fmt::format("\"{}\" is not left out.", name),
                       near            ? fmt::format("Did you mean \"{}\"?", *near)
                       : known.empty() ? "Nothing is left out."
                                       : fmt::format("What is left out: {}.", joined(without)));
    }
    without.erase(found);
    return take(std::move(next));
}

CounterReply Counter::forget(std::string_view line, std::string_view name) {
    State next = state_;
    if (name == "all") {
        next = State{};
        return take(std::move(next));
    }
    bool any = erase_named(next.request.settings, next.setting_texts, name);
    any = erase_named(next.request.poured, next.poured_texts, name) || any;
    if (!any) {
        std::vector<std::string> said = next.setting_texts;
        said.insert(said.end(), next.poured_texts.begin(), next.poured_texts.end());
        return refused(line, name, "unknown-name",
                       name.empty() ? std::string("Forget what?")
                                    : fmt::format("Nothing was said of \"{}\".", name),
                       said.empty() ? "So far the batch is as the recipe has it."
                                    : fmt::format("What was said: {}.", joined(said)));
    }
    return take(std::move(next));
}

CounterReply Counter::undo() {
    if (past_.empty()) return note("There is nothing to undo.");
    State back = std::move(past_.back());
    past_.pop_back();
    CounterReply reply = take(std::move(back));
    // take() remembers what it left; undone is undone.
    if (reply.refusals.empty()) past_.pop_back();
    return reply;
}

CounterReply Counter::yes(const std::optional<State>& doubted) {
    if (!doubted) return note("Nothing was doubted.");
    State next = *doubted;
    for (auto* list : {&next.request.settings, &next.request.poured})
        for (Setting& setting : *list)
            setting.certain = true;
    return take(std::move(next));
}

CounterReply Counter::why(std::string_view name) {
    if (name.empty()) name = "verdict";
    language::Findings findings;
    RequestFindings found;
    language::Findings about_name;
    CounterReply reply;
    reply.trace = trace(recipe_, kitchen_, state_.request, name, findings, found, about_name);
    if (!reply.trace) return refused(name, std::move(about_name));
    reply.sort = CounterReply::Sort::why;
    return reply;
}

CounterReply Counter::jars() {
    State asked = state_;
    asked.request.vessels = Request::Vessels::needed;
    CounterReply reply;
    reply.after = weigh_by(asked, reply);
    if (reply.after) reply.sort = CounterReply::Sort::jars;
    return reply;
}

CounterReply Counter::unknown(std::string_view line, std::string_view word) {
    std::vector<std::string_view> known;
    for (const CounterWord& w : counter_words())
        known.push_back(w.word);
    const bool name = std::find(names_.begin(), names_.end(), word) != names_.end();
    const auto near = units::nearest(word, known);
    return refused(line, word, "unknown-word",
                   fmt::format("\"{}\" is no word of this conversation.", word),
                   name   ? fmt::format("Say how much, as in `{}=1.84kg`, or `why {}`.", word, word)
                   : near ? fmt::format("Did you mean `{}`? `help` shows what there is.", *near)
                          : "Say how much of something, as in `cabbage=1.84kg`. `help` shows what "
                            "else there is.");
}

Counter::Completion Counter::complete(std::string_view typed) const {
    Completion out;
    const std::size_t blank = typed.find_last_of(" \t");
    out.from = blank == std::string_view::npos ? 0 : blank + 1;
    const std::string_view before = trimmed(typed.substr(0, out.from));
    const std::string_view first = before.substr(0, before.find_first_of(" \t"));
    const std::string_view word = typed.substr(out.from);
    const auto offer = [&](std::string text, std::string_view start) {
        if (text.starts_with(start) &&
            std::find(out.words.begin(), out.words.end(), text) == out.words.end())
            out.words.push_back(std::move(text));
    };
    const auto offer_lines = [&](bool counts) {
        for (const language::Line& line : recipe_.lines) {
            const auto* q = std::get_if<language::Quantity>(&line.statement);
            if (q != nullptr && q->word != QuantityWord::let &&
                (counts || q->word != QuantityWord::count))
                offer(q->name.value + "=", word);
        }
    };
    if (before.empty() && word.starts_with("jar=")) {
        // Names of jars, after the last comma.
        const std::size_t at = word.find_last_of("=,") + 1;
        out.from += at;
        for (const kitchen::Vessel& v : kitchen_.vessels)
            offer(v.name, word.substr(at));
    } else if (before.empty()) {
        offer_lines(true);
        offer("jar=", word);
        offer("fill=", word);
        for (const CounterWord& w : counter_words())
            offer(std::string(w.word), word);
    } else if (first == "why") {
        for (const std::string& name : names_)
            offer(name, word);
    } else if (first == "poured") {
        offer_lines(false);
    } else if (first == "without") {
        for (const language::Line& line : recipe_.lines) {
            const auto* q = std::get_if<language::Quantity>(&line.statement);
            if (q != nullptr && q->tail.optional) offer(q->name.value, word);
        }
    } else if (first == "with") {
        for (const std::string& name : state_.request.without)
            offer(name, word);
    } else if (first == "forget") {
        for (const auto* list : {&state_.request.settings, &state_.request.poured})
            for (const Setting& s : *list)
                offer(s.name, word);
        offer("all", word);
    }
    return out;
}

} // namespace jarful::plan
