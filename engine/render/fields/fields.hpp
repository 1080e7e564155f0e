#pragma once

#include "engine/render/fields/json_writer.hpp"

#include <concepts>
#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

/// What a result is made of, said once: tables of fields, each with its name, how it is got from
/// the struct, and its meaning. JSON is written from them, and the JSON Schema (schema.hpp).
///
///     constexpr auto portion_fields = fields<plan::Portion>({
///         {"scale", text<&plan::Portion::scale>, "The scale's name."},
///         {"reading_g", number<&plan::Portion::reading_g>, "What to wait for.", "g"},
///     });
///     constexpr Shape<plan::Portion> portion{"portion", "One go.", table<portion_fields>};
///
/// How a value is got is a data member, a member function without arguments, or a function of the
/// struct. What may be missing says so: `maybe(…)` is null then, `sometimes(…)` is left out.
///
/// A table is read by the compiler alone. The program has of it a function that writes the fields
/// and one that tells what they mean, for a schema. So no table of pointers to names and sentences
/// has to be adjusted at every start (see engine/larder/constant.hpp).
namespace jarful::fields {

// ---- What is said of a field. ----

#ifdef __EMSCRIPTEN__
inline constexpr bool described = false; // nobody asks a page for a schema
#else
inline constexpr bool described = true;
#endif

struct AnyShape;

/// Words that one of them is.
struct WordList {
    const char* name;    ///< of the list; null: none of its own
    const char* meaning; ///< of all of them, where they have a name
    std::vector<std::string_view> (*words)();
};

inline constexpr int no_bound = std::numeric_limits<int>::min();

/// Those that are there are included.
struct Bounds {
    int least = no_bound; ///< of a number
    int most = no_bound;
    int fewest = no_bound; ///< of a list: how many
    int most_of = no_bound;
};

/// What a value is.
struct Type {
    enum class Base : std::uint8_t {
        text,
        number,
        whole,
        flag,
        object, ///< by `shape`
        parts,  ///< the fields of `shape`, without an object around them
        written ///< an object that was written already
    };
    Base base = Base::text;
    bool list = false;               ///< a list of these
    bool number_may_be_null = false; ///< as an end of an interval that has none
    const AnyShape* shape = nullptr;
    const WordList* words = nullptr; ///< of a text: all that it may be
    const char* pattern = nullptr;   ///< of a text: ECMA-262
    Bounds bounds = {};
};

/// A sentence, or a unit: nothing of it is kept where no schema is made.
using Words = const char*;

enum class Presence : std::uint8_t {
    always,
    maybe,    ///< null where there is none; of a text: where it is empty
    sometimes ///< left out likewise
};

/// What a schema says of a field.
struct FieldNotes {
    const char* name = nullptr; ///< null for the parts of another shape
    Presence presence = Presence::always;
    Type type;
    Words meaning = "";
    Words unit = ""; ///< as it is written behind a figure
};

/// The notes of a shape's fields, as they are told one after another. Each in several calls: what
/// stands in a call's arguments is in the code and not in a table.
class NotesList {
  public:
    void add(const char* name, Presence presence, Words meaning, Words unit);
    /// Of the last.
    void is(Type::Base base, bool list, bool number_may_be_null, Bounds bounds);
    void refers(const AnyShape* shape, const WordList* words, const char* pattern);
    [[nodiscard]] std::vector<FieldNotes> take() { return std::move(all_); }

