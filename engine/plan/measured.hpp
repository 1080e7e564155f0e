#pragma once

#include "engine/plan/model.hpp"

/// Private to the room: weights that are taken later, once the cook has taken them.
namespace jarful::plan {

/// Marks what is in the past once a `measure` is entered or poured (Entry::over): everything that
/// was weighed to be poured off before it, and the parts of a brine that nothing else pours from.
/// To be called when a request has been entered, and again when other things were poured.
void close_baths(Model& model);

/// Whether a question asked backwards, or a way to mend, would change something in the past by
/// changing this cell.
[[nodiscard]] bool changes_the_past(const Model& model, sheet::CellId cell);

/// Doubts each `measure` that the request enters or pours: a fault `measured-impossible` where it
/// is more than all that went in before it, and, unless its setting is certain,
/// `measured-unlikely` where it is more than a quarter beyond what the recipe expects. By what was
/// poured, where that is said. Leaves no observation in the sheet.
/// @return false if there is such a fault.
[[nodiscard]] bool doubt_measured(Model& model, const Request& request, RequestFindings& findings);

} // namespace jarful::plan
