/// Commands that messages suggest: what a shell makes of them, and that one function writes them
/// all.

#include "engine/language/command_line.hpp"

#include <gmock/gmock.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <random>
#include <regex>
#include <sstream>

namespace jarful::language {

namespace {

namespace fs = std::filesystem;
using ::testing::IsEmpty;

TEST(CommandLine, leavesPlainWordsAsTheyAre) {
    EXPECT_EQ(command_line({"jarful", "weigh", "winter-kraut", "cabbage=1.84kg", "--poured"}),
              "jarful weigh winter-kraut cabbage=1.84kg --poured");
    EXPECT_EQ(command_line({"jarful", "check", "böhnchen/é.jarful"}),
              "jarful check böhnchen/é.jarful");
    EXPECT_EQ(command_line({"jarful", "check", ""}), "jarful check ''");
    EXPECT_EQ(command_line({"a", "two words", "it's"}), "a 'two words' 'it'\\''s'");
    EXPECT_EQ(command_line({"a", "$(touch x)", "`x`", "~", "*"}), "a '$(touch x)' '`x`' '~' '*'");
    EXPECT_EQ(command_line({"a", "b\nc", "\xff", "\x1b[31m", "\xe2\x80\xae"}),
              "a $'b\\012c' $'\\377' $'\\033[31m' $'\\342\\200\\256'");
    EXPECT_EQ(path_word("-rf.jarful"), "./-rf.jarful");
    EXPECT_EQ(path_word("a/-b"), "a/-b");
    EXPECT_EQ(path_word("-"), "-");
}

/// What a shell hands to a program for a command.
std::vector<std::string> words_of(const std::string& command) {
    const std::string line = "printf '%s\\0' " + command;
    std::string script = (fs::temp_directory_path() / "jarful-command-XXXXXX").string();
    const int made = ::mkstemp(script.data());
    EXPECT_GE(made, 0);
    std::ofstream(script, std::ios::binary) << line << "\n";
    std::FILE* const pipe = ::popen(("bash '" + script + "' 2>&1").c_str(), "r");
    std::string all;
    std::array<char, 4096> block{};
    while (const std::size_t n = std::fread(block.data(), 1, block.size(), pipe))
        all.append(block.data(), n);
    EXPECT_EQ(::pclose(pipe), 0) << command;
    fs::remove(script);
    std::vector<std::string> out;
    for (std::size_t at = 0; at < all.size();) {
        const std::size_t end = all.find('\0', at);
        out.push_back(all.substr(at, end - at));
        at = end + 1;
    }
    return out;
}

TEST(CommandLine, everyWordComesThroughAShellAsItIs) {
    constexpr std::string_view signs = " '\"\\$`!*?[]{}()<>|&;#~^\t\n-=,%ab";
    std::mt19937 random(20261130); // NOLINT: the same words each time
    std::vector<std::string> words;
    for (int i = 0; i < 400; ++i) {
        std::string word;
        for (std::size_t letters = random() % 12; letters > 0; --letters)
            word += random() % 4 == 0 ? static_cast<char>(1 + random() % 255)
                                      : signs[random() % signs.size()];
        words.push_back(word);
    }
    words.insert(words.end(), {"é", "\xe2\x80\xaeturned", "$(exit 3)", "'", "\\", "a\\'\nb"});
    EXPECT_EQ(words_of(command_line(words)), words);
}

// ---- The sources ----

/// A string literal, with those that are joined to it, and the sign that follows it.
struct Literal {
    std::string text;
    char follower = 0;
    std::size_t line = 0;
};

std::vector<Literal> literals_of(const std::string& code) {
    std::vector<Literal> out;
    std::size_t line = 1;
    bool joined = false;
    for (std::size_t i = 0; i < code.size(); ++i) {
        const char c = code[i];
        if (c == '\n') ++line;
        if (code.compare(i, 2, "//") == 0) {
            i = code.find('\n', i) - 1;
        } else if (code.compare(i, 2, "R\"") == 0) { // a script or a page, whole
            const std::string end = ")" + code.substr(i + 2, code.find('(', i) - i - 2) + "\"";
            const std::size_t stop = code.find(end, i);
            line += static_cast<std::size_t>(
                std::count(code.begin() + static_cast<std::ptrdiff_t>(i),
                           code.begin() + static_cast<std::ptrdiff_t>(stop), '\n'));
            i = stop + end.size() - 1;
        } else if (c == '\'' && i + 2 < code.size() &&
                   (code[i + 1] == '\\' || code[i + 2] == '\'')) {
            i = code.find('\'', i + 2);
        } else if (c == '"') {
            if (!joined) out.push_back({"", 0, line});
            for (++i; code[i] != '"'; ++i) {
                if (code[i] == '\\') ++i;
                out.back().text += code[i];
            }
            joined = true;
        } else if (std::isspace(static_cast<unsigned char>(c)) == 0) {
            if (joined) out.back().follower = c;
            joined = false;
        }
    }
    return out;
}

/// Whether a literal begins a command and leaves a word of it to something else.
bool is_half_a_command(const Literal& literal) {
    static const std::regex begins(
        "(^|[ `(:])(jarful (--|appraise|batch|book|brine|card|chart|check|compare|convert|counter|"
        "help|jars|mend|new|page|ranges|salts|tend|tidy|today|trace|weigh)|"
        "git (add|clone|commit|config|diff|fetch|fsck|init|log|mv|rm|show|status)|"
        "(chmod|cp|mv|rm|apt-get) )");
    const std::string& text = literal.text;
    for (std::sregex_iterator it(text.begin(), text.end(), begins), end; it != end; ++it) {
        const auto from = static_cast<std::size_t>(it->position()) + 1;
        const std::size_t stop = text.find_first_of("`.;\n", from);
        if (text.substr(from, stop - from).find('{') != std::string::npos) return true;
        if (stop == std::string::npos && literal.follower == '+') return true;
    }
    // "`jarful " + name
    return literal.follower == '+' && (text.ends_with("`jarful ") || text.ends_with("`git "));
}

std::string read(const fs::path& file) {
    std::ostringstream all;
    all << std::ifstream(file).rdbuf();
    return all.str();
}

TEST(CommandLine, oneFunctionWritesEveryCommandThatHasAnotherWordInIt) {
    std::vector<std::string> found;
    std::size_t files = 0;
    for (const char* folder : {"engine", "cli"}) {
        for (const auto& entry :
             fs::recursive_directory_iterator(fs::path(JARFUL_SOURCE_DIR) / folder)) {
            if (entry.path().extension() != ".cpp" && entry.path().extension() != ".hpp") continue;
            ++files;
            for (const Literal& literal : literals_of(read(entry.path()))) {
                if (is_half_a_command(literal))
                    found.push_back(entry.path().string() + ":" + std::to_string(literal.line) +
                                    ": " + literal.text);
            }
        }
    }
    EXPECT_GT(files, 300U);
    EXPECT_THAT(found, IsEmpty()) << "write it with language::command_line";
}

TEST(CommandLine, aCommandThatIsPutTogetherOtherwiseIsFound) {
    for (const char* code :
         {"x = \"Ask `jarful check \" + path + \"`.\";", "fmt::format(\"`jarful ranges {}`\", k)",
          "\"Do: \"\n   \"git config --add \" + folder", "\"`jarful \" + name + \"`\""}) {
        const auto literals = literals_of(code);
        EXPECT_TRUE(std::any_of(literals.begin(), literals.end(), is_half_a_command)) << code;
    }
    for (const char* code : {"\"`jarful check` looks at \" + path", "// `jarful check \" + path",
                             "\"The git repository of \" + folder", "'\"', \"jarful\" + '\\''"}) {
        const auto literals = literals_of(code);
        EXPECT_FALSE(std::any_of(literals.begin(), literals.end(), is_half_a_command)) << code;
    }
}

} // namespace

} // namespace jarful::language