  private:
    std::vector<FieldNotes> all_;
};

struct ShapeNotes {
    Words name = "";
    Words meaning = "";
    void (*tell)(NotesList& out) = nullptr; ///< null for a whole result
};
/// In place of it.
struct NoNotes {
    constexpr NoNotes() = default;
    constexpr NoNotes(const ShapeNotes& /*unused*/) {} // NOLINT: it stands for them
};
template <class Notes>
using Kept = std::conditional_t<described, Notes, NoNotes>;

// ---- Fields and shapes. ----

/// Writes a field's value. @return false, and nothing written, where there is none.
using Write = bool (*)(JsonWriter& out, const void* object, Presence presence);

/// A line of a table, for the compiler.
struct Field {
    Write write = nullptr;
    FieldNotes notes;
};

/// How a value is got from a T and written.
template <class T>
struct How {
    Write write = nullptr;
    bool may_lack = false; ///< what is got may be empty
    Type type;
    Presence presence = Presence::always;
};

/// Null where there is none.
template <class T>
constexpr How<T> maybe(How<T> how) {
    how.presence = Presence::maybe;
    return how;
}
/// Left out where there is none.
template <class T>
constexpr How<T> sometimes(How<T> how) {
    how.presence = Presence::sometimes;
    return how;
}
/// There is one wherever this is asked.
template <class T>
constexpr How<T> sure(How<T> how) {
    how.may_lack = false;
    return how;
}
/// At least so much, or so many in a list.
template <class T>
constexpr How<T> at_least(int least, How<T> how) {
    (how.type.list ? how.type.bounds.fewest : how.type.bounds.least) = least;
    return how;
}
template <class T>
constexpr How<T> at_most(int most, How<T> how) {
    (how.type.list ? how.type.bounds.most_of : how.type.bounds.most) = most;
    return how;
}
/// Of an end of an interval: there is always one.
template <class T>
constexpr How<T> bounded(How<T> how) {
    how.type.number_may_be_null = false;
    return how;
}
/// A text of this pattern.
template <class T>
constexpr How<T> like(const char* pattern, How<T> how) {
    how.type.pattern = pattern;
    return how;
}

/// Nowhere defined and no constant expression: a table that comes by it does not compile.
void say_maybe_or_sometimes();

/// A line of a table.
template <class T>
struct Row {
    constexpr Row(const char* name, How<T> how, Words meaning = "", Words unit = "")
        : field{how.write, {name, how.presence, how.type, meaning, unit}} {
        if (how.may_lack && how.presence == Presence::always) say_maybe_or_sometimes();
    }
    /// The parts of another shape; left out together where there is no such part.
    constexpr Row(How<T> parts)
        : field{parts.write, {nullptr, parts.presence, parts.type, "", ""}} {}
    Field field;
};

template <class T, std::size_t many>
struct Fields {
    static constexpr std::size_t count = many;
    Field rows[many];
};
template <class T, std::size_t count>
constexpr Fields<T, count> fields(const Row<T> (&&rows)[count]) {
    Fields<T, count> out{};
    for (std::size_t i = 0; i < count; ++i)
        out.rows[i] = rows[i].field;
    return out;
}

/// Writes one field with its name, null or nothing where there is none.
void write_field(JsonWriter& out, const char* name, Write write, Presence presence,
                 const void* object);

template <const auto& rows, std::size_t at>
void write_row(JsonWriter& out, const void* object) {
    constexpr const char* name = rows.rows[at].notes.name;
    constexpr Write write = rows.rows[at].write;
    constexpr Presence presence = rows.rows[at].notes.presence;
    write_field(out, name, write, presence, object);
}
template <const auto& rows, std::size_t at>
void tell_row(NotesList& out) {
    constexpr FieldNotes notes = rows.rows[at].notes;
    constexpr Type type = notes.type;
    out.add(notes.name, notes.presence, notes.meaning, notes.unit);
    out.is(type.base, type.list, type.number_may_be_null, type.bounds);
    if constexpr (type.shape != nullptr || type.words != nullptr || type.pattern != nullptr)
        out.refers(type.shape, type.words, type.pattern);
}

/// A table by its place; it has to be constant.
template <const auto& rows>
struct Table {
    static void write(JsonWriter& out, const void* object) {
        [&]<std::size_t... at>(std::index_sequence<at...>) {
            (write_row<rows, at>(out, object), ...);
        }
        (every);
    }
    static void tell(NotesList& out) {
        [&]<std::size_t... at>(std::index_sequence<at...>) {
            (tell_row<rows, at>(out), ...);
        }
        (every);
    }

  private:
    static constexpr std::make_index_sequence<std::remove_cvref_t<decltype(rows)>::count> every{};
};
template <const auto& rows>
inline constexpr Table<rows> table{};

struct AnyShape {
    void (*write)(JsonWriter& out, const void* object); ///< its fields without brackets
    [[no_unique_address]] Kept<ShapeNotes> notes;
};
/// What a T is as an object. Its name is one in the whole program: the schema refers to it so.
template <class T>
struct Shape : AnyShape {
    template <const auto& rows>
    constexpr Shape(Words name, Words meaning, Table<rows> /*unused*/)
        : AnyShape{&Table<rows>::write, kept<rows>(name, meaning)} {
        static_assert(std::is_same_v<std::remove_cvref_t<decltype(rows)>,
                                     Fields<T, std::remove_cvref_t<decltype(rows)>::count>>);
    }

