#include "engine/language/diagnostic.hpp"

#include <algorithm>
#include <utility>

namespace jarful::language {

std::vector<Fix> fixes_with(Place place, std::vector<std::string> words) {
    std::vector<Fix> out;
    for (std::string& one : words)
        if (one.find("…") == std::string::npos && one.find("\xEF\xBF\xBD") == std::string::npos)
            out.push_back({place, std::move(one)});
    return out;
}

Diagnostic& Findings::add(Diagnostic d) {
    if (d.severity == Severity::fault) ++faults_;
    list_.push_back(std::move(d));
    return list_.back();
}

Diagnostic& Findings::fault(std::string code, std::optional<Place> place, std::string message,
                            std::string advice) {
    return add(
        {std::move(code), Severity::fault, place, std::move(message), std::move(advice), {}});
}

Diagnostic& Findings::remark(std::string code, std::optional<Place> place, std::string message,
                             std::string advice) {
    return add(
        {std::move(code), Severity::remark, place, std::move(message), std::move(advice), {}});
}

void Findings::sort() {
    std::stable_sort(list_.begin(), list_.end(), [](const Diagnostic& a, const Diagnostic& b) {
        if (!a.place || !b.place) return !a.place && b.place.has_value();
        return a.place->begin < b.place->begin;
    });
}

} // namespace jarful::language
