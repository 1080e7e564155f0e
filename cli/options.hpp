#pragma once

#include "cli/command.hpp"
#include "engine/larder/convert.hpp"
#include "engine/plan/read_request.hpp"
#include "engine/render/page.hpp"

#include <memory>
#include <optional>
#include <string>
#include <vector>

/// Reading a command's options. The library that does it is known to options.cpp alone: its header
/// is the slowest of all to compile.
namespace jarful::cli {

/// Options that several commands have.
inline constexpr Flag kitchen_flag{
    "--kitchen", "FILE",
    "the kitchen to use, instead of the kitchen.jarful beside the recipe or in a folder above it"};
inline constexpr Flag this_kitchen_flag{"--kitchen", "FILE",
                                        "the kitchen to use, instead of the kitchen.jarful in this "
                                        "folder or in a folder above it"};
inline constexpr Flag full_flag{"--full", "",
                                "everything that is known, and not only what fits on a screen"};
inline constexpr Flag json_flag{"--json", "", "the result as JSON, described by `jarful schema`"};
inline constexpr Flag units_flag{"--units", "metric|us|both",
                                 "how to print weights, volumes and temperatures; as the "
                                 "kitchen says, else metric"};
inline constexpr Flag without_flag{"--without", "NAME",
                                   "leave out an optional line; may be given again"};
inline constexpr Flag yes_flag{"--yes", "",
                               "a measured weight that is doubted is meant so; the verdict goes by "
                               "it"};
inline constexpr Flag spoons_flag{"--spoons", "SYSTEM",
                                  "us, metric, imperial or label; otherwise the kitchen's, "
                                  "otherwise US ones with the figures reaching to the metric ones"};

using plan::RequestWords;

/// Says what is wrong with the words of a command and where its help is.
/// @return the status of a command that was not done.
int usage_fault(const std::string& sentence, const Command& command);

/// "A word that is not understood here", as `usage_fault`.
int stray_word(const std::string& word, const Command& command);

[[nodiscard]] std::string in_quotes(std::string_view text);

/// The words with a blank between each two.
[[nodiscard]] std::string joined(const std::vector<std::string>& words);

/// What follows a recipe's name: settings, and `without NAME`.
/// @return a status if the words were not understood, which has then been said.
[[nodiscard]] std::optional<int> read_words(const std::vector<std::string>& words,
                                            const Command& command, std::string& recipe,
                                            RequestWords& request);

/// One command's options: what they set is named first, then `parse` sets it, and says in our
/// words what is wrong. Every option has to be among the command's flags.
class Options {
  public:
    explicit Options(const Command& command);
    ~Options();
    Options(const Options&) = delete;
    Options& operator=(const Options&) = delete;

    void flag(const char* name, bool& value);
    void text(const char* name, std::optional<std::string>& value);
    /// May be given again.
    void texts(const char* name, std::vector<std::string>& values);
    void units(std::optional<render::Units>& value);     ///< --units
    void spoons(std::optional<larder::Measures>& value); ///< --spoons
    /// Whatever is no option.
    void words(std::vector<std::string>& values);
    /// What is no option as a recipe's name and what `read_words` takes; and --without and --yes.
    void recipe(std::string& name, RequestWords& request);

    /// @return a status if the words were not understood, which has then been said.
    [[nodiscard]] std::optional<int> parse(std::vector<std::string> words);

  private:
    struct Reader;
    std::unique_ptr<Reader> reader_;
};

} // namespace jarful::cli