  private:
    template <const auto& rows>
    static constexpr Kept<ShapeNotes> kept(Words name, Words meaning) {
        if constexpr (described) {
            return {name, meaning, &Table<rows>::tell};
        } else {
            return {};
        }
    }
};

/// What its fields are and mean; made when it is asked for.
[[nodiscard]] std::vector<FieldNotes> notes_of(const AnyShape& shape);

/// @param object what the shape is of.
void write_object(JsonWriter& out, const AnyShape& shape, const void* object);

template <class T>
void write_object(JsonWriter& out, const Shape<T>& shape, const T& object) {
    write_object(out, static_cast<const AnyShape&>(shape), static_cast<const void*>(&object));
}

// ---- Sorts of values: each says what it is and writes it. ----

struct TextSort {
    static constexpr Type type{.base = Type::Base::text};
    static bool put(JsonWriter& out, std::string_view value, Presence presence);
};
struct NumberSort {
    static constexpr Type type{.base = Type::Base::number};
    static bool put(JsonWriter& out, double value, Presence presence);
};
/// The ends of an interval.
struct LowSort {
    static constexpr Type type{.base = Type::Base::number, .number_may_be_null = true};
    static bool put(JsonWriter& out, units::Interval value, Presence presence);
};
struct HighSort {
    static constexpr Type type{.base = Type::Base::number, .number_may_be_null = true};
    static bool put(JsonWriter& out, units::Interval value, Presence presence);
};
struct WholeSort {
    static constexpr Type type{.base = Type::Base::whole};
    template <std::integral I>
    static bool put(JsonWriter& out, I value, Presence /*unused*/) {
        out.whole(static_cast<std::int64_t>(value));
        return true;
    }
};
/// Not below 0.
struct CountSort : WholeSort {
    static constexpr Type type{.base = Type::Base::whole, .bounds = {.least = 0}};
};
struct FlagSort {
    static constexpr Type type{.base = Type::Base::flag};
    static bool put(JsonWriter& out, bool value, Presence presence);
};
/// An object that was written already.
struct WrittenSort {
    static constexpr Type type{.base = Type::Base::written};
    static bool put(JsonWriter& out, std::string_view json, Presence presence);
};
template <const auto& shape>
struct ObjectSort {
    static constexpr Type type{.base = Type::Base::object, .shape = &shape};
    template <class T>
    static bool put(JsonWriter& out, const T& value, Presence /*unused*/) {
        write_object(out, shape, value);
        return true;
    }
};
template <const auto& shape>
struct PartsSort {
    static constexpr Type type{.base = Type::Base::parts, .shape = &shape};
    template <class T>
    static bool put(JsonWriter& out, const T& value, Presence /*unused*/) {
        static_assert(std::derived_from<std::remove_cvref_t<decltype(shape)>, Shape<T>>);
        shape.write(out, &value);
        return true;
    }
};

/// One of several words. What it may be is listed as values, so that their words have one home.
template <class E, std::size_t count>
struct Choice {
    const char* name; ///< null: none of its own
    const char* meaning;
    std::string_view (*word)(E);
    E values[count];
};
/// A choice without a name of its own.
template <class E, std::size_t count>
constexpr Choice<E, count> one_of(std::string_view (*word)(E), const E (&values)[count]) {
    Choice<E, count> out{nullptr, nullptr, word, {}};
    for (std::size_t i = 0; i < count; ++i)
        out.values[i] = values[i];
    return out;
}
/// For a choice whose values are words already.
constexpr std::string_view same_word(std::string_view word) {
    return word;
}
template <std::size_t count>
constexpr Choice<std::string_view, count> one_of_words(const std::string_view (&values)[count]) {
    return one_of<std::string_view>(same_word, values);
}
template <const auto& choice>
std::vector<std::string_view> words_of() {
    std::vector<std::string_view> out;
    for (const auto value : choice.values)
        out.push_back(choice.word(value));
    return out;
}
template <const auto& choice>
inline constexpr WordList word_list{choice.name, choice.meaning, &words_of<choice>};
template <const auto& choice>
struct ChoiceSort {
    static constexpr Type type{.base = Type::Base::text, .words = &word_list<choice>};
    template <class E>
    static bool put(JsonWriter& out, const E& value, Presence presence) {
        return TextSort::put(out, choice.word(value), presence);
    }
};

/// One of several words that a list elsewhere has.
template <const WordList& list>
struct WordSort {
    static constexpr Type type{.base = Type::Base::text, .words = &list};
    static bool put(JsonWriter& out, std::string_view value, Presence presence) {
        return TextSort::put(out, value, presence);
    }
};

// ---- Getting a value. ----

template <class G>
struct OwnerOf : OwnerOf<decltype(&G::operator())> {};
template <class R, class T>
struct OwnerOf<R T::*> {
    using Type = T;
};
template <class R, class L, class T>
struct OwnerOf<R (L::*)(const T&) const> {
    using Type = T;
};
template <class R, class T>
struct OwnerOf<R (*)(const T&)> {
    using Type = T;
};
template <auto get>
using Owner = typename OwnerOf<std::remove_cv_t<decltype(get)>>::Type;

template <auto get, class T>
constexpr decltype(auto) value_of(const T& object) {
    if constexpr (std::is_member_object_pointer_v<decltype(get)>) {
        return (object.*get);
    } else if constexpr (std::is_member_function_pointer_v<decltype(get)>) {
        return (object.*get)();
    } else {
        return get(object);
    }
}
/// For an object, or parts, that are made of the struct itself.
template <class T>
const T& itself(const T& object) {
    return object;
}
/// A member of what a pointer in the struct points to.
template <auto pointer, auto member>
const auto& through(const Owner<pointer>& object) {
    return object.*pointer->*member;
}

template <auto get>
using Value = std::remove_cvref_t<decltype(value_of<get>(std::declval<const Owner<get>&>()))>;

template <class V>
inline constexpr bool is_optional = false;
template <class V>
inline constexpr bool is_optional<std::optional<V>> = true;
/// Whether a V may be empty: an optional, or a pointer to a struct.
template <class V>
inline constexpr bool may_lack = is_optional<V> || (std::is_pointer_v<V> &&
                                                    std::is_class_v<std::remove_pointer_t<V>>);

template <class Sort, class V>
bool put_value(JsonWriter& out, const V& value, Presence presence) {
    if constexpr (may_lack<V>) {
        // An empty text that is there is a text.
        return value ? Sort::put(out, *value, Presence::always) : false;
    } else {
        return Sort::put(out, value, presence);
    }
}

template <class Sort>
constexpr Type list_type() {
    Type type = Sort::type;
    type.list = true;
    return type;
}
template <class Sort>
struct ListSort {
    static constexpr Type type = list_type<Sort>();
    template <class List>
    static bool put(JsonWriter& out, const List& list, Presence /*unused*/) {
        out.begin_list();
        for (const auto& one : list)
            if (!put_value<Sort>(out, one, Presence::always)) out.null();
        out.end_list();
        return true;
    }
};

template <class Sort, auto get>
bool write_value(JsonWriter& out, const void* object, Presence presence) {
    return put_value<Sort>(out, value_of<get>(*static_cast<const Owner<get>*>(object)), presence);
}
template <class Sort, auto get>
inline constexpr How<Owner<get>> as{
    .write = &write_value<Sort, get>, .may_lack = may_lack<Value<get>>, .type = Sort::type};

// ---- The words of the tables. ----

template <auto get>
inline constexpr auto text = as<TextSort, get>;
template <auto get>
inline constexpr auto number = as<NumberSort, get>;
template <auto get>
inline constexpr auto low = as<LowSort, get>;
template <auto get>
inline constexpr auto high = as<HighSort, get>;
template <auto get>
inline constexpr auto whole = as<WholeSort, get>;
template <auto get>
inline constexpr auto how_many = as<CountSort, get>;
template <auto get>
inline constexpr auto flag = as<FlagSort, get>;
template <auto get>
inline constexpr auto written = as<WrittenSort, get>;
template <const auto& words, auto get>
inline constexpr auto choice = as<ChoiceSort<words>, get>;
template <const WordList& words, auto get>
inline constexpr auto word = as<WordSort<words>, get>;
template <const auto& shape, auto get>
inline constexpr auto object = as<ObjectSort<shape>, get>;
template <const auto& shape, auto get>
inline constexpr auto list = as<ListSort<ObjectSort<shape>>, get>;
template <auto get>
inline constexpr auto texts = as<ListSort<TextSort>, get>;
template <auto get>
inline constexpr auto numbers = as<ListSort<NumberSort>, get>;
template <auto get>
inline constexpr auto wholes = as<ListSort<WholeSort>, get>;
/// The fields of another shape, at this place.
template <const auto& shape, auto get>
inline constexpr auto parts = as<PartsSort<shape>, get>;

/// An interval, whatever it is of.
extern const Shape<units::Interval> interval;

// ---- Whole results. ----

/// What a command answers with `--json`.
struct Result {
    constexpr Result(Words name, const char* with_format, Words meaning, const AnyShape& first,
                     const AnyShape* second = nullptr)
        : format(with_format)
        , shape(&first)
        , or_shape(second)
        , notes(ShapeNotes{name, meaning, nullptr}) {}
    const char* format; ///< "jarful.weigh/1": the value of its first field
    const AnyShape* shape;
    const AnyShape* or_shape;                     ///< the other form; null if there is one only
    [[no_unique_address]] Kept<ShapeNotes> notes; ///< its name is that of its schema: "weigh"
};

[[nodiscard]] std::string document(const Result& result, const AnyShape& shape, const void* object,
                                   Layout layout);
/// A whole result, with a line break at the end. @param shape one of the result's.
template <class T>
[[nodiscard]] std::string document(const Result& result, const Shape<T>& shape, const T& object,
                                   Layout layout = Layout::lines) {
    return document(result, static_cast<const AnyShape&>(shape), static_cast<const void*>(&object),
                    layout);
}

} // namespace jarful::fields
