#include "engine/assist/hover.hpp"

#include "engine/assist/hints.hpp"
#include "engine/assist/meanings.hpp"
#include "engine/assist/names.hpp"
#include "engine/language/characters.hpp"
#include "engine/language/words.hpp"
#include "engine/render/words.hpp"

#include <algorithm>

namespace jarful::assist {

namespace {

using language::Line;
using language::Place;

bool holds(Place place, std::uint32_t offset) {
    return place.begin <= offset && offset < std::max(place.end, place.begin + 1);
}

std::string figure(const char* what, const std::optional<larder::Figure>& f, const char* unit,
                   double factor = 1) {
    if (!f) return {};
    const auto number = [&](double value) { return units::print_number(value * factor, 4); };
    std::string out = std::string("- ") + what + ": " + number(f->typical);
    if (f->low != f->high) out += " (" + number(f->low) + " to " + number(f->high) + ")";
    out += std::string(" ") + unit;
    const std::string source(f->source);
    const std::string status(larder::describe(f->status));
    out += ". " + render::markdown(source);
    if (source.find(status) == std::string::npos) out += "; " + status;
    return out + "\n";
}

/// "2 to 3 %" of a ruling, and what each end rests on.
std::string range_of(const larder::Ruling& ruling) {
    const auto end = [](const larder::Bound& bound, const char* what) {
        std::string out = std::string("- ") + what + ": " + render::percent(bound.percent) + " %";
        if (bound.row == nullptr) return out + "\n";
        out += ". " + render::markdown(bound.row->source);
        if (!bound.row->section.empty()) out += ", " + render::markdown(bound.row->section);
        return out + "; " + std::string(larder::standing(*bound.row)) + "\n";
    };
    std::string out;
    if (ruling.low) out += end(*ruling.low, "at least");
    if (ruling.high) out += end(*ruling.high, "at most");
    if (out.empty()) out = "- no figure, published or practised\n";
    return out;
}

class Telling {
  public:
    Telling(Session& session, const std::string& path, std::uint32_t offset)
        : session_(session)
        , path_(path)
        , offset_(offset)
        , look_(session.look(path))
        , own_(session.parsed(path).document) {}

    std::optional<Told> run() {
        if (const auto one = occurrence_at(session_, path_, offset_);
            one && holds(one->place, offset_))
            if (auto told = value(*one)) return told;
        for (const Line& line : own_.lines)
            if (line.place.begin <= offset_ && offset_ <= line.place.end)
                if (auto told = in_line(line)) return told;
        return word();
    }

  private:
    std::optional<Told> value(const Occurrence& one) {
        const plan::WeighOut* weighed = look_.weighed();
        if (weighed == nullptr) return std::nullopt;
        if (!look_.tells(one.name)) return untold(one, *weighed);
        const auto trace = look_.trace(one.name);
        if (!trace || trace->nodes.empty()) return std::nullopt;
        const plan::TraceNode& node = trace->nodes.front();
        std::string words = "**" + render::markdown(node.name) + "**: " + node.value.text;
        if (!node.what.empty()) words += ", " + render::markdown(node.what);
        words += "\n\n";
        if (!node.reading.empty()) words += "Read as " + render::markdown(node.reading) + ".  \n";
        if (node.value.low_text != node.value.high_text)
            words += "The truth lies from " + node.value.low_text + " to " + node.value.high_text +
                     ".  \n";
        if (!node.label.empty()) words += render::markdown(render::stopped(node.label)) + "\n";
        words += unsure(trace->causes);
        if (trace->unweighed) {
            words += "\nBy the line alone, without a scale: " + trace->unweighed->low_text +
                     " to " + trace->unweighed->high_text + ".\n";
            words += unsure(trace->unweighed_causes);
        }
        if (!look_.whole()) words += "\nOther lines have faults; no number here depends on them.\n";
        return Told{one.place, words};
    }

    /// While lines are at fault that the salt or a bound rests on.
    std::optional<Told> untold(const Occurrence& one, const plan::WeighOut& out) {
        for (const plan::Item& item : out.items)
            if (item.name == one.name && item.fate != plan::Fate::later)
                return Told{one.place,
                            "**" + render::markdown(one.name) + "**: by its line alone " +
                                render::mass(item.exact_g, out.shown) +
                                "\n\nOther lines have faults, and what the scale is to show may "
                                "depend on them: it is chosen so that the salt and your own bounds "
                                "are kept.\n"};
        return std::nullopt;
    }

    static std::string unsure(const std::vector<plan::TraceCause>& causes) {
        constexpr std::size_t most = 5;
        std::string out;
        for (std::size_t i = 0; i < std::min(most, causes.size()); ++i) {
            const plan::TraceCause& cause = causes[i];
            out += "- " + cause.width_text + ": " + render::markdown(cause.label);
            if (!cause.low.empty()) out += ", " + cause.low + " to " + cause.high;
            out += "\n";
        }
        return out.empty() ? out : "\nWhat makes it unsure:\n" + out;
    }

    std::optional<Told> in_line(const Line& line) {
        if (const auto* q = std::get_if<language::Quantity>(&line.statement))
            if (q->tail.material && holds(q->tail.material->place, offset_))
                return material(*q->tail.material);
        if (const auto* k = std::get_if<language::KindLine>(&line.statement)) return kind(*k);
        if (const auto* r = std::get_if<language::RangeLine>(&line.statement);
            r != nullptr && holds(r->kind.place, offset_))
            if (const larder::Kind* known = larder::find_kind(r->kind.value))
                return Told{r->kind.place,
                            about_kind(*known, r->method ? r->method->value : std::string())};
        return std::nullopt;
    }

