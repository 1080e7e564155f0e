#include "cli/writing.hpp"

#include "cli/whole_file.hpp"
#include "engine/render/mark.hpp"

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <sys/stat.h>
#include <unistd.h>

namespace jarful::cli {

namespace fs = std::filesystem;

namespace {

FileFault unwritable(int error) {
    if (error == EACCES || error == EPERM || error == EROFS)
        return {"unwritable-file", "This file, or its folder, may not be written.",
                "Ask its owner, or change the permissions."};
    if (error == ENOSPC || error == EDQUOT)
        return {"unwritable-file", "There is no room left on the disk.", "Make room first."};
    if (error == EFBIG)
        return {"unwritable-file", "The file would be larger than is allowed here.",
                "Raise the limit (`ulimit -f`)."};
    if (error == ENOENT || error == ENOTDIR)
        return {"unwritable-file", "There is no folder for this file.",
                "Make the folder first, or check its spelling."};
    return {"unwritable-file", std::string("This cannot be written: ") + std::strerror(error) + ".",
            ""};
}

FileFault already_there() {
    return {"file-exists", "There is such a file already, and it is left as it is.",
            "Give the new one another name with `-o FILE`."};
}

FileFault changed_meanwhile() {
    return {"changed-meanwhile",
            "Somebody has saved this file since it was read, and it is left "
            "as it is.",
            "Do it again, with what is in the file now."};
}

/// Whether somebody has an ordinary file open for writing, as far as the system tells: it grants a
/// lease for reading only where nobody has.
bool is_being_written(const std::string& path) {
    const Opened file(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_NOFOLLOW | O_CLOEXEC));
    if (file.get() < 0) return false;
    if (::fcntl(file.get(), F_SETLEASE, F_RDLCK) != 0) return errno == EAGAIN;
    ::fcntl(file.get(), F_SETLEASE, F_UNLCK);
    return false;
}

/// 0, or the error number.
int write_all(int descriptor, std::string_view content) {
    while (!content.empty()) {
        const ssize_t n = ::write(descriptor, content.data(), content.size());
        if (n < 0 && errno == EINTR) continue;
        if (n < 0) return errno;
        content.remove_prefix(static_cast<std::size_t>(n));
    }
    return ::fsync(descriptor) == 0 ? 0 : errno;
}

/// The folder's entry is on the disk only when the folder is. Where that cannot be asked for, the
/// file is in place all the same.
void sync_folder_of(const std::string& path) {
    const fs::path folder = fs::path(path).parent_path();
    const int descriptor =
        ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (descriptor < 0) return;
    ::fsync(descriptor);
    ::close(descriptor);
}

} // namespace

Replacement::~Replacement() {
    for (const Staged& one : staged_)
        if (!one.temporary.empty()) ::unlink(one.temporary.c_str());
}

Replacement::Known Replacement::known(std::string_view content) {
    return {content.size(), render::content_hash(content)};
}

bool Replacement::is_still(const std::string& path, const Known& content) {
    const auto now = whole_file(path, content.size, Links::refused);
    return now && now->size() == content.size && render::content_hash(*now) == content.hash;
}

std::optional<FileFault> Replacement::stage(const std::string& path, std::string_view before,
                                            std::string_view content) {
    std::error_code error;
    const fs::path target = fs::canonical(path, error);
    if (error) return unwritable(error.value());
    struct stat info {};
    if (::stat(target.c_str(), &info) != 0) return unwritable(errno);
    // Renaming over a file asks for no right to write it, and its owner meant that it has none.
    if (::access(target.c_str(), W_OK) != 0) return unwritable(errno);
    std::string temporary =
        (target.parent_path() / ("." + target.filename().string() + ".XXXXXX")).string();
    const int descriptor = ::mkostemp(temporary.data(), O_CLOEXEC);
    if (descriptor < 0) return unwritable(errno);
    staged_.push_back({temporary, target.string(), known(before), known(content)});
    // A stranger's file in a shared folder becomes ours; its group and mode are kept where we may.
    if (::fchown(descriptor, info.st_uid, info.st_gid) != 0 &&
        ::fchown(descriptor, static_cast<uid_t>(-1), info.st_gid) != 0)
        errno = 0;
    int failed = ::fchmod(descriptor, info.st_mode & 07777) == 0 ? 0 : errno;
    if (failed == 0) failed = write_all(descriptor, content);
    if (::close(descriptor) != 0 && failed == 0) failed = errno;
    if (failed != 0) return unwritable(failed);
    return std::nullopt;
}

