#include "engine/jarful.hpp"

#include <fstream>
#include <iostream>
#include <sstream>

/// `answers weigh FOLDER NAME WORD…`, `check FOLDER NAME`, `appraise FILE WORD…`, `convert FOLDER
/// WORDS`: the JSON that the library makes of it, with `text` in front the text, and the command's
/// exit status.
namespace {

std::string contents(const std::string& path) {
    std::ostringstream out;
    out << std::ifstream(path, std::ios::binary).rdbuf();
    return out.str();
}

bool as_text = false;

template <class Data>
int say(const jarful::library::Answer<Data>& answer) {
    for (const jarful::library::Finding& found : answer.findings)
        std::cerr << found.where << ": " << found.message << ' ' << found.advice << '\n';
    if (answer.data)
        std::cout << (as_text ? jarful::library::text(*answer.data)
                              : jarful::library::json(*answer.data));
    return answer.status;
}

} // namespace

int main(int argc, char** argv) {
    std::vector<std::string> words(argv + 1, argv + argc);
    as_text = words.at(0) == "text";
    if (as_text) words.erase(words.begin());
    const std::string &command = words.at(0), &place = words.at(1);
    const std::vector<std::string> rest(words.begin() + 2, words.end());
    if (command == "appraise")
        return say(jarful::library::appraise(contents(place), {.weighs = rest}));
    jarful::library::Texts texts{.recipe = "", .kitchen = contents(place + "/kitchen.jarful")};
    if (command == "convert") return say(jarful::library::convert(rest.at(0), texts));
    texts.name = rest.at(0) + ".jarful";
    texts.recipe = contents(place + '/' + texts.name);
    texts.bases = {{"carrot-sticks", contents(place + "/carrot-sticks.jarful")}};
    if (command == "check") return say(jarful::library::check(texts));
    return say(jarful::library::weigh(texts, {.settings = {rest.begin() + 1, rest.end()}}));
}
