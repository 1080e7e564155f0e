#include "engine/language/parse.hpp"
#include "engine/plan/chart.hpp"
#include "engine/plan/compare.hpp"
#include "engine/plan/counter.hpp"
#include "engine/plan/mend.hpp"
#include "engine/plan/trace.hpp"
#include "engine/render/chart_report.hpp"
#include "engine/render/compare_report.hpp"
#include "engine/render/counter_report.hpp"
#include "engine/render/trace_report.hpp"
#include "tests/golden/answers.hpp"

#include <fmt/core.h>

#include <array>
#include <deque>
#include <memory>
#include <optional>
#include <sstream>
#include <vector>

namespace jarful::test {

namespace {

using namespace plan;

std::string of_salt(const std::optional<SaltJudgement>& s) {
    if (!s) return {};
    const auto end = [](const std::optional<RangeEnd>& e) {
        return e ? fmt::format("{} by {} ({})", digits(e->percent), e->row, e->status)
                 : std::string("-");
    };
    std::string out = fmt::format("  salt {} {} ({}): {}, low {}, high {}\n    {}\n",
                                  larder::key(s->figure.basis), digits(s->figure.percent),
                                  digits(s->figure.bounds), describe(s->verdict), end(s->low),
                                  end(s->high), s->reason);
    if (!s->decides.empty()) out += "    " + s->decides + "\n";
    for (const NearbyRow& row : s->nearby)
        out += "    near: " + row.text + "\n";
    for (const SaltJudgement::Variant& v : s->variants)
        out += fmt::format("    {}: {}, {}\n", v.text, digits(v.bounds), describe(v.verdict));
    if (s->by_the_spoon) out += "    by the spoon " + digits(*s->by_the_spoon) + "\n";
    return out;
}

std::string of_hold(const HoldCheck& h) {
    std::string out =
        fmt::format("  {}: {} {} between {} and {}: {}\n    {}\n", h.text, digits(h.value), h.unit,
                    digits(h.at_least), digits(h.at_most), describe(h.verdict), h.reason);
    if (!h.decides.empty()) out += "    " + h.decides + "\n";
    return out;
}

std::string of_item(const Item& i) {
    std::string out = fmt::format("  {} {}, {}, {}: {} reads {} on {} by {}, truth {}", i.word,
                                  i.name, i.material, key(i.fate), digits(i.exact_g),
                                  digits(i.reading_g), i.scale, digits(i.step_g), digits(i.truth));
    const std::array flags{std::pair{i.entered, ", entered"}, std::pair{i.solved, ", solved"},
                           std::pair{i.poured, ", poured"}, std::pair{i.moved, ", moved"},
                           std::pair{i.too_small, ", too small"}};
    for (const auto& [is, word] : flags)
        if (is) out += word;
    if (i.role) out += fmt::format(", {}", larder::describe(*i.role));
    if (i.display_g) out += ", display " + digits(i.display_g);
    if (i.written_ml) out += ", written " + digits(i.written_ml) + " mL";
    if (i.spread_g) out += ", spread " + digits(*i.spread_g);
    if (i.spoon_ml) out += ", spoon " + digits(i.spoon_ml);
    if (i.portions.size() > 1)
        for (const Portion& p : i.portions)
            out += " + " + digits(p.reading_g);
    return out + "\n";
}

std::string of_jar(const JarShare& j) {
    std::string out = fmt::format(
        "  {} {} of {}: {} ({} %), usable {}, level {}, free {}{}\n", j.crock ? "crock" : "jar",
        j.name, digits(j.brimful_ml), digits(j.fill_ml), digits(j.full_percent),
        digits(j.usable_ml), digits(j.level_cm), digits(j.headspace_cm), j.airy ? ", airy" : "");
    for (const JarItem& i : j.items)
        out += i.pieces ? fmt::format("    {}: {} pieces\n", i.name, *i.pieces)
                        : fmt::format("    {}: {} reads {}, truth {}{}{}\n", i.name,
                                      digits(i.exact_g), digits(i.reading_g), digits(i.truth),
                                      i.too_small ? ", too small" : "", i.later ? ", later" : "");
    return out + of_salt(j.salt);
}

std::string of_choice(const JarChoice& c) {
    std::string out =
        fmt::format("  jars{} for {}{}: headspace {} % {} cm, empty {}, left over {} mL {} g{}\n",
                    c.by_name ? " by name" : "", digits(c.volume_ml), c.covered ? ", covered" : "",
                    digits(c.headspace_percent), digits(c.headspace_cm), digits(c.empty_ml),
                    digits(c.unplaced_ml), digits(c.unplaced_g), c.best ? "" : ", not the best");
    if (!c.why.empty()) out += "    " + c.why + "\n";
    for (const JarItem& i : c.left_over)
        out += fmt::format("    left over: {} {}\n", i.name, digits(i.reading_g));
    if (c.rest_brimful_ml)
        out += "    one of " + digits(c.rest_brimful_ml) + " " + c.rest_as_wide_as + "\n";
    for (const JarChoice::PassedOver& p : c.passed_over)
        out += "    " + p.name + " " + p.why + "\n";
    for (const std::string& line : c.more_air)
        out += "    more air: " + line + "\n";
    return out;
}

std::string of_text(const RichText& text) {
    std::string out;
    for (const TextPiece& p : text)
        out += p.sort == TextPiece::Sort::words
                   ? p.words
                   : fmt::format("[{} {}]", digits(p.value), static_cast<int>(p.sort));
    return out;
}

std::string of_rest(const WeighOut& w) {
    std::string out;
    for (const Count& c : w.counts)
        out += fmt::format("  count {}, {}: {} of {}{}\n", c.name, key(c.fate), c.count,
                           digits(c.exact), c.each_jar ? ", each jar" : "");
    for (const Stock& s : w.stocks)
        out +=
            fmt::format("  brine {}: {} % of {}, made {} g {} mL, poured {}, left {}\n", s.name,
                        digits(s.strength_percent), s.of_water ? "water" : "brine",
                        digits(s.made_g), digits(s.made_ml), digits(s.poured_g), digits(s.left_g)) +
            of_item(s.salt) + of_item(s.water);
    if (w.answer) {
        out += "  asked " + w.answer->asked + ":";
        for (const Answer::Moved& m : w.answer->moved)
            out += fmt::format(" {} to {}, entered {}", m.name, digits(m.exact_g),
                               digits(m.entered_g));
        for (const double other : w.answer->others_g)
            out += ", or " + digits(other);
        out += "\n";
    }
    if (const auto& n = w.no_reading)
        out += fmt::format("  no reading keeps {}: batch {} {}, step {}, brine {} % {} g\n",
                           n->limit, n->batch_name.value_or("-"), digits(n->batch_g),
                           digits(n->step_g), digits(n->brine_percent), digits(n->brine_g));
    if (w.bowl) out += "  bowl " + digits(w.bowl->tare_g) + " on " + w.bowl->scale + "\n";
    for (const BasisFigure& f : w.other_bases)
        out += fmt::format("  also {} {} ({})\n", larder::key(f.basis), digits(f.percent),
                           digits(f.bounds));
    if (const auto& r = w.room)
        out += fmt::format("  room {} ({}), headspace {} % {} cm, brimful {}\n", digits(r->fill_ml),
                           digits(r->fill_bounds), digits(r->headspace_percent),
                           digits(r->headspace_cm), digits(r->brimful_ml));
    if (const auto& t = w.top_up)
        out +=
            fmt::format("  top up {} %, {}{}: salt {} to {}, from {} to {}\n", digits(t->percent),
                        t->material, t->stated ? ", stated" : "", digits(t->salt_g),
                        digits(t->water_g), digits(t->before_percent), digits(t->after_percent));
    return out;
}

std::string of_weigh_out(const WeighOut& w) {
    std::string out = fmt::format("  {} {}, in jar {}, usable {}, verdict {}\n", w.kind, w.method,
                                  digits(w.in_jar_g), digits(w.usable_ml),
                                  w.verdict ? describe(*w.verdict) : "-");
    for (const Item& i : w.givens)
        out += of_item(i);
    for (const Item& i : w.items)
        out += of_item(i);
    out += of_rest(w) + of_salt(w.salt);
    if (!w.no_salt_reason.empty()) out += "  " + w.no_salt_reason + "\n";
    for (const HoldCheck& h : w.checks)
        out += of_hold(h);
    for (const JarShare& j : w.jars)
        out += of_jar(j);
    if (w.jar_choice) out += of_choice(*w.jar_choice);
    for (const MethodLine& line : w.method_lines)
        out += fmt::format("  {} {}{}\n", static_cast<int>(line.sort), of_text(line.text),
                           line.seconds ? ", " + digits(*line.seconds) + " s" : "");
    out += "  cautions";
    for (const Warning& c : w.cautions)
        out += " " + c.id;
    out += "\n";
    for (const std::string& line : w.assumptions)
        out += "  assumed: " + line + "\n";
    for (const std::string& line : w.left_out)
        out += "  without " + line + "\n";
    return out;
}

/// A recipe, perhaps another behind `== other`, a kitchen behind `== kitchen`, and what is asked.
struct Asked {
    std::string recipe, other, kitchen;
    std::vector<std::string> questions;
};

Asked parts_of(const std::string& block) {
    Asked out;
    std::string* to = &out.recipe;
    std::istringstream in(block);
    for (std::string line; std::getline(in, line);) {
        if (line == "== other")
            to = &out.other;
        else if (line == "== kitchen")
            to = &out.kitchen;
        else if (line.starts_with("! "))
            out.questions.push_back(line.substr(2));
        else
            *to += line + "\n";
    }
    return out;
}

/// The words of a question: `name=value`, `poured:name=value`, `sure:name=value`,
/// `lost:name=value`,
/// `-name` for what is left out, `moving:name`, `bowl=900g`, `evaporated=1L`, `jars`.
struct Words {
    MendRequest request;
    std::vector<std::string> others; ///< what is none of these
    std::string told;
};

Words read_words(const std::vector<std::string>& words) {
    Words out;
    Request& request = out.request.request;
    for (const std::string& word : words) {
        const std::size_t colon = word.find(':');
        const std::string before = colon == word.npos ? "" : word.substr(0, colon);
        const std::string text = colon == word.npos ? word : word.substr(colon + 1);
        if (word.starts_with("-")) {
            request.without.push_back(word.substr(1));
        } else if (before == "moving") {
            request.moving = text;
        } else if (word == "jars") {
            request.vessels = plan::Request::Vessels::needed;
        } else if (word.find('=') == word.npos) {
            out.others.push_back(word);
        } else {
            language::Findings findings;
            auto setting = read_setting(text, findings);
            out.told += told(language::Source("setting", text), findings);
            if (!setting) continue;
            setting->certain = before == "sure";
            if (before == "poured")
                request.poured.push_back(*setting);
            else if (before == "lost")
                out.request.lost.push_back(*setting);
            else if (setting->name == "bowl")
                request.bowl = *setting;
            else if (setting->name == "evaporated")
                out.request.evaporated = *setting;
            else
                request.settings.push_back(*setting);
        }
    }
    return out;
}

std::string of_findings(const RequestFindings& f) {
    std::string out;
    const language::Source words("request", "");
    for (const auto* list : {&f.settings, &f.without, &f.poured})
        for (const language::Findings& one : *list)
            out += told(words, one);
    return out + told(words, f.moving) + told(words, f.bowl);
}

/// All that is asked of one recipe.
class Answering {
  public:
    explicit Answering(const std::string& block)
        : asked_(parts_of(block))
        , recipe_(parsed("recipe.jarful", asked_.recipe)) {
        if (asked_.kitchen.empty()) {
            kitchen_ = kitchen::default_kitchen();
        } else {
            const auto document =
                parsed("kitchen.jarful", "kitchen \"Quay Street\"\n" + asked_.kitchen);
            language::Findings findings;
            kitchen_ = kitchen::read_kitchen(document, findings);
            out_ += told(document.source, findings);
        }
    }

