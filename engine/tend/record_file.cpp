#include "engine/tend/record_file.hpp"

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

namespace jarful::tend {

namespace {

std::string because(int error) {
    return std::string(std::strerror(error)) + ".";
}

/// A descriptor, closed in the end; that lets its lock go too.
class Opened {
  public:
    explicit Opened(int descriptor)
        : descriptor_(descriptor) {}
    ~Opened() {
        if (descriptor_ >= 0) ::close(descriptor_);
    }
    Opened(const Opened&) = delete;
    Opened& operator=(const Opened&) = delete;
    [[nodiscard]] int get() const { return descriptor_; }

  private:
    int descriptor_;
};

bool write_whole(int descriptor, std::string_view text) {
    while (!text.empty()) {
        const ssize_t n = ::write(descriptor, text.data(), text.size());
        if (n < 0 && errno == EINTR) continue;
        if (n < 0) return false;
        text.remove_prefix(static_cast<std::size_t>(n));
    }
    return true;
}

void sync_folder_of(const std::string& path) {
    const std::string folder = std::filesystem::path(path).parent_path().string();
    const Opened opened(
        ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (opened.get() >= 0) static_cast<void>(::fsync(opened.get()));
}

bool ends_with_line_break(int descriptor, off_t size) {
    char last = '\n';
    return size == 0 || ::pread(descriptor, &last, 1, size - 1) != 1 || last == '\n';
}

} // namespace

std::optional<std::string> begin_record(const std::string& path, std::string_view text,
                                        bool& exists) {
    exists = false;
    const std::filesystem::path target(path);
    std::string temporary =
        (target.parent_path() / ("." + target.filename().string() + ".XXXXXX")).string();
    std::string fault;
    {
        const Opened file(::mkostemp(temporary.data(), O_CLOEXEC));
        if (file.get() < 0) return because(errno);
        const mode_t mask = ::umask(0);
        ::umask(mask);
        if (!write_whole(file.get(), text) || ::fchmod(file.get(), 0666 & ~mask) != 0 ||
            ::fsync(file.get()) != 0)
            fault = because(errno);
    }
    // A link is refused where there is a file already, whoever made it and when.
    if (fault.empty() && ::link(temporary.c_str(), path.c_str()) != 0) {
        exists = errno == EEXIST;
        fault = because(errno);
    }
    ::unlink(temporary.c_str());
    if (!fault.empty()) return fault;
    sync_folder_of(path);
    return std::nullopt;
}

std::optional<std::string> add_to_record(const std::string& path, std::string_view lines) {
    const Opened file(::open(path.c_str(), O_RDWR | O_APPEND | O_CLOEXEC));
    if (file.get() < 0) return because(errno);
    while (::flock(file.get(), LOCK_EX) != 0) {
        if (errno != EINTR) return because(errno);
    }
    struct stat before {};
    if (::fstat(file.get(), &before) != 0) return because(errno);
    std::string text;
    if (!ends_with_line_break(file.get(), before.st_size)) text = "\n";
    text += lines;
    if (write_whole(file.get(), text) && ::fsync(file.get()) == 0) return std::nullopt;
    // What of it has got there is taken back, so that the record stays as it was; to make a file
    // shorter needs no room. Others wait for the lock and have added nothing meanwhile.
    std::string fault = because(errno);
    if (::ftruncate(file.get(), before.st_size) == 0) static_cast<void>(::fsync(file.get()));
    return fault;
}

} // namespace jarful::tend
