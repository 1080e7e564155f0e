#include "cli/qr_code.hpp"

#if __has_include(<qrencode.h>)
#include <cstring>
#include <dlfcn.h>
#include <qrencode.h>
#define JARFUL_HAS_QRENCODE 1
#else
#define JARFUL_HAS_QRENCODE 0
#endif

namespace jarful::cli {

#if JARFUL_HAS_QRENCODE

namespace {

/// The functions that are used, found when the program runs.
struct Library {
    decltype(&::QRcode_encodeString8bit) encode = nullptr;
    decltype(&::QRcode_free) free = nullptr;

    bool load() {
        void* handle = ::dlopen("libqrencode.so.4", RTLD_NOW | RTLD_LOCAL);
        if (handle == nullptr) return false;
        const auto find = [&](auto& function, const char* name) {
            void* address = ::dlsym(handle, name);
            // POSIX lets a function's address be kept in a void*; the language has no cast for it.
            static_assert(sizeof function == sizeof address);
            std::memcpy(&function, &address, sizeof address);
            return address != nullptr;
        };
        return find(encode, "QRcode_encodeString8bit") && find(free, "QRcode_free");
    }
};

} // namespace

std::optional<render::SquareCode> qr_code(const std::string& text, std::string& why) {
    Library library;
    if (!library.load()) {
        why =
            "The library that draws such codes is not installed (Debian's package: libqrencode4).";
        return std::nullopt;
    }
    QRcode* found = library.encode(text.c_str(), 0, QR_ECLEVEL_M);
    if (found == nullptr) {
        why = "The address is too long for a code: it takes about 2300 letters.";
        return std::nullopt;
    }
    render::SquareCode code;
    code.width = static_cast<std::size_t>(found->width);
    const std::size_t squares = code.width * code.width;
    code.dark.reserve(squares);
    // In each square's byte the lowest bit says whether it is dark.
    for (std::size_t i = 0; i < squares; ++i)
        code.dark.push_back((found->data[i] & 1U) != 0);
    library.free(found);
    return code;
}

#else

std::optional<render::SquareCode> qr_code(const std::string&, std::string& why) {
    why = "This program was built without the library that draws such codes (libqrencode).";
    return std::nullopt;
}

#endif

} // namespace jarful::cli
