#include "engine/cli/options.h"

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <utility>

#include "engine/base/number_text.h"
#include "engine/load/demo_name.h"
#include "engine/system/whole_file.h"

namespace plumbline::cli {

namespace {

// chosen: a screen of them; the first ones are the ones to mend.
constexpr std::size_t kMostProblems = 40;

/// CLI11's message as the first half of a problem.
std::string asClause(std::string message) {
    std::replace(message.begin(), message.end(), '\n', ' ');
    while (!message.empty() && (message.back() == ' ' || message.back() == '.')) message.pop_back();
    if (message.size() > 1 && message[0] >= 'A' && message[0] <= 'Z' && message[1] >= 'a')
        message[0] = static_cast<char>(message[0] - 'A' + 'a');
    return message;
}

Problem optionProblem(const char* option, std::string what, std::string remedy) {
    Problem problem;
    problem.where.file = option;
    problem.what = std::move(what);
    problem.remedy = std::move(remedy);
    return problem;
}

/// A height above show centre that an option gives.
std::optional<double> readHeight(const char* option, const std::string& text, Problems& problems) {
    // chosen: above, neither the engine's data nor anyone's practice reach.
    constexpr double kMost_m = 6000;
    const auto height_m = units::parseQuantity(text, units::Dimension::Length);
    if (!height_m) {
        problems.push_back(optionProblem(option, height_m.error().what, height_m.error().remedy));
        return std::nullopt;
    }
    if (*height_m > 0 && *height_m <= kMost_m) return *height_m;
    problems.push_back(optionProblem(option, "\"" + text + "\" is no height to fly at",
                                     "give a height above show centre, up to 6000 m"));
    return std::nullopt;
}

}  // namespace

OptionParser::OptionParser(const std::string& command, const std::string& description,
                           const std::string& example)
    : app_(description, "plumbline " + command) {
    app_.allow_windows_style_options(false);  // "/shows/a.routine.toml" is a file everywhere
    app_.footer("\nExample:\n  " + example);
}

std::optional<int> OptionParser::parse(const Arguments& arguments) {
    try {
        // CLI11 takes them from the back.
        std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());
        app_.parse(reversed);
    } catch (const CLI::CallForHelp&) {
        std::fputs(app_.help().c_str(), stdout);
        return kDone;
    } catch (const CLI::ParseError& error) {
        std::fprintf(stderr, "%s: %s: see %s --help\n", app_.get_name().c_str(),
                     asClause(error.what()).c_str(), app_.get_name().c_str());
        return kBadInput;
    }
    return std::nullopt;
}

void addVariantOptions(CLI::App& app, VariantOptions& options) {
    app.add_option("--show", options.show, "fly this show of the routine, by its name in the file")
        ->type_name("NAME");
    app.add_option("--ceiling", options.ceiling,
                   "fly the fullest show that stays below this height above show centre: 450m")
        ->type_name("V");
    app.add_option("--floor", options.floor,
                   "practise it high first: all of it raised until nothing is lower than this, in "
                   "the air up there: 600m")
        ->type_name("V");
    app.add_flag("--mirror", options.mirror, "left and right exchanged as the crowd sees them");
    app.add_option("--site", options.overrides.site_file, "fly it at this site (*.site.toml)")
        ->type_name("FILE");
    app.add_option("--weather", options.overrides.weather,
                   "in this weather: *.weather.toml or a METAR in quotes")
        ->type_name("FILE|METAR");
}

Expected<variant::Wish, Problems> readVariant(const VariantOptions& options,
                                              units::DisplayUnits units) {
    variant::Wish wish;
    wish.show = options.show;
    wish.mirror = options.mirror;
    wish.units = units;
    Problems problems;
    if (options.ceiling) wish.ceiling_m = readHeight("--ceiling", *options.ceiling, problems);
    if (options.floor) wish.floor_m = readHeight("--floor", *options.floor, problems);
    if (problems.empty() && wish.ceiling_m && wish.floor_m && *wish.ceiling_m <= *wish.floor_m)
        problems.push_back(optionProblem("--ceiling", "it is not above the floor",
                                         "give a ceiling above --floor, or one of them alone"));
    if (!problems.empty()) return Unexpected(std::move(problems));
    return wish;
}

