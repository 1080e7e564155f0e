#include "engine/render/book_report.hpp"
#include "engine/render/fields/results.hpp"
#include "engine/render/fields/shared.hpp"

namespace jarful::fields {

namespace {

using render::BookRecipe;
using render::BookReport;

std::string_view standing_word(book::Standing standing) {
    switch (standing) {
    case book::Standing::same:
        return "same";
    case book::Standing::changed:
        return "changed";
    case book::Standing::not_committed:
        return "not committed";
    case book::Standing::gone:
        return "gone";
    case book::Standing::conflict:
        break;
    }
    return "conflict";
}
constexpr auto file_words = one_of<book::Standing>(
    standing_word, {book::Standing::same, book::Standing::changed, book::Standing::not_committed,
                    book::Standing::gone, book::Standing::conflict});

using book::Revision;
constexpr auto commit_fields = fields<Revision>({
    {"commit", text<&Revision::id>, "All digits of its id."},
    {"date", text<&Revision::date>, "The committer's own date, as in 2026-09-01."},
    {"summary", text<&Revision::summary>, "The first line of its message."},
});
constexpr Shape<Revision> commit{"commit", "A commit.", table<commit_fields>};

constexpr auto book_recipe_fields = fields<BookRecipe>({
    {"path", text<&BookRecipe::path>, "As it was found from the folder named."},
    {"title", maybe(text<&BookRecipe::title>),
     "As its header says; null where that cannot be read."},
    {"version", maybe(whole<&BookRecipe::version>), "The version in its header."},
    {"kind", maybe(text<&BookRecipe::kind>), "The kind of ferment."},
    {"method", maybe(text<&BookRecipe::method>),
     "How it is made, where the kind is made in more than one way."},
    {"faults", how_many<&BookRecipe::faults>, "How many faults `jarful check` finds."},
    {"verdict", maybe(choice<verdict_words, &BookRecipe::verdict>),
     "The worst of salt and bounds of the house; null if nothing is judged, or there are faults."},
    {"salt", maybe(object<salt, &BookRecipe::salt>), "Null if the salt is not judged."},
    {"changed", maybe(object<commit, &BookRecipe::changed>),
     "The commit that last changed the file's bytes; null where there is none."},
    {"standing", maybe(choice<file_words, &BookRecipe::standing>),
     "How it stands to the last commit; null where there is no history, or git is told to ignore "
     "the file."},
});
constexpr Shape<BookRecipe> book_recipe{"book_recipe", "A recipe of the book.",
                                        table<book_recipe_fields>};

constexpr auto book_fields = fields<BookReport>({
    {"history", flag<&BookReport::history>,
     "Whether the folder lies in a git repository that could be read."},
    {"recipes", list<book_recipe, &BookReport::recipes>,
     "Those that were asked for, in the order asked for."},
    {"of", how_many<&BookReport::of>, "How many recipes the folder has."},
});
constexpr Shape<BookReport> book_shape{"book", "A book.", table<book_fields>};

} // namespace

constexpr Result book_result{
    "book", "jarful.book/1",
    "The answer of `jarful book --json`. Percentages written 2.2 for 2.2 %.", book_shape};

} // namespace jarful::fields

namespace jarful::render {

std::string book_json(const BookReport& report) {
    return fields::document(fields::book_result, fields::book_shape, report);
}

} // namespace jarful::render
