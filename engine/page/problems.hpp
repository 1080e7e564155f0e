#pragma once

#include "engine/page/recipe.hpp"

#include <nlohmann/json_fwd.hpp>

#include <memory>
#include <string>
#include <vector>

/// What is wrong, or remarkable, for the reader of a page: in the sentences of the command line.
/// For this room.
namespace jarful::page {

class Problems {
  public:
    Problems();
    ~Problems();
    Problems(const Problems&) = delete;
    Problems& operator=(const Problems&) = delete;

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

    [[nodiscard]] const nlohmann::ordered_json& json() const;

  private:
    std::unique_ptr<nlohmann::ordered_json> list_;
};

} // namespace jarful::page
