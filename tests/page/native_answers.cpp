#include "engine/page/answer.hpp"

#include <iostream>
#include <string>

/// Answers questions natively, for a comparison with the engine in WebAssembly. A line in is `load`
/// or `answer`, a blank, and one question as JSON; out comes the number of bytes of the answer on a
/// line, and the answer.
int main() {
    std::ios::sync_with_stdio(false);
    jarful::page::Session session;
    for (std::string line; std::getline(std::cin, line);) {
        const std::size_t blank = line.find(' ');
        const std::string json = line.substr(blank + 1);
        const std::string answer =
            line.substr(0, blank) == "load" ? session.load(json) : session.answer(json);
        std::cout << answer.size() << '\n' << answer;
    }
    return 0;
}
