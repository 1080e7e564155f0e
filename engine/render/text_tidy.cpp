#include "engine/render/tidy_report.hpp"

#include <algorithm>

namespace jarful::render {

namespace {

std::string counted_files(std::size_t count) {
    return count == 1 ? "1 file" : std::to_string(count) + " files";
}

std::string sum(std::size_t files, std::size_t changes, std::size_t faulty, TidyTask task) {
    if (faulty > 0)
        return (files == 1 ? "This file" : std::to_string(faulty) + " of " + counted_files(files)) +
               " cannot be tidied: see what was said of it.";
    if (changes == 0)
        return files == 1 ? "This file is tidy." : "All " + counted_files(files) + " are tidy.";
    if (task == TidyTask::check)
        return std::to_string(changes) + " of " + counted_files(files) +
               " would change. `jarful tidy` writes them; `--diff` shows what would change.";
    return std::to_string(changes) + " of " + counted_files(files) + " tidied.";
}

} // namespace

std::string tidy_text(std::span<const TidiedFile> files, TidyTask task, const TextStyle& style) {
    if (task == TidyTask::diff) {
        std::string out;
        for (const TidiedFile& file : files)
            out += file.diff;
        return out;
    }
    Page page(style);
    std::size_t changes = 0;
    std::size_t faulty = 0;
    for (const TidiedFile& file : files) {
        if (!file.ok) ++faulty;
        if (!file.changes) continue;
        ++changes;
        page.raw(visible(file.path));
    }
    page.gap();
    page.paragraph(sum(files.size(), changes, faulty, task), 0, 0);
    return page.text();
}

} // namespace jarful::render
