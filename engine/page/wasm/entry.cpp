#include "engine/page/answer.hpp"

#include <cstdlib>
#include <cstring>
#include <exception>

/// The engine's three doors in WebAssembly. Texts are UTF-8 and end with a NUL.

namespace {

jarful::page::Session& session() {
    static jarful::page::Session the_one;
    return the_one;
}

char* copied(const std::string& text) {
    char* out = static_cast<char*>(std::malloc(text.size() + 1));
    if (out != nullptr) std::memcpy(out, text.c_str(), text.size() + 1);
    return out;
}

} // namespace

extern "C" {

/// Room for a text of so many bytes, which the caller fills. nullptr if there is none.
char* jarful_room(std::size_t bytes) {
    return static_cast<char*>(std::malloc(bytes));
}
void jarful_free(char* text) {
    std::free(text);
}
/// Session::load and Session::answer; the result is freed by the caller. nullptr if memory is
/// short.
char* jarful_load(const char* json) {
    try {
        return copied(session().load(json));
    } catch (const std::exception&) {
        return nullptr;
    }
}
char* jarful_answer(const char* json) {
    try {
        return copied(session().answer(json));
    } catch (const std::exception&) {
        return nullptr;
    }
}
}
