#pragma once

#include <memory>
#include <string>
#include <string_view>

/// The engine as a page in a browser asks it: JSON in, JSON out. What goes in and what comes out is
/// described in docs/page.md and docs/schemas/page.json, page_load.json. No files, no clock, no
/// environment: the same bytes for the same question, on every machine.
namespace jarful::page {

class Session {
  public:
    Session();
    ~Session();
    Session(Session&&) noexcept;
    Session& operator=(Session&&) noexcept;

    /// What the page is made for: a recipe, what it is based on, its kitchen and house file. Kept
    /// until the next load, also where it has faults.
    /// @param json see docs/page.md; anything else is answered by a document with problems.
    /// @return format "jarful.page-load/1".
    [[nodiscard]] std::string load(std::string_view json);

    /// One question: to weigh out, or to appraise a list of ingredients.
    /// @return format "jarful.page/1". Never throws for any bytes.
    [[nodiscard]] std::string answer(std::string_view json) const;

  private:
    struct State;
    std::unique_ptr<State> state_;
};

} // namespace jarful::page
