#pragma once

#include "engine/load/texts.hpp"
#include "engine/plan/weigh_out.hpp"
#include "engine/render/card.hpp"

#include <optional>
#include <string>
#include <vector>

/// Pages for readers who scale a recipe themselves: text in, texts of files out.
namespace jarful::page {

/// A recipe with what its page carries.
struct Published {
    std::string name; ///< of its file in a folder, without the ending
    load::Texts texts;
    plan::WeighOut weighed;      ///< the recipe's own batch, in no particular jars
    render::Card card;           ///< the same as `jarful card` makes it
    render::CardAddress address; ///< where the page will stand
};

/// One file that needs no other.
/// @param engine the engine's module, packed by gzip.
[[nodiscard]] std::string single_page(const Published& recipe, std::string_view engine);

/// A file of a folder.
struct PageFile {
    std::string name;
    std::string content;
    std::string
        what; ///< as in `render::made`; every one but the engine carries a mark that says so
};

/// A whole book: an index, a page for each recipe, and the engine that they share.
/// @param title of the book. Names must differ from each other and from "index".
[[nodiscard]] std::vector<PageFile> book_pages(const std::vector<Published>& recipes,
                                               const std::string& title, std::string_view engine);

/// The recipe as schema.org/Recipe in JSON-LD, in grams.
[[nodiscard]] std::string recipe_data(const plan::WeighOut& weighed);

/// A name as a part of an address: what is not a letter, a digit or one of -._~ is written in
/// percent.
[[nodiscard]] std::string in_address(std::string_view name);

} // namespace jarful::page
