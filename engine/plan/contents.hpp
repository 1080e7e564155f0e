#pragma once

#include "engine/plan/model.hpp"

#include <optional>
#include <string>

/// Private to the room: what is in the jar, as cells of the sheet.
namespace jarful::plan {

/// Turns roles into the four totals: each quantity counts by its mass, its salt content and its
/// liquid (see docs/science.md, "What counts as what").
class Contents {
  public:
    Contents(Model& model, sheet::Builder& builder)
        : model_(model)
        , builder_(builder) {}

    /// Declares and defines `all_produce`, `all_salt`, `all_water` and `everything`.
    Totals define();

  private:
    enum class Part : std::uint8_t { produce, salt, liquid, own_water, everything };

    sheet::CellId sum(const char* name, Part part);
    /// Adds the entry's contribution to the formula; empty if it adds nothing.
    std::optional<std::uint32_t> contribution(sheet::Formula& f, Entry& e, Part part);
    std::optional<std::uint32_t> mass(sheet::Formula& f, Entry& e);
    std::optional<std::uint32_t> discarded(sheet::Formula& f, Entry& e, Part part);
    std::uint32_t times(sheet::Formula& f, std::uint32_t mass, const larder::Figure& figure,
                        const std::string& label);
    std::optional<std::uint32_t> salt_of(sheet::Formula& f, const Entry& e, std::uint32_t mass);
    std::uint32_t own_water_of(sheet::Formula& f, const Entry& e, std::uint32_t mass);
    std::optional<std::uint32_t> liquid_of(sheet::Formula& f, const Entry& e, std::uint32_t mass);
    sheet::UnknownId unknown_for(const larder::Figure& figure, const std::string& label);

    Model& model_;
    sheet::Builder& builder_;
    std::vector<std::pair<std::string, sheet::UnknownId>> unknowns_;
};

/// The total that a `share` line is a part of: the name after its `of` (or beside its `*`). Empty
/// if the expression has not that form or the name is not that of a `total` line.
[[nodiscard]] std::optional<std::string> share_total(const language::Document& document,
                                                     language::NodeId value);

} // namespace jarful::plan
