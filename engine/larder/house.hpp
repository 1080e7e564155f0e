#pragma once

#include "engine/language/diagnostic.hpp"
#include "engine/language/tree.hpp"
#include "engine/larder/larder.hpp"

#include <deque>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What a book says of its own: salt ranges of the house, and kinds that the larder does not have.
namespace jarful::larder {

/// The ranges of a house file. Kinds and rulings keep their address for the life of the house.
class House {
  public:
    House() = default;
    House(const House&) = delete;
    House& operator=(const House&) = delete;

    [[nodiscard]] const std::string& name() const { return name_; }
    /// As the larder's find_kind(), with the rulings of the house in place of the published ones,
    /// and kinds of the house's own.
    [[nodiscard]] const Kind* find_kind(std::string_view name) const;
    /// The kinds that the larder does not have, in the order of the file.
    [[nodiscard]] std::vector<const Kind*> own_kinds() const;
    /// As the larder's nearest_kind(), with the house's own among them.
    [[nodiscard]] std::optional<std::string_view> nearest_kind(std::string_view misspelt) const;

    /// The ranges of a parsed file of FileKind::house. Faults: a bound that is no percentage or out
    /// of any sane range, a kind or method twice, a range that is wider than the published one and
    /// gives no reason, a kind of the house's own that does not say all that it needs.
    [[nodiscard]] static std::shared_ptr<const House> read(const language::Document& document,
                                                           language::Findings& findings);

  private:
    friend class HouseReader;
    struct OwnKind {
        Kind kind;
        std::vector<Ruling> rulings;
    };
    [[nodiscard]] std::string_view keep(std::string text);

    std::string name_;
    std::deque<OwnKind> kinds_;
    std::deque<RangeRow> rows_;
    std::deque<std::string> strings_;
};

} // namespace jarful::larder
