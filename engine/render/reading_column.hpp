#pragma once

#include <cstddef>
#include <string>

/// Readings under each other in a table. For this room only.
namespace jarful::render {

/// A number that a scale shows, without its unit if that is grams: "42.9", "4 lb 0.5 oz".
[[nodiscard]] std::string reading_figure(double grams, double step_g);

/// The readings of one table, whose decimal points stand under each other. Add all, then ask.
class ReadingColumn {
  public:
    void add(double grams, double step_g);
    /// "42.9 g", with blanks for the decimals that others have; of a scale of ounces as it is.
    [[nodiscard]] std::string figure(double grams, double step_g) const;
    /// The most decimals that a reading in grams has, its point included.
    [[nodiscard]] std::size_t decimals() const { return decimals_; }

  private:
    std::size_t decimals_ = 0;
};

} // namespace jarful::render