    std::string run() {
        for (const std::string& question : asked_.questions) {
            out_ += "! " + question + "\n";
            std::vector<std::string> w = words(question);
            const std::string what = w.front();
            w.erase(w.begin());
            if (what == "say") {
                say(question.substr(4));
                continue;
            }
            const Words read = read_words(w);
            out_ += read.told;
            if (what == "weigh") weigh_it(read);
            if (what == "check") check_it();
            if (what == "trace") trace_it(read);
            if (what == "mend") mend_it(read);
            if (what == "chart") chart_it(w);
            if (what == "compare") compare_it(read);
            if (what == "names")
                for (const std::string& name : traceable_names(recipe_, kitchen_))
                    out_ += "  " + name + "\n";
        }
        return out_;
    }

  private:
    language::Document parsed(const std::string& name, const std::string& text) {
        language::Findings findings;
        auto source = language::read_source(name, text, findings);
        auto document = language::parse(std::move(source).value(), findings);
        out_ += told(document.source, findings);
        return document;
    }

    void weigh_it(const Words& read) {
        language::Findings findings;
        RequestFindings found;
        const auto out = weigh(recipe_, kitchen_, read.request.request, findings, found);
        out_ += told(recipe_.source, findings) + of_findings(found);
        if (out) out_ += of_weigh_out(*out);
    }

