#include "engine/assist/session.hpp"

#include "engine/plan/trace_values.hpp"

#include <algorithm>
#include <utility>

namespace jarful::assist {

Look::Look(LoadedFile file, std::shared_ptr<const LoadedKitchen> kitchen)
    : file_(std::move(file))
    , kitchen_(std::move(kitchen)) {
    checked_ = load::examine(file_, [this]() -> const LoadedKitchen& { return *kitchen_; });
}

std::size_t Look::faults() const {
    const auto& all = findings();
    return static_cast<std::size_t>(
        std::count_if(all.begin(), all.end(), [](const language::Diagnostic& found) {
            return found.severity == language::Severity::fault;
        }));
}

const language::Document* Look::weighable() const {
    if (document().kind != language::FileKind::recipe || !kitchen_->ok()) return nullptr;
    if (sound()) return &document();
    if (!part_) part_ = sound_part(document(), kitchen_->kitchen, findings());
    return part_ ? &part_->document : nullptr;
}

bool Look::tells(std::string_view name) const {
    if (weighed() == nullptr) return false;
    return sound() || part_->all_amounts || part_->firm.find(name) != part_->firm.end();
}

void Look::weigh() const {
    tried_ = true;
    const language::Document* recipe = weighable();
    if (recipe == nullptr) return;
    language::Findings findings;
    plan::RequestFindings request_findings;
    weighed_ = plan::weigh(*recipe, kitchen_->kitchen, {}, findings, request_findings);
}

const plan::WeighOut* Look::weighed() const {
    if (!tried_) weigh();
    return weighed_ ? &*weighed_ : nullptr;
}

std::optional<plan::Trace> Look::trace(std::string_view name) const {
    if (weighed() == nullptr) return std::nullopt;
    language::Findings findings;
    language::Findings name_findings;
    plan::RequestFindings request_findings;
    return plan::trace(*weighable(), kitchen_->kitchen, {}, name, findings, request_findings,
                       name_findings);
}

std::vector<std::optional<plan::TraceValue>>
Look::values(const std::vector<std::string>& names) const {
    if (weighed() == nullptr) return std::vector<std::optional<plan::TraceValue>>(names.size());
    return plan::trace_values(*weighable(), kitchen_->kitchen, names);
}

Open* Session::find(std::string_view uri) {
    const auto found = open_.find(std::string(uri));
    return found == open_.end() ? nullptr : found->second.get();
}

const Open* Session::open_at(const std::string& path) const {
    for (const auto& [uri, open] : open_)
        if (open->path == path) return open.get();
    return nullptr;
}

void Session::open(const std::string& uri, std::string text, std::int64_t version) {
    open_[uri] = std::make_unique<Open>(Open{uri, path_of(uri), version, Text(std::move(text))});
    changed();
}

void Session::close(const std::string& uri) {
    open_.erase(uri);
    changed();
}

FileContent Session::read(const std::string& path) const {
    if (const Open* open = open_at(path)) return {open->text.raw(), std::nullopt};
    return files_.read(path);
}

language::FoundBase Session::find_base(std::string_view name, const std::string& from) const {
    language::FoundBase found = files_.find_base(name, from);
    if (const Open* open = found.path.empty() ? nullptr : open_at(found.path);
        open != nullptr && found.code == "missing-base")
        found.bytes = open->text.raw();
    return found;
}

LoadedFile Session::parsed(const std::string& path) const {
    return load::understood(path, read(path));
}

const Look& Session::look(const std::string& path) {
    std::unique_ptr<Look>& look = looks_[path];
    if (look != nullptr) return *look;
    const language::FindBase find = [this](std::string_view name, const std::string& from) {
        return find_base(name, from);
    };
    const auto load = [&](const std::string& file) {
        return load::with_bases(parsed(file), file, find);
    };
    LoadedFile file = load(path);
    auto kitchen = std::make_shared<LoadedKitchen>();
    if (file.document.kind == language::FileKind::recipe)
        *kitchen = load::kitchen_of_files(files_.kitchen_of(path), files_.house_of(path), load);
    kitchen->kitchen.shown = kitchen::shown_units(kitchen->kitchen, std::nullopt);
    look = std::make_unique<Look>(std::move(file), std::move(kitchen));
    return *look;
}

const Text& Session::text(const std::string& path) {
    if (const Open* open = open_at(path)) return open->text;
    const auto found = texts_.find(path);
    if (found != texts_.end()) return found->second;
    return texts_.emplace(path, Text(files_.read(path).bytes)).first->second;
}

std::string Session::path_of(const std::string& uri) const {
    const auto path = path_in_uri(uri);
    return path ? files_.shown(*path) : uri;
}

std::string Session::uri_of(const std::string& path) const {
    // The editor may write its URIs in another way than uri_for_path() does.
    if (const Open* open = open_at(path)) return open->uri;
    return uri_for_path(files_.absolute(path));
}

std::optional<std::string> path_in_uri(std::string_view uri) {
    constexpr std::string_view scheme = "file://";
    if (!uri.starts_with(scheme)) return std::nullopt;
    uri.remove_prefix(scheme.size());
    // The name of a host, mostly none.
    const std::size_t stroke = uri.find('/');
    if (stroke == std::string_view::npos) return std::nullopt;
    uri.remove_prefix(stroke);
    uri = uri.substr(0, uri.find_first_of("?#"));
    const auto digit = [](char c) {
        return c >= '0' && c <= '9'   ? c - '0'
               : c >= 'a' && c <= 'f' ? c - 'a' + 10
               : c >= 'A' && c <= 'F' ? c - 'A' + 10
                                      : -1;
    };
    std::string out;
    for (std::size_t i = 0; i < uri.size(); ++i) {
        if (uri[i] == '%' && i + 2 < uri.size() && digit(uri[i + 1]) >= 0 &&
            digit(uri[i + 2]) >= 0) {
            const int byte = digit(uri[i + 1]) * 16 + digit(uri[i + 2]);
            if (byte == 0) return std::nullopt;
            out += static_cast<char>(byte);
            i += 2;
        } else {
            out += uri[i];
        }
    }
    return out;
}

std::string uri_for_path(std::string_view path) {
    constexpr std::string_view plain = "-._~/";
    constexpr std::string_view digits = "0123456789ABCDEF";
    std::string out = "file://";
    for (const char c : path) {
        const std::size_t byte = static_cast<unsigned char>(c);
        const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                            (c >= '0' && c <= '9') || plain.find(c) != std::string_view::npos;
        if (letter) {
            out += c;
        } else {
            out += '%';
            out += digits[byte / 16];
            out += digits[byte % 16];
        }
    }
    return out;
}

} // namespace jarful::assist
