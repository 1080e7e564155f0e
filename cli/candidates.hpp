#pragma once

#include <string>
#include <vector>

/// What the word that is being typed in a shell may become. All of it comes from the commands' own
/// entries, from the book, and from the recipe that was named; nothing is said about faults.
namespace jarful::cli {

struct Candidate {
    std::string word;
    std::string about; ///< a few words; may be empty
};

struct Candidates {
    std::vector<Candidate> words;
    bool files = false; ///< files and folders do as well; the shell knows how to complete those
};

/// @param words what follows the program's name, up to the word being typed, which may be empty.
[[nodiscard]] Candidates candidates(const std::vector<std::string>& words);

} // namespace jarful::cli
