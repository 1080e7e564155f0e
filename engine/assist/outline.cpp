#include "engine/assist/outline.hpp"

#include "engine/language/characters.hpp"
#include "engine/language/describe.hpp"
#include "engine/language/words.hpp"
#include "engine/units/unit.hpp"

#include <algorithm>

namespace jarful::assist {

using language::Document;
using language::Line;
using language::Place;

namespace {

class Symbols {
  public:
    explicit Symbols(const Document& document)
        : document_(document) {}

    std::vector<Symbol> run() {
        for (const Line& line : document_.lines)
            std::visit([&](const auto& statement) { take(line, statement); }, line.statement);
        return std::move(out_);
    }

  private:
    using Sort = Symbol::Sort;

    void add(const Line& line, Sort sort, const std::string& name, Place place,
             std::string detail = {}) {
        // A symbol without a name is refused by editors.
        if (name.empty()) return;
        if (detail.empty()) detail = std::string(document_.source.at(line.keyword));
        out_.push_back({sort, name, std::move(detail), line.place, place});
    }

    template <class Other>
    void take(const Line&, const Other&) {}
    void take(const Line& line, const language::RecipeHeader& s) {
        add(line, Sort::file, s.title.value, s.title.place);
    }
    void take(const Line& line, const language::KitchenHeader& s) {
        add(line, Sort::file, s.name.value, s.name.place);
    }
    void take(const Line& line, const language::HouseHeader& s) {
        add(line, Sort::file, s.name.value, s.name.place);
    }
    void take(const Line& line, const language::BatchHeader& s) {
        add(line, Sort::file, s.title.value, s.title.place);
    }
    void take(const Line& line, const language::Quantity& s) {
        const bool value = s.word == language::QuantityWord::let;
        add(line, value ? Sort::value : Sort::quantity, s.name.value, s.name.place);
    }
    void take(const Line& line, const language::BrineLine& s) {
        add(line, Sort::quantity, s.name.value, s.name.place);
    }
    void take(const Line& line, const language::ScaleLine& s) {
        add(line, Sort::vessel, s.name.value, s.name.place);
    }
    void take(const Line& line, const language::VesselLine& s) {
        add(line, Sort::vessel, s.name.value, s.name.place);
    }
    void take(const Line& line, const language::MaterialLine& s) {
        add(line, Sort::material, s.name.value, s.name.place);
    }
    void take(const Line& line, const language::RangeLine& s) {
        add(line, Sort::range, s.kind.value, s.kind.place);
    }

    const Document& document_;
    std::vector<Symbol> out_;
};

} // namespace

std::vector<Symbol> symbols_of(const Document& document) {
    return Symbols(document).run();
}

std::vector<Fold> folds_of(std::string_view text) {
    std::vector<Fold> out;
    std::uint32_t number = 0;
    std::optional<std::uint32_t> block;
    std::optional<std::uint32_t> comment;
    const auto end = [&](std::optional<std::uint32_t>& from, bool is_comment) {
        if (from && number > *from + 1) out.push_back({*from, number - 1, is_comment});
        from.reset();
    };
    for (std::size_t at = 0; at <= text.size(); ++number) {
        const std::size_t stop = std::min(text.find('\n', at), text.size());
        const std::string_view row = text.substr(at, stop - at);
        const std::size_t first = row.find_first_not_of(" \t");
        if (first == std::string_view::npos) {
            end(comment, true);
            end(block, false);
        } else if (row[first] == '#') {
            if (!comment) comment = number;
        } else {
            end(comment, true);
            if (!block) block = number;
        }
        at = stop + 1;
    }
    end(comment, true);
    end(block, false);
    std::sort(out.begin(), out.end(),
              [](const Fold& a, const Fold& b) { return a.first < b.first; });
    return out;
}

namespace {

using Sort = Token::Sort;

/// Words of a text, one row after another.
class Tokens {
  public:
    explicit Tokens(const Document& document)
        : document_(document)
        , text_(document.source.own_text()) {
        for (const Line& line : document.lines)
            particular(line);
        std::sort(known_.begin(), known_.end(),
                  [](const Token& a, const Token& b) { return a.place.begin < b.place.begin; });
    }

