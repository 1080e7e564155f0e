#pragma once

#include "engine/plan/plan.hpp"
#include "engine/plan/trace.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// A conversation beside the scale: what has been said so far is a Request, and each line changes
/// it. Text in, plain data out; no terminal, no files.
namespace jarful::plan {

/// What is said to one line.
struct CounterReply {
    enum class Sort : std::uint8_t {
        nothing, ///< an empty line, a comment, or something refused
        changed, ///< `before` and `after` differ, or might have
        said,    ///< `notes` is all
        check,   ///< salt, bounds and what does not hold, of `after`
        sheet,   ///< all of `after`
        jars,    ///< `after` with the jars chosen
        why,     ///< `trace`
        help,
        quit
    };
    Sort sort = Sort::nothing;
    std::vector<std::string> notes; ///< sentences
    std::optional<WeighOut> before, after;
    std::optional<Trace> trace;

    /// Why nothing was changed. `text` is what the places are in; empty for those of the recipe.
    struct Refusal {
        std::string text;
        language::Findings findings;
    };
    std::vector<Refusal> refusals;
};

/// A word of the conversation with what it does, for `help` and for completion.
struct CounterWord {
    std::string_view word;
    std::string_view usage;
    std::string_view about;
};
[[nodiscard]] const std::vector<CounterWord>& counter_words();

class Counter {
  public:
    /// Document and kitchen must outlive the conversation. Nothing is weighed before open().
    /// @param texts what the settings and the poured ones of `start` were typed as, in order.
    Counter(const language::Document& recipe, const kitchen::Kitchen& kitchen, Request start,
            std::vector<std::string> setting_texts = {},
            std::vector<std::string> poured_texts = {});

    /// Weighs as it was begun. Refusals: there is nothing to talk about.
    [[nodiscard]] CounterReply open();
    /// Answers one line.
    [[nodiscard]] CounterReply say(std::string_view line);

    /// How many cells have been computed so far.
    [[nodiscard]] std::size_t evaluations() const { return weighing_.evaluations(); }

    /// As it now is; empty before open() or if that was refused.
    [[nodiscard]] const std::optional<WeighOut>& now() const { return now_; }

    /// What the last word of a line that is being typed may become.
    struct Completion {
        std::size_t from = 0; ///< where that word begins
        std::vector<std::string> words;
    };
    [[nodiscard]] Completion complete(std::string_view typed) const;

  private:
    /// What has been said.
    struct State {
        Request request;
        std::vector<std::string> setting_texts, poured_texts; ///< as typed
        std::string bowl_text;
    };

    CounterReply set(std::string_view line);
    /// An amount without a name: of the one given, if there is but one.
    CounterReply weight_alone(std::string_view line);
    CounterReply pour(std::string_view line, std::string_view rest);
    CounterReply bowl(std::string_view line, std::string_view rest);
    CounterReply leave_out(std::string_view line, std::string_view name);
    CounterReply put_back(std::string_view line, std::string_view name);
    CounterReply forget(std::string_view line, std::string_view name);
    CounterReply undo();
    /// What was doubted is so.
    CounterReply yes(const std::optional<State>& doubted);
    CounterReply why(std::string_view name);
    CounterReply jars();
    CounterReply unknown(std::string_view line, std::string_view word);

    /// Weighs by a new state and, if that can be done, keeps it.
    CounterReply take(State next);
    /// The findings that keep a state from being weighed; the weigh-out if there are none.
    std::optional<WeighOut> weigh_by(const State& state, CounterReply& reply);
    /// Removes settings that are questions, or that are not; returns what they were typed as.
    std::vector<std::string> drop(State& state, bool questions, const std::string& but) const;
    /// Whether a name's setting is a question asked backwards.
    [[nodiscard]] bool question(std::string_view name) const;

    const language::Document& recipe_;
    const kitchen::Kitchen& kitchen_;
    language::Findings recipe_findings_; ///< of a recipe that cannot be weighed
    Weighing weighing_;
    State state_;
    std::vector<State> past_;
    std::optional<WeighOut> now_;
    std::optional<State> doubted_;   ///< the last line's, if only what was measured was doubted
    std::vector<std::string> names_; ///< that can be traced
};

} // namespace jarful::plan
