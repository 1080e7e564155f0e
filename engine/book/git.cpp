#include "engine/book/git.hpp"

#include <dlfcn.h>

namespace jarful::book {

namespace {

/// The library, or nothing; it stays loaded until the program ends.
std::unique_ptr<Git> load() {
    void* file = ::dlopen(git_library_file, RTLD_NOW | RTLD_LOCAL);
    if (file == nullptr) return nullptr;
    auto git = std::make_unique<Git>();
    bool whole = true;
    const auto find = [&](auto& function, const char* name) {
        // NOLINTNEXTLINE(*-reinterpret-cast): this is how dlsym gives out functions
        function =
            reinterpret_cast<std::remove_reference_t<decltype(function)>>(::dlsym(file, name));
        whole = whole && function != nullptr;
    };
#define JARFUL_GIT_FIND(name) find(git->name, "git_" #name);
    JARFUL_GIT_FUNCTIONS(JARFUL_GIT_FIND)
#undef JARFUL_GIT_FIND
    if (!whole || git->libgit2_init() < 0) return nullptr;
    return git;
}

} // namespace

const Git* git_library() {
    static const std::unique_ptr<Git> git = load();
    return git.get();
}

} // namespace jarful::book