    std::vector<Token> run() {
        for (std::size_t at = 0; at < text_.size();) {
            const std::size_t end = std::min(text_.find('\n', at), text_.size());
            row(at, end);
            at = end + 1;
        }
        return std::move(out_);
    }

  private:
    /// Words whose meaning only the line that they stand in tells.
    void particular(const Line& line) {
        if (const auto* q = std::get_if<language::Quantity>(&line.statement))
            if (q->tail.material) known_.push_back({Sort::material, q->tail.material->place});
        if (const auto* k = std::get_if<language::KindLine>(&line.statement)) {
            known_.push_back({Sort::kind, k->kind.place});
            if (k->method) known_.push_back({Sort::kind, k->method->place});
        }
        if (const auto* r = std::get_if<language::RangeLine>(&line.statement)) {
            known_.push_back({Sort::kind, r->kind.place});
            if (r->method) known_.push_back({Sort::kind, r->method->place});
        }
    }

    void add(Sort sort, std::size_t begin, std::size_t end) {
        out_.push_back(
            {sort, {static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(end)}});
    }

    void row(std::size_t at, std::size_t end) {
        bool first = true;
        while (at < end) {
            const char c = text_[at];
            if (next_known_ < known_.size() && known_[next_known_].place.begin < at) {
                ++next_known_;
                continue;
            }
            if (next_known_ < known_.size() && known_[next_known_].place.begin == at &&
                known_[next_known_].place.end <= end) {
                out_.push_back(known_[next_known_]);
                at = known_[next_known_++].place.end;
            } else if (c == ' ' || c == '\t') {
                ++at;
                continue;
            } else if (c == '#') {
                add(Sort::comment, at, end);
                at = end;
            } else if (c == '"') {
                at = quoted(at, end);
            } else if (language::is_digit(c)) {
                at = number(at, end);
            } else {
                at = word(at, end, first);
            }
            first = false;
        }
    }

    std::size_t quoted(std::size_t at, std::size_t end) {
        std::size_t stop = at + 1;
        while (stop < end && text_[stop] != '"')
            stop += text_[stop] == '\\' ? 2 : 1;
        stop = std::min(stop + 1, end);
        add(Sort::text, at, stop);
        return stop;
    }

    std::size_t number(std::size_t at, std::size_t end) {
        std::size_t stop = at;
        while (stop < end && (language::is_digit(text_[stop]) ||
                              ((text_[stop] == '.' || text_[stop] == '/' || text_[stop] == '-') &&
                               stop + 1 < end && language::is_digit(text_[stop + 1]))))
            ++stop;
        add(Sort::number, at, stop);
        return stop;
    }

    std::size_t word(std::size_t at, std::size_t end, bool first) {
        const std::string_view rest = text_.substr(at, end - at);
        if (const auto unit = units::read_unit_prefix(rest);
            unit && unit->length > 0 && !first && after_number()) {
            add(Sort::unit, at, at + unit->length);
            return at + unit->length;
        }
        const std::size_t length = language::name_length(rest);
        if (length == 0) {
            const std::size_t bytes = language::decode(rest).length;
            if (std::string_view("+-*/^=<>").find(rest.front()) != std::string_view::npos)
                add(Sort::op, at, at + bytes);
            return at + bytes;
        }
        const std::string_view name = rest.substr(0, length);
        const bool call = rest.substr(length).starts_with('(');
        if (call && language::find_function(name)) {
            add(Sort::function, at, at + length);
        } else if (first ? language::find_statement_word(name) != nullptr
                         : language::is_language_word(name) && !language::is_standing_name(name)) {
            add(Sort::keyword, at, at + length);
        } else if (units::is_unit_word(name)) {
            add(Sort::unit, at, at + length);
        } else {
            add(Sort::name, at, at + length);
        }
        return at + length;
    }

    [[nodiscard]] bool after_number() const {
        return !out_.empty() && out_.back().sort == Sort::number;
    }

    const Document& document_;
    std::string_view text_;
    std::vector<Token> known_;
    std::size_t next_known_ = 0;
    std::vector<Token> out_;
};

} // namespace

std::vector<Token> tokens_of(const Document& document) {
    return Tokens(document).run();
}

} // namespace jarful::assist