    void check_it() {
        language::Findings findings;
        const auto out = check(recipe_, kitchen_, findings);
        out_ += told(recipe_.source, findings);
        if (!out) return;
        out_ += of_salt(out->salt);
        if (!out->no_salt_reason.empty()) out_ += "  " + out->no_salt_reason + "\n";
        for (const HoldCheck& h : out->checks)
            out_ += of_hold(h);
        if (!out->one_jar.empty()) out_ += "  " + out->one_jar + "\n";
        out_ += fmt::format("  verdict {}\n", out->verdict ? describe(*out->verdict) : "-");
    }

    void trace_it(const Words& read) {
        language::Findings findings, name;
        RequestFindings found;
        const auto out = trace(recipe_, kitchen_, read.request.request, read.others.at(0), findings,
                               found, name);
        out_ += told(recipe_.source, findings) + of_findings(found) +
                told(language::Source("name", read.others.at(0)), name);
        if (out) out_ += render::trace_text(*out, {});
    }

    void mend_it(const Words& read) {
        language::Findings findings;
        MendFindings found;
        const auto out = mend(recipe_, kitchen_, read.request, findings, found);
        out_ += told(recipe_.source, findings) + of_findings(found.request) +
                told(language::Source("request", ""), found.evaporated);
        for (const language::Findings& one : found.lost)
            out_ += told(language::Source("request", ""), one);
        if (!out) return;
        out_ += of_salt(out->before);
        if (!out->no_salt_reason.empty()) out_ += "  " + out->no_salt_reason + "\n";
        for (const HoldCheck& h : out->checks)
            out_ += of_hold(h);
        if (out->nothing_to_mend) out_ += "  nothing to mend\n";
        for (const Way& way : out->ways) {
            out_ += fmt::format("  {}{}{}: fill {}\n", way.text, way.holds ? ", holds" : "",
                                way.fits ? "" : ", does not fit", digits(way.fill_ml));
            for (const Addition& a : way.add)
                out_ += fmt::format("    add {} of {} ({}), reads {} on {}\n", digits(a.exact_g),
                                    a.name, a.material, digits(a.reading_g), a.scale);
            if (way.salt)
                out_ += fmt::format("    salt {} ({})\n", digits(way.salt->percent),
                                    digits(way.salt->bounds));
        }
        for (const Warning& w : out->instead)
            out_ += "  instead: " + w.id + ": " + w.text + "\n";
    }

