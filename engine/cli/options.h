#pragma once
// What the commands' options have in common. Includes CLI11: for .cc files only.

#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include <CLI/CLI.hpp>

#include "engine/base/problem.h"
#include "engine/cli/command_line.h"
#include "engine/load/load.h"
#include "engine/units/quantity.h"
#include "engine/variant/variant.h"

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

/// How else a routine may be flown than its file says; texts as given.
struct VariantOptions {
    load::Overrides overrides;
    std::optional<std::string> show, ceiling, floor;
    bool mirror = false;
};
void addVariantOptions(CLI::App& app, VariantOptions& options);

/// @errors a height that is none or makes no sense, named by its option
Expected<variant::Wish, Problems> readVariant(const VariantOptions& options,
                                              units::DisplayUnits units);

/// ROUTINE and how to fly it.
struct RoutineOptions {
    std::string routine;
    VariantOptions variant;
};
void addRoutineOptions(CLI::App& app, RoutineOptions& options);

/// `--units aviation|metric|feet`, aviation at first.
void addUnitsOption(CLI::App& app, units::DisplayUnits& units);

/// "demo" is the built-in one unless there is a file of that name.
bool isDemo(const RoutineOptions& options);

/// What a routine needs, read; "demo" as above.
Expected<load::Workspace, Problems> loadRoutine(const RoutineOptions& options);

/// The routine of the options, flown.
/// @param units  of what is said of it
Expected<variant::Flown, Problems> flyRoutine(const RoutineOptions& options,
                                              units::DisplayUnits units);

/// Says on stderr what was chosen, left out and replaced.
void printRemarks(const std::string& routine, const std::vector<std::string>& remarks);

/// Prints problems on stderr, at most so many and how many more there are.
void printProblems(const Problems& problems);

/// Prints problems and returns kBadInput.
int refuse(const Problems& problems);
int refuse(const std::string& file, const std::string& what, const std::string& remedy);

/// Writes a result whole; "-" is stdout.
/// @return kDone, or kBadInput after saying why not on stderr
int writeResult(const std::string& file, std::string_view bytes);
/// The same of what comes in pieces, the last one empty.
int writeResult(const std::string& file, const std::function<std::string_view()>& next);

/// Refuses an output that is one of the inputs.
/// @return kDone when it is none
int refuseOverwriting(const std::string& output, const std::vector<std::string>& inputs);

/// A number of rows a second: "100", "100 Hz", "100/s".
/// @errors none, or not within 1..10000
Expected<double, Problems> parseRate(const std::string& text);

}  // namespace plumbline::cli
