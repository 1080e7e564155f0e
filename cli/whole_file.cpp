#include "cli/whole_file.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace jarful::cli {

int read_all(int descriptor, bool ordinary, std::size_t enough, std::string& bytes) {
    std::array<char, 8 * 1024> block; // NOLINT: not cleared, which would cost more than the reading
    while (bytes.size() < enough) {
        const std::size_t wanted = std::min(block.size(), enough - bytes.size());
        const ssize_t n = ::read(descriptor, block.data(), wanted);
        if (n < 0 && errno == EINTR) continue;
        if (n < 0) return errno;
        bytes.append(block.data(), static_cast<std::size_t>(n));
        if (n == 0 || (ordinary && static_cast<std::size_t>(n) < wanted)) break;
    }
    return 0;
}

Opened::~Opened() {
    if (descriptor_ > STDIN_FILENO) ::close(descriptor_);
}

std::optional<std::string> whole_file(const std::string& path, std::size_t most, Links links) {
    const int follow = links == Links::refused ? O_NOFOLLOW : 0;
    // A pipe without a writer would keep an ordinary open waiting.
    const Opened file(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC | follow));
    struct stat info {};
    if (file.get() < 0 || ::fstat(file.get(), &info) != 0 || !S_ISREG(info.st_mode))
        return std::nullopt;
    std::string out;
    if (read_all(file.get(), true, most + 1, out) != 0 || out.size() > most) return std::nullopt;
    return out;
}

} // namespace jarful::cli
