#include "engine/render/fields/schema.hpp"

#include <algorithm>

namespace jarful::fields {

namespace {

using Base = Type::Base;

std::string described_as(const FieldNotes& notes) {
    std::string out = notes.meaning;
    const std::string_view unit = notes.unit;
    if (!unit.empty()) out += (out.empty() ? "In " : " In ") + std::string(unit) + ".";
    return out;
}

class SchemaWriter {
  public:
    std::string whole(const Result& result) {
        out_.begin_object();
        entry("$schema", "http://json-schema.org/draft-07/schema#");
        entry("title", result.format);
        entry("description", result.notes.meaning);
        if (result.or_shape == nullptr) {
            object_of(*result.shape, result.format);
        } else {
            out_.key("oneOf");
            out_.begin_list();
            for (const AnyShape* shape : {result.shape, result.or_shape}) {
                out_.begin_object();
                object_of(*shape, result.format);
                out_.end_object();
            }
            out_.end_list();
        }
        definitions();
        out_.end_object();
        return out_.take() + "\n";
    }

  private:
    void entry(std::string_view key, std::string_view text) {
        out_.key(key);
        out_.text(text);
    }

    void texts(std::string_view key, const std::vector<std::string_view>& list, bool null = false) {
        out_.key(key);
        out_.begin_list(Layout::one_line);
        for (const std::string_view one : list)
            out_.text(one);
        if (null) out_.null();
        out_.end_list();
    }

    /// What an object is, within its brackets. @param format of a whole result; else empty.
    void object_of(const AnyShape& shape, std::string_view format) {
        entry("type", "object");
        std::vector<std::string_view> required;
        out_.key("properties");
        out_.begin_object();
        if (!format.empty()) {
            out_.key("format");
            out_.begin_object(Layout::one_line);
            entry("const", format);
            out_.end_object();
            required.emplace_back("format");
        }
        properties(shape, true, required);
        out_.end_object();
        texts("required", required);
        out_.key("additionalProperties");
        out_.flag(false);
    }

    void properties(const AnyShape& shape, bool always, std::vector<std::string_view>& required) {
        for (const FieldNotes& field : notes_of(shape)) {
            const bool needed = always && field.presence != Presence::sometimes;
            if (field.type.base == Base::parts) {
                properties(*field.type.shape, needed, required);
                continue;
            }
            if (needed) required.emplace_back(field.name);
            out_.key(field.name);
            out_.begin_object(Layout::one_line);
            value(field.type, field.presence == Presence::maybe);
            if (const std::string text = described_as(field); !text.empty())
                entry("description", text);
            out_.end_object();
        }
    }

    void value(const Type& type, bool null) {
        if (type.list) return list(type, null);
        if (type.base == Base::object) return reference(need(*type.shape), null);
        if (type.words != nullptr && type.words->name != nullptr)
            return reference(need(*type.words), null);
        single(type, null);
    }

    void list(const Type& type, bool null) {
        type_names("array", null);
        bound("minItems", type.bounds.fewest);
        bound("maxItems", type.bounds.most_of);
        Type each = type;
        each.list = false;
        out_.key("items");
        out_.begin_object();
        value(each, false);
        out_.end_object();
    }

    void reference(std::string_view name, bool null) {
        // What stands beside a $ref is not read in this draft, so it is put into brackets.
        out_.key(null ? "anyOf" : "allOf");
        out_.begin_list();
        out_.begin_object();
        entry("$ref", "#/definitions/" + std::string(name));
        out_.end_object();
        if (null) {
            out_.begin_object();
            entry("type", "null");
            out_.end_object();
        }
        out_.end_list();
    }

    void type_names(std::string_view name, bool null) {
        if (null) {
            texts("type", {name, "null"});
        } else {
            entry("type", name);
        }
    }

    void single(const Type& type, bool null) {
        switch (type.base) {
        case Base::text:
            type_names("string", null);
            if (type.words != nullptr) texts("enum", type.words->words(), null);
            if (type.pattern != nullptr) entry("pattern", type.pattern);
            return;
        case Base::number:
            type_names("number", null || type.number_may_be_null);
            break;
        case Base::whole:
            type_names("integer", null);
            break;
        case Base::flag:
            return type_names("boolean", null);
        case Base::object:
        case Base::parts:
        case Base::written:
            return type_names("object", null);
        }
        bound("minimum", type.bounds.least);
        bound("maximum", type.bounds.most);
    }

    void bound(std::string_view key, int figure) {
        if (figure == no_bound) return;
        out_.key(key);
        out_.whole(figure);
    }

    std::string_view need(const AnyShape& shape) {
        if (std::find(shapes_.begin(), shapes_.end(), &shape) == shapes_.end())
            shapes_.push_back(&shape);
        return shape.notes.name;
    }

    std::string_view need(const WordList& words) {
        if (std::find(words_.begin(), words_.end(), &words) == words_.end())
            words_.push_back(&words);
        return words.name;
    }

    /// Those that were referred to, and those that these refer to.
    void definitions() {
        if (shapes_.empty() && words_.empty()) return;
        out_.key("definitions");
        out_.begin_object();
        for (std::size_t i = 0; i < shapes_.size(); ++i) {
            const AnyShape& shape = *shapes_[i];
            out_.key(shape.notes.name);
            out_.begin_object();
            entry("description", shape.notes.meaning);
            object_of(shape, "");
            out_.end_object();
        }
        for (const WordList* words : words_) {
            out_.key(words->name);
            out_.begin_object(Layout::one_line);
            entry("type", "string");
            texts("enum", words->words());
            entry("description", words->meaning);
            out_.end_object();
        }
        out_.end_object();
    }

    JsonWriter out_;
    std::vector<const AnyShape*> shapes_;
    std::vector<const WordList*> words_; ///< that have a name
};

} // namespace

std::vector<FieldNotes> notes_of(const AnyShape& shape) {
    NotesList list;
    shape.notes.tell(list);
    return list.take();
}

std::string schema(const Result& result) {
    return SchemaWriter().whole(result);
}

} // namespace jarful::fields