    /// `chart NAME=LOW..HIGH [every=STEP] …`.
    void chart_it(std::vector<std::string> w) {
        ChartRequest request;
        language::Findings findings;
        request.varied = read_setting(w.at(0), findings).value_or(Setting{});
        w.erase(w.begin());
        if (!w.empty() && w.front().starts_with("every=")) {
            request.every = units::read_amount(w.front().substr(6));
            w.erase(w.begin());
        }
        request.rest = read_words(w).request.request;
        ChartFindings found;
        const auto out = chart(recipe_, kitchen_, request, findings, found);
        const language::Source text("chart", "");
        out_ += told(recipe_.source, findings) + told(text, found.varied) +
                told(text, found.every) + of_findings(found.rest);
        if (!out) return;
        out_ += render::chart_csv(*out);
        for (const ChartRow& row : out->rows)
            out_ += fmt::format("  {} {}{} {}\n", digits(row.value), digits(row.label),
                                row.holds ? ", holds" : "", row.note);
    }

    void compare_it(const Words& read) {
        const language::Document other = parsed("other.jarful", asked_.other);
        CompareSide before{recipe_, {}, {}, {}};
        CompareSide after{other, {}, {}, {}};
        const auto out = compare(before, after, kitchen_, read.request.request);
        out_ += told(recipe_.source, before.findings) + of_findings(before.request) +
                told(other.source, after.findings) + of_findings(after.request);
        if (!out) return;
        out_ += render::compare_text(*out, {"this", "the other"}, {});
        for (const ComparedLine& line : out->lines) {
            const auto side = [](const std::optional<ComparedAmount>& a) {
                return a ? fmt::format("{} reads {} by {}{}, {} %", digits(a->exact_g),
                                       digits(a->reading_g), digits(a->step_g),
                                       a->pieces ? " pieces" : "", digits(a->share_percent))
                         : std::string("-");
            };
            out_ += fmt::format("  {}{}: {} | {}\n", line.name, line.differs() ? " differs" : "",
                                side(line.before), side(line.after));
        }
        if (out->same()) out_ += "  the same food\n";
    }

