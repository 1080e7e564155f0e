#pragma once

#include "engine/language/source.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

/// What is wrong, where, and what to do about it.
namespace jarful::language {

enum class Severity : std::uint8_t {
    fault, ///< the file cannot be used
    remark ///< it can, but somebody should look
};

/// Another place that belongs to a diagnostic: the first definition of a name, a cell of a cycle.
struct Related {
    Place place;
    std::string text; ///< a short clause: "first written here"
};

/// Words to write in a place: one way to do what an advice says, ready to be done.
struct Fix {
    Place place;       ///< what they replace; empty where they are added
    std::string words; ///< empty: what stands there is deleted
    friend bool operator==(const Fix&, const Fix&) = default;
};
/// The same place with each of these words, which an advice quotes; none for words that were
/// shortened for the sentence.
[[nodiscard]] std::vector<Fix> fixes_with(Place place, std::vector<std::string> words);

/// One finding. `code` is stable and listed in docs/diagnostics.md; `message` says what is wrong
/// and what was expected, `advice` what to write or do (may be empty). Both are whole sentences.
struct Diagnostic {
    std::string code;
    Severity severity = Severity::fault;
    std::optional<Place> place; ///< empty: about the file as a whole
    std::string message;
    std::string advice;
    std::vector<Related> related;
    std::vector<Fix> fixes = {}; ///< each by itself does what the advice says; the likeliest first
};

/// Collects the findings of one source, in the order found.
class Findings {
  public:
    Diagnostic& add(Diagnostic d);
    Diagnostic& fault(std::string code, std::optional<Place> place, std::string message,
                      std::string advice = {});
    Diagnostic& remark(std::string code, std::optional<Place> place, std::string message,
                       std::string advice = {});
    [[nodiscard]] bool has_faults() const { return faults_ != 0; }
    [[nodiscard]] const std::vector<Diagnostic>& all() const { return list_; }
    [[nodiscard]] bool empty() const { return list_.empty(); }
    /// In the order of their places, whole-file ones first; stable.
    void sort();

  private:
    std::vector<Diagnostic> list_;
    std::size_t faults_ = 0;
};

} // namespace jarful::language
