#include "engine/kitchen/reading.hpp"
#include "engine/plan/model.hpp"
#include "engine/plan/warning.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::plan {

using language::NodeId;
using language::Template;

namespace {

class Method {
  public:
    Method(Model& model, const std::function<const Item*(std::size_t)>& item_of)
        : model_(model)
        , item_of_(item_of) {}

    std::vector<MethodLine> run() {
        std::vector<MethodLine> out;
        const language::Document& doc = *model_.document;
        for (std::size_t i = 0; i < doc.lines.size(); ++i) {
            line_ = i;
            std::visit([&](const auto& s) { take(s, out); }, doc.lines[i].statement);
        }
        return out;
    }

  private:
    template <class Other>
    void take(const Other&, std::vector<MethodLine>&) {}

    void take(const language::StepLine& s, std::vector<MethodLine>& out) {
        MethodLine m;
        m.sort = MethodLine::Sort::step;
        m.text = rich(s.text);
        out.push_back(std::move(m));
    }

    void take(const language::RestLine& s, std::vector<MethodLine>& out) {
        MethodLine m;
        m.sort = MethodLine::Sort::rest;
        m.seconds = s.time.amount.value;
        if (s.text) m.text = rich(*s.text);
        out.push_back(std::move(m));
    }

    void take(const language::TendLine& s, std::vector<MethodLine>& out) {
        MethodLine m;
        m.sort = MethodLine::Sort::tend;
        m.task = s.task.value;
        if (s.every) m.seconds = s.every->amount.value;
        m.from_day = day(s.from_day);
        m.to_day = day(s.to_day);
        m.on_day = day(s.on_day);
        if (s.text) m.text = rich(*s.text);
        out.push_back(std::move(m));
    }

    void take(const language::ReadyLine& s, std::vector<MethodLine>& out) {
        MethodLine m;
        m.sort = MethodLine::Sort::ready;
        m.from_day = s.from_day.value;
        m.to_day = day(s.to_day);
        if (s.from_temperature) m.from_kelvin = s.from_temperature->amount.value;
        if (s.to_temperature) m.to_kelvin = s.to_temperature->amount.value;
        if (s.text) m.text = rich(*s.text);
        out.push_back(std::move(m));
    }

    void take(const language::KeepLine& s, std::vector<MethodLine>& out) {
        static constexpr const char* names[] = {"day", "week", "month", "year"};
        MethodLine m;
        m.sort = MethodLine::Sort::keep;
        m.task = s.where.value;
        m.count = s.count.value;
        m.period = names[static_cast<std::size_t>(s.period)];
        if (s.text) m.text = rich(*s.text);
        out.push_back(std::move(m));
    }

    static std::optional<int> day(const std::optional<language::Whole>& whole) {
        if (!whole) return std::nullopt;
        return whole->value;
    }

    RichText rich(const Template& text) {
        RichText out;
        std::size_t hole = 0;
        for (const Template::Piece& piece : text.pieces) {
            if (piece.value == language::no_node) {
                TextPiece p;
                p.words = piece.text;
                out.push_back(std::move(p));
            } else {
                out.push_back(value(model_.holes[line_][hole++]));
            }
        }
        return out;
    }

    TextPiece value(const Hole& hole) {
        TextPiece p;
        p.dimension = hole.type.dimension;
        p.percent = hole.percent && hole.type.dimension.plain();
        p.temperature_point = hole.type.sort == sheet::Type::Sort::temperature_point;
        const Item* item = hole.entry ? item_of_(*hole.entry) : nullptr;
        if (item != nullptr && !item->too_small) {
            p.value = item->reading_g;
            p.step_g = item->step_g;
            p.sort = TextPiece::Sort::reading;
            if (hole.parts > 1) {
                p.sort = TextPiece::Sort::portions;
                p.portions = kitchen::portions_of(item->reading_g, hole.parts, item->step_g);
            }
            return p;
        }
        p.sort = TextPiece::Sort::value;
        p.value = model_.sheet->value(hole.formula);
        if (hole.entry && model_.entries[*hole.entry].word == language::QuantityWord::count &&
            hole.parts == 1) {
            const Entry& e = model_.entries[*hole.entry];
            p.value = whole_pieces(p.value, e.fate == Fate::optional);
        }
        return p;
    }

    Model& model_;
    const std::function<const Item*(std::size_t)>& item_of_;
    std::size_t line_ = 0;
};

} // namespace

std::vector<MethodLine> method_lines(Model& model,
                                     const std::function<const Item*(std::size_t)>& item_of) {
    return Method(model, item_of).run();
}

std::vector<Warning> cautions_for(const Model& model) {
    std::vector<Warning> out;
    const auto add = [&](const larder::Caution& c) {
        for (const Warning& w : out)
            if (w.id == c.id) return;
        out.push_back(warning_of(c, model.shown()));
    };
    const auto add_id = [&](std::string_view id) {
        if (const larder::Caution* c = larder::find_caution(id)) add(*c);
    };
    // What is particular to this jar first, what belongs on every sheet after it.
    for (const Entry& e : model.entries) {
        if (e.left_out || e.material == nullptr || e.role != larder::Role::salt) continue;
        switch (e.material->warning) {
        case larder::SaltWarning::none:
            break;
        case larder::SaltWarning::may_cloud:
        case larder::SaltWarning::not_recommended:
            add_id("which-salt");
            break;
        case larder::SaltWarning::reduced_sodium:
            add_id("reduced-sodium");
            break;
        case larder::SaltWarning::curing:
            add_id("curing-salt");
            break;
        }
        if (e.in_spoons) add_id("flake-salt");
    }
    if (model.kind != nullptr)
        for (std::string_view id : model.kind->cautions)
            add_id(id);
    for (const larder::Caution& c : larder::cautions())
        if (c.always) add(c);
    return out;
}

} // namespace jarful::plan
