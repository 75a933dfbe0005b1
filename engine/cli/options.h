#pragma once
// What the commands' options have in common. Includes CLI11: for .cc files only.

#include <optional>
#include <string>

#include <CLI/CLI.hpp>

#include "engine/base/problem.h"
#include "engine/cli/command_line.h"
#include "engine/load/load.h"
#include "engine/units/quantity.h"

namespace plumbline::cli {

/// An option parser named "plumbline COMMAND" with a description and an example below its help.
class OptionParser {
public:
    OptionParser(const std::string& command, const std::string& description,
                 const std::string& example);

    CLI::App& app() { return app_; }

    /// Reads the arguments into what was bound to app().
    /// @return the exit code when the command is done with that: help was shown, or the arguments
    ///   are wrong, which was said on stderr
    std::optional<int> parse(const Arguments& arguments);

private:
    CLI::App app_;
};

/// ROUTINE and what may replace parts of it.
struct RoutineOptions {
    std::string routine;
    load::Overrides overrides;
};
void addRoutineOptions(CLI::App& app, RoutineOptions& options);

/// `--units aviation|metric`, aviation at first.
void addUnitsOption(CLI::App& app, units::DisplayUnits& units);

/// The routine of the options; "demo" is the built-in one unless there is a file of that name.
Expected<load::Workspace, Problems> loadRoutine(const RoutineOptions& options);

/// Prints problems on stderr, at most so many and how many more there are.
void printProblems(const Problems& problems);

/// Prints problems and returns kBadInput.
int refuse(const Problems& problems);
int refuse(const std::string& file, const std::string& what, const std::string& remedy);

/// Writes a result whole; "-" is stdout.
/// @return kDone, or kBadInput after saying why not on stderr
int writeResult(const std::string& file, std::string_view bytes);

/// Refuses an output that is one of the inputs.
/// @return kDone when it is none
int refuseOverwriting(const std::string& output, const std::vector<std::string>& inputs);

/// A number of rows a second: "100", "100 Hz", "100/s".
/// @errors none, or not within 1..10000
Expected<double, Problems> parseRate(const std::string& text);

}  // namespace plumbline::cli