    void say(const std::string& line) {
        if (!counter_) {
            counter_ = std::make_unique<Counter>(recipe_, kitchen_, Request{});
            (void)counter_->open();
        }
        const CounterReply reply = counter_->say(line);
        out_ +=
            fmt::format("  {}\n", static_cast<int>(reply.sort)) + render::counter_text(reply, {});
        for (const CounterReply::Refusal& refusal : reply.refusals)
            out_ += told(language::Source("line", refusal.text), refusal.findings);
        const auto completion = counter_->complete(line);
        out_ += fmt::format("  completes from {}:", completion.from);
        for (const std::string& word : completion.words)
            out_ += " " + word;
        out_ += "\n";
    }

    std::string out_;
    Asked asked_;
    language::Document recipe_;
    kitchen::Kitchen kitchen_;
    std::unique_ptr<Counter> counter_;
};

std::string of_plan(const std::string& block) {
    return Answering(block).run();
}

std::string of_setting(const std::string& text) {
    language::Findings findings;
    const auto s = read_setting(text, findings);
    if (!s) return told(language::Source("setting", text), findings);
    const language::Source source("setting", text);
    std::string out =
        fmt::format("`{}` = `{}`:", source.at(s->name_place), source.at(s->value_place));
    for (const units::Amount& a : s->parts)
        out += fmt::format(" {} [{}]", digits(a.value), a.unit.text());
    for (const std::string& jar : s->jars)
        out += " jar " + jar;
    return out + "\n" + told(source, findings);
}

/// `FROM TO EVERY`.
std::string of_chart_values(const std::string& question) {
    const std::vector<std::string> w = words(question);
    const auto at = [&](std::size_t i) { return std::strtod(w.at(i).c_str(), nullptr); };
    std::string out;
    for (const double value : chart_values(at(0), at(1), at(2)))
        out += digits(value) + " ";
    return out.empty() ? "none" : out;
}

constexpr std::array all{Sort{"plans", of_plan}, Sort{"settings", of_setting},
                         Sort{"chart_values", of_chart_values}};

} // namespace

std::span<const Sort> plan_sorts() {
    return all;
}

} // namespace jarful::test
