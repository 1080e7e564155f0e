#include "engine/appraise/appraise.hpp"

#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/terminal.hpp"
#include "engine/render/appraise_report.hpp"
#include "engine/units/amount.hpp"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace jarful::cli {

namespace {

/// The bytes of a file or of standard input; a page may be larger than a recipe.
bool read_text(const std::string& path, std::string& bytes, std::string& why) {
    int descriptor = STDIN_FILENO;
    if (path != "-") {
        if (!is_file(path)) {
            why = is_folder(path) ? "This is a folder." : "There is no such file.";
            return false;
        }
        descriptor = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
        if (descriptor < 0) {
            why = std::string("It cannot be read: ") + std::strerror(errno) + ".";
            return false;
        }
    }
    char block[65536];
    bool good = true;
    while (bytes.size() <= appraise::max_bytes) {
        const ssize_t n = ::read(descriptor, block, sizeof block);
        if (n < 0 && errno == EINTR) continue;
        if (n < 0) {
            why = std::string("It cannot be read: ") + std::strerror(errno) + ".";
            good = false;
        }
        if (n <= 0) break;
        bytes.append(block, static_cast<std::size_t>(n));
    }
    if (descriptor != STDIN_FILENO) ::close(descriptor);
    if (good && bytes.size() > appraise::max_bytes) {
        why = "It is larger than 4 MiB; paste the recipe's own lines.";
        return false;
    }
    return good;
}

/// Writes a file that is not there yet, whole or not at all.
bool write_new(const std::string& path, std::string_view text, std::string& why) {
    std::string temporary = path + ".XXXXXX";
    const int descriptor = ::mkstemp(temporary.data());
    if (descriptor < 0) {
        why = std::strerror(errno);
        return false;
    }
    bool good = true;
    std::string_view rest = text;
    while (good && !rest.empty()) {
        const ssize_t n = ::write(descriptor, rest.data(), rest.size());
        if (n < 0 && errno == EINTR) continue;
        if (n < 0)
            good = false;
        else
            rest.remove_prefix(static_cast<std::size_t>(n));
    }
    good = good && ::fchmod(descriptor, 0644) == 0 && ::fsync(descriptor) == 0;
    if (!good) why = std::strerror(errno);
    ::close(descriptor);
    // A link is refused where there is a file already, whoever made it and when.
    if (good && ::link(temporary.c_str(), path.c_str()) != 0) {
        why =
            errno == EEXIST ? "it is there already, and is not overwritten" : std::strerror(errno);
        good = false;
    }
    ::unlink(temporary.c_str());
    return good;
}

int code_of(const std::vector<appraise::Appraisal>& all) {
    const bool well = std::all_of(all.begin(), all.end(), [](const appraise::Appraisal& a) {
        return a.verdict == appraise::Verdict::inside;
    });
    return well ? status::nothing_to_say : status::something_found;
}

} // namespace

int run_appraise(const AppraiseOptions& options) {
    appraise::Request request;
    request.salt = options.salt;
    // "green-beans in-brine": a kind, and its method behind a blank.
    request.kind = options.kind;
    if (!options.kind.empty() && larder::find_kind(options.kind) == nullptr) {
        const std::size_t blank = options.kind.rfind(' ');
        if (blank != std::string::npos &&
            larder::find_kind(options.kind.substr(0, blank)) != nullptr) {
            request.kind = options.kind.substr(0, blank);
            request.method = options.kind.substr(blank + 1);
        }
    }
    for (const std::string& text : options.weighs) {
        const std::size_t equals = text.find('=');
        const auto amount = equals == std::string::npos
                                ? std::nullopt
                                : units::read_amount(std::string_view(text).substr(equals + 1));
        if (!amount || equals == 0 || !(amount->dimension == units::dim::mass) ||
            !(amount->value > 0) || !(amount->value <= 1e6)) {
            complain("\"" + text +
                     "\" is not understood: write a name, = and a weight without blanks, as in "
                     "--weighs cabbage=1.84kg.");
            return status::not_done;
        }
        request.pins.push_back({text.substr(0, equals), amount->value});
    }

    std::string bytes;
    std::string why;
    const std::string path = options.path.empty() ? "-" : options.path;
    if (!read_text(path, bytes, why)) {
        complain("\"" + path + "\": " + why);
        return status::not_done;
    }
    std::vector<appraise::Found> found;
    if (appraise::is_page(bytes)) {
        appraise::Page page = appraise::read_page(bytes);
        for (const std::string& remark : page.remarks)
            complain(remark);
        if (!page.from_data)
            complain("The page holds no recipe data; its text is read, with whatever else stands "
                     "on it.");
        found = std::move(page.recipes);
    } else {
        found.push_back({"", std::move(bytes)});
    }
    std::vector<appraise::Appraisal> all;
    for (const appraise::Found& one : found) {
        appraise::Refusal refusal;
        auto appraisal = appraise::appraise(one.text, request, refusal);
        if (!appraisal) {
            complain(refusal.message + " " + refusal.advice);
            return status::not_done;
        }
        all.push_back(std::move(*appraisal));
    }
    std::string result;
    if (options.as_recipe) {
        if (all.size() > 1) {
            complain("There are " + std::to_string(all.size()) +
                     " recipes on the page; the first of them is written.");
        }
        const std::string recipe = appraise::as_recipe(all.front());
        if (*options.as_recipe == "-") return finish(recipe, code_of(all));
        if (!write_new(*options.as_recipe, recipe, why)) {
            complain("\"" + *options.as_recipe + "\" is not written: " + why + ".");
            return status::not_done;
        }
        complain("Written: \"" + *options.as_recipe + "\". Look at it with `jarful check " +
                 *options.as_recipe + "`.");
    }
    if (options.json) {
        result = render::appraise_json(all);
    } else {
        for (const appraise::Appraisal& one : all)
            result += (result.empty() ? "" : "\n\n") +
                      render::appraise_text(one, result_style(options.units));
    }
    return finish(result, code_of(all));
}

} // namespace jarful::cli
