#pragma once

#include "engine/assist/files.hpp"
#include "engine/assist/text.hpp"
#include "engine/plan/trace.hpp"

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

/// What is open, and what the engine says of it. Private to the room, and free of JSON.
namespace jarful::assist {

/// A document of the editor.
struct Open {
    std::string uri;
    std::string path; ///< for people; for what is no file its URI
    std::int64_t version = 0;
    Text text;
};

/// The lines of a recipe with faults that stand by themselves.
struct SoundPart {
    language::Document document;
    /// Only lines that change no amount are left out (the method, remarks): readings are those of
    /// the recipe. If not, nothing in it judges, and readings may be others.
    bool all_amounts = false;
    /// Otherwise the names whose numbers rest on no reading: of givens and what follows from them.
    std::set<std::string, std::less<>> firm;
};
/// No line of it depends on one that is at fault; empty if that cannot be told.
[[nodiscard]] std::optional<SoundPart>
sound_part(const language::Document& document, const kitchen::Kitchen& kitchen,
           const std::vector<language::Diagnostic>& findings);

/// What the engine says of a file, worked out when it is asked for.
class Look {
  public:
    Look(LoadedFile file, std::shared_ptr<const LoadedKitchen> kitchen);
    Look(const Look&) = delete;
    Look& operator=(const Look&) = delete;

    [[nodiscard]] const language::Document& document() const { return file_.document; }
    [[nodiscard]] const std::vector<language::Diagnostic>& findings() const {
        return file_.findings.all();
    }
    [[nodiscard]] bool sound() const { return file_.ok(); }
    [[nodiscard]] std::size_t faults() const;
    [[nodiscard]] const LoadedKitchen& kitchen() const { return *kitchen_; }
    [[nodiscard]] const std::optional<plan::CheckResult>& checked() const { return checked_; }

    /// The weigh-out at the recipe's own amounts, as `jarful weigh` gives it; null if there is
    /// none. Of a recipe with faults it is that of what stands by itself: lines that are at fault
    /// are left out, with all that depend on them. Its verdicts are then none (see whole()), and of
    /// its numbers those alone may be shown that tells() names.
    [[nodiscard]] const plan::WeighOut* weighed() const;
    /// Whether weighed() is of the whole recipe.
    [[nodiscard]] bool whole() const { return sound(); }
    /// Whether what weighed() and trace() say of a name is what they would say of it if the lines
    /// at fault were mended: a reading is moved to keep the salt and the cook's own bounds inside,
    /// which rest on the whole jar.
    [[nodiscard]] bool tells(std::string_view name) const;
    /// As `jarful trace` gives it, of a sound recipe or of what stands by itself in another.
    [[nodiscard]] std::optional<plan::Trace> trace(std::string_view name) const;
    /// The values alone that trace() gives to these names, empty where it gives none.
    [[nodiscard]] std::vector<std::optional<plan::TraceValue>>
    values(const std::vector<std::string>& names) const;

  private:
    void weigh() const;
    [[nodiscard]] const language::Document* weighable() const;
    LoadedFile file_;
    std::shared_ptr<const LoadedKitchen> kitchen_;
    std::optional<plan::CheckResult> checked_;
    mutable bool tried_ = false;
    mutable std::optional<SoundPart> part_;
    mutable std::optional<plan::WeighOut> weighed_;
};

class Session {
  public:
    explicit Session(const Files& files)
        : files_(files) {}

    Encoding encoding = Encoding::utf16;

    /// The document of a URI; null if it is not open.
    [[nodiscard]] Open* find(std::string_view uri);
    [[nodiscard]] const Open* open_at(const std::string& path) const;
    [[nodiscard]] const std::map<std::string, std::unique_ptr<Open>>& open() const { return open_; }
    void open(const std::string& uri, std::string text, std::int64_t version);
    void close(const std::string& uri);
    /// Something was changed: what was looked at is looked at anew.
    void changed() {
        looks_.clear();
        texts_.clear();
    }

    /// The bytes of a file: the editor's where it is open, else those on the disk.
    [[nodiscard]] FileContent read(const std::string& path) const;
    [[nodiscard]] language::FoundBase find_base(std::string_view name,
                                                const std::string& from) const;
    /// Parsed, without what it inherits.
    [[nodiscard]] LoadedFile parsed(const std::string& path) const;
    [[nodiscard]] const Look& look(const std::string& path);
    /// The text of a file, for its positions.
    [[nodiscard]] const Text& text(const std::string& path);

    [[nodiscard]] std::string path_of(const std::string& uri) const;
    [[nodiscard]] std::string uri_of(const std::string& path) const;
    [[nodiscard]] const Files& files() const { return files_; }

  private:
    const Files& files_;
    std::map<std::string, std::unique_ptr<Open>> open_; ///< by URI
    std::map<std::string, std::unique_ptr<Look>> looks_;
    std::map<std::string, Text> texts_;
};

/// The path in a `file:` URI (RFC 8089), percent signs resolved; empty for any other.
[[nodiscard]] std::optional<std::string> path_in_uri(std::string_view uri);
[[nodiscard]] std::string uri_for_path(std::string_view path);

} // namespace jarful::assist