    std::optional<Told> material(const language::Word& word) {
        larder::Larder larder;
        for (const larder::OwnMaterial& own : look_.kitchen().kitchen.materials)
            larder.add(own);
        language::Findings aside;
        for (const Line& line : look_.document().lines)
            if (const auto* m = std::get_if<language::MaterialLine>(&line.statement))
                larder.add(kitchen::read_material(*m, aside));
        const larder::Material* found = larder.named(word.value);
        if (found == nullptr) return std::nullopt;
        return Told{word.place, about_material(*found)};
    }

    std::optional<Told> kind(const language::KindLine& line) {
        const Place whole{line.kind.place.begin,
                          line.method ? line.method->place.end : line.kind.place.end};
        if (!holds(whole, offset_)) return std::nullopt;
        const larder::House* house = look_.kitchen().kitchen.house.get();
        const larder::Kind* found = house != nullptr ? house->find_kind(line.kind.value)
                                                     : larder::find_kind(line.kind.value);
        if (found == nullptr) return std::nullopt;
        std::string out = about_kind(*found, line.method ? line.method->value : std::string());
        const std::string now = headline(look_);
        if (!now.empty()) out += "\nThis recipe: " + now + ".\n";
        return Told{whole, out};
    }

    /// A word of the language or a unit, outside of texts and comments.
    std::optional<Told> word() {
        const std::string_view text = own_.source.text();
        if (offset_ >= text.size()) return std::nullopt;
        std::size_t row = text.rfind('\n', offset_ == 0 ? 0 : offset_ - 1);
        row = row == std::string_view::npos || offset_ == 0 ? 0 : row + 1;
        bool in_text = false;
        for (std::size_t i = row; i < offset_; ++i) {
            if (in_text && text[i] == '\\') {
                ++i;
            } else if (text[i] == '"') {
                in_text = !in_text;
            } else if (text[i] == '#' && !in_text) {
                return std::nullopt;
            }
        }
        if (in_text) return std::nullopt;
        const auto part = [&](std::size_t at) {
            return language::goes_on_with_name(text.substr(at)) ||
                   (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U;
        };
        std::size_t begin = offset_;
        while (begin > row && part(begin - 1))
            --begin;
        // A unit may stand straight behind its number.
        while (begin < text.size() && language::is_digit(text[begin]))
            ++begin;
        const std::size_t length = language::name_length(text.substr(begin));
        if (length == 0 || begin + length <= offset_) return std::nullopt;
        return meaning(text.substr(begin, length), static_cast<std::uint32_t>(begin),
                       text.find_first_not_of(" \t", row) == begin);
    }

    std::optional<Told> meaning(std::string_view word, std::uint32_t begin, bool first) {
        const Place place{begin, begin + static_cast<std::uint32_t>(word.size())};
        const std::string name = "**" + std::string(word) + "**";
        if (first) {
            const language::StatementWord* statement = language::find_statement_word(word);
            if (statement == nullptr) return std::nullopt;
            return Told{place, name + ": " + std::string(statement_meaning(word)) +
                                   "\n\n```jarful\n" + std::string(statement->form) + "\n```\n"};
        }
        if (const FunctionForm* function = function_form(word);
            function != nullptr && own_.source.text().substr(place.end).substr(0, 1) == "(")
            return Told{place, "`" + std::string(function->form) + "`\n\n" +
                                   std::string(function->about) + "\n"};
        if (const auto unit = units::find_unit(word); unit && !language::is_language_word(word)) {
            const units::Unit& known = units::unit(*unit);
            return Told{place, "**" + std::string(known.symbol) +
                                   "**: " + render::markdown(std::string(known.definition)) + ". " +
                                   render::markdown(std::string(known.source)) + "\n"};
        }
        const std::string_view about = word_meaning(word);
        if (about.empty()) return std::nullopt;
        return Told{place, name + ": " + std::string(about) + "\n"};
    }

    Session& session_;
    const std::string& path_;
    std::uint32_t offset_;
    const Look& look_;
    language::Document own_;
};

} // namespace

std::string about_material(const larder::Material& material) {
    std::string out = "**" + render::markdown(std::string(material.name)) + "**, " +
                      std::string(larder::describe(material.role)) + "\n\n";
    out += figure("in a spoon or cup", material.bulk_density, "g/mL");
    out += figure("the thing itself", material.true_density, "g/mL");
    out += figure("salt", material.salt, "%", 100);
    out += figure("water", material.water, "%", 100);
    const std::string piece =
        "one " + std::string(material.piece_word.empty() ? "piece" : material.piece_word);
    out += figure(piece.c_str(), material.piece, "g");
    if (material.vague && !material.vague_hint.empty())
        out += "\nIn a spoon, " + std::string(material.vague_hint) + ".\n";
    if (!material.note.empty())
        out += "\n" + render::markdown(render::stopped(std::string(material.note))) + "\n";
    return out;
}

std::string about_kind(const larder::Kind& kind, std::string_view method) {
    std::string out =
        "**" + std::string(kind.name) + "**: " + render::markdown(std::string(kind.title)) + "\n\n";
    for (const larder::Ruling& ruling : kind.rulings) {
        if (!method.empty() && ruling.method != method) continue;
        out += "Salt " + std::string(larder::describe(ruling.basis));
        if (!ruling.method.empty()) out += ", " + std::string(ruling.method);
        out += ":\n" + range_of(ruling);
        if (!ruling.why.empty())
            out += "\n" + render::markdown(render::stopped(std::string(ruling.why))) + "\n\n";
    }
    return out;
}

std::optional<Told> tell(Session& session, const std::string& path, std::uint32_t offset) {
    return Telling(session, path, offset).run();
}

} // namespace jarful::assist
