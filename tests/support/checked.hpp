#pragma once

#include "engine/render/check_report.hpp"

namespace jarful::testing {

/// What `check --full` prints of these files, all at once.
inline std::string checked_text(std::span<const render::CheckedFile> files,
                                const render::TextStyle& style) {
    std::string out;
    render::CheckSummary sum;
    for (const render::CheckedFile& file : files) {
        out += check_text_of(file, style);
        sum.add(file);
    }
    return out + check_text_end(sum, style);
}

/// What `check --json` prints of them.
inline std::string checked_json(std::span<const render::CheckedFile> files) {
    std::string out = render::check_json_begin();
    render::CheckSummary sum;
    for (const render::CheckedFile& file : files) {
        if (sum.files > 0) out += ',';
        out += check_json_of(file);
        sum.add(file);
    }
    return out + check_json_end(sum);
}

} // namespace jarful::testing
