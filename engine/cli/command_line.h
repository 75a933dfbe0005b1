#pragma once
// The program's one entry: finds the command and runs it.

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace plumbline::cli {

/// What the program ends with.
inline constexpr int kDone = 0;
/// Done, but a finding is tight or worse, or an element was not flyable as written.
inline constexpr int kDoneWithFindings = 1;
/// Bad input; nothing was written.
inline constexpr int kBadInput = 2;

/// What follows a command's name.
using Arguments = std::vector<std::string>;

/// One word of `plumbline WORD ...`.
struct Command {
    std::string_view name;
    std::string_view summary;  ///< one line of the program's help
    int (*run)(const Arguments& arguments);
};

/// Runs `solve`, `check`, `import` or one of `more` (the commands that draw, from a build that has
/// the viewer); help and version too. Without `more`, `show` and `picture` say that this program
/// was built without the viewer.
/// @param words  the command line in UTF-8, the program's name first
/// @return the exit code
int runCommandLine(const std::vector<std::string>& words, std::span<const Command> more);

}  // namespace plumbline::cli
