#pragma once

/// What the display of a scale shows, for print_reading() and whoever sets figures in columns.
namespace jarful::units {

/// Whether a step is one of ounces and none of grams: print_reading() then gives pounds and ounces,
/// `5 lb 0.5 oz`.
[[nodiscard]] bool reads_ounces(double step_g);
/// The decimals of a gram that a scale of this step shows; 2 where its steps are none of grams.
[[nodiscard]] int reading_decimals(double step_g);

} // namespace jarful::units
