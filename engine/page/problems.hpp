#pragma once

#include "engine/page/recipe.hpp"
#include "engine/render/fields/shared.hpp"

#include <optional>
#include <string>
#include <vector>

/// What is wrong, or remarkable, for the reader of a page: in the sentences of the command line.
/// For this room.
namespace jarful::page {

struct Problem {
    fields::LocatedDiagnostic found;
    std::optional<std::string> text; ///< what was typed; empty for a finding about a file
};

class Problems {
  public:
    /// Findings about something that was typed.
    void add(const std::string& text, const language::Findings& findings);
    /// Findings about each of several texts, in their order.
    void add_each(const std::vector<std::string>& texts,
                  const std::vector<language::Findings>& findings);
    /// Findings about a file.
    void add(const language::Source& source, const language::Findings& findings);
    void add(const std::vector<Found>& found);
    /// A sentence without a place.
    void add(const std::string& code, const std::string& message, const std::string& advice);
    [[nodiscard]] const std::vector<Problem>& all() const { return list_; }

  private:
    std::vector<Problem> list_;
};

} // namespace jarful::page
