#include "engine/appraise/appraise.hpp"
#include "engine/appraise/text.hpp"

#include <algorithm>

namespace jarful::appraise {

bool is_page(std::string_view bytes) {
    const std::string start = lower(bytes.substr(0, 4096));
    if (start.find("<!doctype html") != std::string::npos ||
        start.find("<html") != std::string::npos)
        return true;
    const std::string_view front = trimmed(std::string_view(start).substr(
        std::min(start.size(), start.find_first_not_of("\r\n\t ") == std::string::npos
                                   ? start.size()
                                   : start.find_first_not_of("\r\n\t "))));
    if (front.starts_with("<script") || front.starts_with("<body") || front.starts_with("<head") ||
        front.starts_with("<div") || front.starts_with("<meta") || front.starts_with("<ul") ||
        front.starts_with("<article") || front.starts_with("<section") || front.starts_with("<h"))
        return true;
    return lower(bytes.substr(0, 65536)).find("application/ld+json") != std::string::npos;
}

} // namespace jarful::appraise