void addRoutineOptions(CLI::App& app, RoutineOptions& options) {
    app.add_option("ROUTINE", options.routine,
                   "a *.routine.toml, or the word demo for the built-in one")
        ->required();
    addVariantOptions(app, options.variant);
}

void addUnitsOption(CLI::App& app, units::DisplayUnits& units) {
    app.add_option_function<std::string>(
           "--units",
           [&units](const std::string& name) {
               units = name == "metric" ? units::DisplayUnits::Metric
                       : name == "feet" ? units::DisplayUnits::Feet
                                        : units::DisplayUnits::Aviation;
           },
           "units of what is printed: aviation (m, kt), metric (m, km/h) or feet (ft, kt); default "
           "aviation")
        ->check(CLI::IsMember({"aviation", "metric", "feet"}))
        ->type_name("NAME");
}

bool isDemo(const RoutineOptions& options) { return load::meansDemo(options.routine); }

Expected<load::Workspace, Problems> loadRoutine(const RoutineOptions& options) {
    const load::Overrides& overrides = options.variant.overrides;
    return isDemo(options) ? load::loadDemo(overrides)
                           : load::loadWorkspace(options.routine, overrides);
}

Expected<variant::Flown, Problems> flyRoutine(const RoutineOptions& options,
                                              units::DisplayUnits units) {
    const Expected<variant::Wish, Problems> wish = readVariant(options.variant, units);
    if (!wish) return Unexpected(wish.error());
    Expected<load::Workspace, Problems> workspace = loadRoutine(options);
    if (!workspace) return Unexpected(std::move(workspace).error());
    return variant::fly(std::move(workspace).value(), *wish);
}

void printRemarks(const std::string& routine, const std::vector<std::string>& remarks) {
    for (const std::string& remark : remarks)
        std::fprintf(stderr, "%s: %s\n", routine.c_str(), remark.c_str());
}

void printProblems(const Problems& problems) {
    for (std::size_t i = 0; i < std::min(problems.size(), kMostProblems); ++i)
        std::fprintf(stderr, "%s\n", describe(problems[i]).c_str());
    if (problems.size() > kMostProblems)
        std::fprintf(stderr, "and %zu more\n", problems.size() - kMostProblems);
}

int refuse(const Problems& problems) {
    printProblems(problems);
    return kBadInput;
}

int refuse(const std::string& file, const std::string& what, const std::string& remedy) {
    Problem problem;
    problem.where.file = file;
    problem.what = what;
    problem.remedy = remedy;
    return refuse(Problems(1, problem));
}

int writeResult(const std::string& file, std::string_view bytes) {
    return writeResult(file, [&bytes] { return std::exchange(bytes, std::string_view()); });
}

int writeResult(const std::string& file, const std::function<std::string_view()>& next) {
    if (file == "-") {
        for (std::string_view piece = next(); !piece.empty(); piece = next())
            std::fwrite(piece.data(), 1, piece.size(), stdout);
        if (std::fflush(stdout) == 0) return kDone;
        return refuse("-", "cannot be written", "look at where the output goes");
    }
    const std::string reason = system::writeWholeFile(file, next);
    if (reason.empty()) return kDone;
    return refuse(file, "cannot be written: " + reason,
                  "give a name in a folder that exists and may be written to");
}

int refuseOverwriting(const std::string& output, const std::vector<std::string>& inputs) {
    std::error_code ignored;
    for (const std::string& input : inputs)
        if (std::filesystem::equivalent(output, input, ignored))
            return refuse(output, "this is the input", "give the output another name");
    return kDone;
}

Expected<double, Problems> parseRate(const std::string& text) {
    std::string_view number = text;
    for (const std::string_view unit : {"Hz", "/s"})
        if (number.size() > unit.size() && number.substr(number.size() - unit.size()) == unit)
            number.remove_suffix(unit.size());
    while (!number.empty() && number.back() == ' ') number.remove_suffix(1);
    const std::optional<double> rate_hz = parseDouble(number);
    if (rate_hz && *rate_hz >= 1 && *rate_hz <= 10000) return *rate_hz;
    Problem problem;
    problem.where.file = "--rate";
    problem.what = "\"" + text + "\" is no number of rows a second";
    problem.remedy = "give 1 to 10000: --rate 100";
    return Unexpected(Problems(1, problem));
}

}  // namespace plumbline::cli
