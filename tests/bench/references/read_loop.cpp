#include <cstdio>
#include <fcntl.h>
#include <filesystem>
#include <unistd.h>

// Opens, reads and closes every .jarful file below a folder: what any program that looks at all of
// them has to do at least.
int main(int argc, char** argv) {
    if (argc < 2) return 2;
    static char buffer[1 << 16];
    unsigned long sum = 0;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(argv[1])) {
        if (entry.path().extension() != ".jarful") continue;
        const int file = ::open(entry.path().c_str(), O_RDONLY);
        if (file < 0) return 2;
        ssize_t n = 0;
        while ((n = ::read(file, buffer, sizeof buffer)) > 0)
            sum += static_cast<unsigned long>(n);
        ::close(file);
    }
    std::printf("%lu\n", sum);
}
