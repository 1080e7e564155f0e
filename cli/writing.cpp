#include "cli/writing.hpp"

#include <cerrno>
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
        ::unlink(one.temporary.c_str());
}

std::optional<FileFault> Replacement::stage(const std::string& path, std::string_view content) {
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
    staged_.push_back({temporary, target.string()});
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

std::optional<FileFault> Replacement::commit(std::size_t& done) {
    done = 0;
    for (const Staged& one : staged_) {
        if (::rename(one.temporary.c_str(), one.target.c_str()) != 0) {
            const int failed = errno;
            staged_.erase(staged_.begin(), staged_.begin() + static_cast<std::ptrdiff_t>(done));
            return unwritable(failed);
        }
        sync_folder_of(one.target);
        ++done;
    }
    staged_.clear();
    return std::nullopt;
}

std::optional<FileFault> create_file(const std::string& path, std::string_view content) {
    struct stat there {};
    if (::lstat(path.c_str(), &there) == 0) return already_there();
    const std::string temporary = path + ".new-" + std::to_string(::getpid());
    const int descriptor = ::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
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

std::optional<FileFault> put_file(const std::string& path, std::string_view content,
                                  std::string_view beginning) {
    if (!is_file(path)) return create_file(path, content);
    const FileContent before = read_file(path);
    if (before.fault || (!before.bytes.empty() && !before.bytes.starts_with(beginning)))
        return FileFault{"file-exists",
                         "There is a file of another sort already, and it is left as it is.",
                         "Give the new one another name with `-o FILE`."};
    Replacement replacement;
    std::size_t done = 0;
    if (auto fault = replacement.stage(path, content)) return fault;
    return replacement.commit(done);
}

} // namespace jarful::cli
