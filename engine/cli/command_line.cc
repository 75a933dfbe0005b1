#include "engine/cli/command_line.h"

#include <array>
#include <cstdio>

#include "engine/base/nearest_word.h"
#include "engine/cli/commands.h"

namespace plumbline::cli {

namespace {

constexpr std::array kCommands = {
    Command{"solve", "figure text to a path: ROUTINE -o path.csv", runSolve},
    Command{"check", "a routine against its site, aircraft, fuel and slot", runCheck},
    Command{"margins", "a routine flown imperfectly many times: chances, heights, cue times",
            runMargins},
    Command{"import", "a recording (CSV, IGC, GPX) to a path: LOG... -o sortie.csv", runImport},
    Command{"walk", "a routine called out, to be walked with the hands: ROUTINE -o walk.wav",
            runWalk},
    Command{"review", "a flight against its plan: LOG... --plan ROUTINE", runReview},
    Command{"export", "to open formats: FILE -o a.glb, .kml, .gpx or .csv", runExport},
#if !defined(__EMSCRIPTEN__)  // a browser's engine prints no paper and keeps no book
    Command{"brief", "sheets for pilot, narrator and display director: ROUTINE -o DIR", runBrief},
    Command{"sighting", "a 1:1 sheet for the wing-tip sighting frame: ROUTINE -o frame.pdf",
            runSighting},
    Command{"season", "the book of sorties: add, list, remarks, trends, currency, loads",
            runSeason},
#endif
};
/// What only a build with the viewer can do.
constexpr std::array<std::string_view, 3> kDrawing = {"show", "picture", "film"};

void printHelp(std::FILE* to, std::span<const Command> more) {
    std::fputs(
        "plumbline: plan, preview and check a low-level solo aerobatic display, and look at a "
        "flight\n"
        "\nUsage: plumbline COMMAND ...\n\n",
        to);
    const auto print = [to](const Command& command) {
        std::fprintf(to, "  %-9.*s %.*s\n", static_cast<int>(command.name.size()),
                     command.name.data(), static_cast<int>(command.summary.size()),
                     command.summary.data());
    };
    for (const Command& command : more) print(command);
    for (const Command& command : kCommands) print(command);
    std::fputs(
        "\nEach has --help, with an example. ROUTINE is a *.routine.toml, or demo for the built-in "
        "one.\nExit: 0 done; 1 done, with something to look at; 2 bad input, nothing written.\n"
        "\nA planning and training aid with a simplified model, no approval to fly: limits come "
        "from the\naircraft's documents, the display authority and a licensed evaluator. Try "
        "everything high first.\n",
        to);
}

int refuseUnknown(const std::string& name, std::span<const Command> more) {
    for (const std::string_view drawing : kDrawing) {
        if (name != drawing) continue;
        std::fprintf(stderr,
                     "plumbline: this program was built without the viewer, which %s needs: build "
                     "it with -DPLUMBLINE_VIEWER=ON\n",
                     name.c_str());
        return kBadInput;
    }
    std::vector<std::string_view> names(kDrawing.begin(), kDrawing.end());
    for (const Command& command : more) names.push_back(command.name);
    for (const Command& command : kCommands) names.push_back(command.name);
    const std::string nearest(nearestWord(name, names));
    std::fprintf(
        stderr, "plumbline: there is no command \"%s\": %s\n", name.c_str(),
        nearest.empty() ? "see plumbline --help" : ("did you mean " + nearest + "?").c_str());
    return kBadInput;
}

}  // namespace

int runCommandLine(const std::vector<std::string>& words, std::span<const Command> more) {
    const Arguments all(words.begin() + (words.empty() ? 0 : 1), words.end());
    if (all.empty()) {
        printHelp(stderr, more);
        return kBadInput;
    }
    const std::string& name = all.front();
    if (name == "--help" || name == "-h" || name == "help") {
        printHelp(stdout, more);
        return kDone;
    }
    if (name == "--version") {
        std::puts("plumbline " PLUMBLINE_VERSION);
        return kDone;
    }
    const Arguments arguments(all.begin() + 1, all.end());
    for (const Command& command : more)
        if (command.name == name) return command.run(arguments);
    for (const Command& command : kCommands)
        if (command.name == name) return command.run(arguments);
    return refuseUnknown(name, more);
}

}  // namespace plumbline::cli