/// The two files change places at one stroke, so that whatever was saved until then comes out and
/// can be looked at.
std::optional<FileFault> Replacement::put_in_place(Staged& one) {
    const char* const fresh = one.temporary.c_str();
    const char* const target = one.target.c_str();
    if (::renameat2(AT_FDCWD, fresh, AT_FDCWD, target, RENAME_EXCHANGE) == 0) {
        if (!is_being_written(one.temporary) && is_still(one.temporary, one.before)) {
            ::unlink(fresh);
            return std::nullopt;
        }
        if (::renameat2(AT_FDCWD, fresh, AT_FDCWD, target, RENAME_EXCHANGE) != 0)
            return unwritable(errno);
        // Somebody may have saved over ours in that moment: then both stay.
        if (!is_still(one.temporary, one.after)) one.temporary.clear();
        return changed_meanwhile();
    }
    if (errno == ENOENT) return changed_meanwhile(); // it was taken away
    if (errno != EINVAL && errno != ENOSYS && errno != ENOTSUP) return unwritable(errno);
    // A file system that cannot do it: look as late as possible.
    if (is_being_written(one.target) || !is_still(one.target, one.before))
        return changed_meanwhile();
    if (::rename(fresh, target) != 0) return unwritable(errno);
    return std::nullopt;
}

std::optional<FileFault> Replacement::commit(std::size_t& done) {
    done = 0;
    for (Staged& one : staged_) {
        if (auto fault = put_in_place(one)) {
            staged_.erase(staged_.begin(), staged_.begin() + static_cast<std::ptrdiff_t>(done));
            return fault;
        }
        sync_folder_of(one.target);
        ++done;
    }
    staged_.clear();
    return std::nullopt;
}

std::optional<FileFault> create_file(const std::string& path, std::string_view content,
                                     unsigned mode) {
    struct stat there {};
    if (::lstat(path.c_str(), &there) == 0) return already_there();
    const std::string temporary = path + ".new-" + std::to_string(::getpid());
    const int descriptor = ::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode);
    if (descriptor < 0) return unwritable(errno);
    int failed = write_all(descriptor, content);
    if (::close(descriptor) != 0 && failed == 0) failed = errno;
    // A second name is refused where there is a file already, whoever made it and when.
    if (failed == 0 && ::link(temporary.c_str(), path.c_str()) != 0) failed = errno;
    ::unlink(temporary.c_str());
    if (failed == EEXIST) return already_there();
    if (failed != 0) return unwritable(failed);
    sync_folder_of(path);
    return std::nullopt;
}

namespace {

/// No page that Jarful makes comes near it.
constexpr std::size_t largest_made = 64U * 1024 * 1024;

/// Why a file that is there is not replaced; nothing if it is.
std::optional<FileFault> why_left(std::string_view there, const MadeFile& file) {
    const std::string or_force = "Give the new one another name, or replace this one with --force.";
    if (there.empty() || there == file.content) return std::nullopt;
    const render::Mark mark = render::mark_in(there);
    switch (mark.state) {
    case render::Mark::State::none:
        return FileFault{"file-exists",
                         "There is a file already that Jarful did not make, and it is left as it "
                         "is.",
                         or_force};
    case render::Mark::State::changed:
        return FileFault{"file-changed",
                         "Somebody has changed this file since Jarful made it, and it is left as "
                         "it is.",
                         or_force};
    case render::Mark::State::sound:
        break;
    }
    if (mark.what == file.what) return std::nullopt;
    return FileFault{"file-of-another-sort",
                     "There is a " + mark.what + " already, and a " + file.what +
                         " does not take its place.",
                     or_force};
}

} // namespace

std::optional<UnwrittenFile> put_files(const std::vector<MadeFile>& files, bool force) {
    Replacement replacement;
    std::vector<const MadeFile*> fresh;
    std::vector<const MadeFile*> staged;
    for (const MadeFile& file : files) {
        if (!is_file(file.path)) {
            fresh.push_back(&file);
            continue;
        }
        const auto there = whole_file(file.path, largest_made);
        if (!there) return UnwrittenFile{file.path, already_there()};
        if (!force) {
            if (auto fault = why_left(*there, file)) return UnwrittenFile{file.path, *fault};
        }
        if (*there == file.content) continue;
        if (auto fault = replacement.stage(file.path, *there, file.content))
            return UnwrittenFile{file.path, *fault};
        staged.push_back(&file);
    }
    for (const MadeFile* file : fresh) {
        if (auto fault = create_file(file->path, file->content))
            return UnwrittenFile{file->path, *fault};
    }
    std::size_t done = 0;
    if (auto fault = replacement.commit(done)) return UnwrittenFile{staged[done]->path, *fault};
    return std::nullopt;
}

std::string unwritten_words(std::string_view what, const UnwrittenFile& file) {
    const FileFault& fault = file.fault;
    return std::string(what) + " was not written to \"" + file.path + "\". " + fault.message +
           (fault.advice.empty() ? "" : " " + fault.advice) + " [" + fault.code + "]";
}

} // namespace jarful::cli
