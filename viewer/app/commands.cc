#include "viewer/app/commands.h"

#include <array>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/cli/options.h"
#include "engine/units/quantity.h"
#include "viewer/app/picture.h"
#include "viewer/app/show.h"

namespace plumbline::app {
namespace {

/// Options of everything that opens files.
struct OpenOptions {
    std::vector<std::string> files;
    cli::VariantOptions variant;

    Expected<model::OpenWish, Problems> wish(units::DisplayUnits units) const {
        const auto how = cli::readVariant(variant, units);
        if (!how) return Unexpected(how.error());
        model::OpenWish out;
        out.variant = *how;
        std::error_code ignored;
        // As elsewhere on the command line, demo is the built-in routine.
        const bool demo =
            files.size() == 1 && files[0] == "demo" && !std::filesystem::exists(files[0], ignored);
        if (!demo) out.files.assign(files.begin(), files.end());
        out.overrides = variant.overrides;
        return out;
    }
};

void addOpenOptions(CLI::App& app, OpenOptions& options) {
    app.add_option("FILE", options.files,
                   "one *.routine.toml, or the recordings of one flight (IGC, GPX, CSV); none: the "
                   "demo");
    cli::addVariantOptions(app, options.variant);
}

int runShowCommand(const cli::Arguments& arguments) {
    cli::OptionParser parser("show", "Opens the viewer.",
                             "plumbline show evening.routine.toml\n"
                             "  plumbline show evening.routine.toml --mirror --floor 600m");
    OpenOptions options;
    bool bench = false;
    addOpenOptions(parser.app(), options);
    parser.app().add_flag("--bench", bench, "measure start and frame times, then close");
    if (const auto done = parser.parse(arguments)) return *done;
    const auto wish = options.wish(units::DisplayUnits::Aviation);
    if (!wish) return cli::refuse(wish.error());
    return runShow(*wish, bench);
}

/// "1280x720". @return false when it is none or not from 16 to 8192 on each side
bool parseSize(const std::string& text, int& width_px, int& height_px) {
    const std::size_t by = text.find('x');
    if (by == std::string::npos) return false;
    const auto width = parseDouble(text.substr(0, by));
    const auto height = parseDouble(text.substr(by + 1));
    const auto fits = [](const std::optional<double>& side) {
        return side && *side >= 16 && *side <= 8192 && std::floor(*side) == *side;
    };
    if (!fits(width) || !fits(height)) return false;
    width_px = static_cast<int>(*width);
    height_px = static_cast<int>(*height);
    return true;
}

struct PictureOptions {
    OpenOptions open;
    std::string from = "crowd";
    std::string at = "0 s";
    std::string size = "1280x720";
    std::string lens;
    std::string output;
    std::string set;
    std::string theme = "dark";
    std::string units = "aviation";
    double scale = 1;
    bool window = false;
    bool start = false;
};

void addPictureOptions(CLI::App& app, PictureOptions& options) {
    addOpenOptions(app, options.open);
    app.add_option("--from", options.from,
                   "crowd, judge, cockpit, chase, map or free; default crowd")
        ->type_name("VIEW");
    app.add_option("--at", options.at, "time in the show, with its unit: 95s; default 0 s")
        ->type_name("TIME");
    app.add_option("--size", options.size, "pixels, default 1280x720")->type_name("WxH");
    app.add_option("--lens", options.lens, "crowd's and judge's lens: 24mm to 400mm")
        ->type_name("LENGTH");
    app.add_option("-o,--output", options.output, "the picture, a PNG file")->type_name("FILE");
    app.add_option("--set", options.set,
                   "instead of one picture: all views at several moments, into this folder")
        ->type_name("DIR");
    app.add_flag("--window", options.window, "the whole window with its panels");
    app.add_flag("--start", options.start, "with --window: as it opens with no file");
    app.add_option("--theme", options.theme, "with --window: dark or light; default dark")
        ->check(CLI::IsMember({"dark", "light"}))
        ->type_name("NAME");
    app.add_option("--units", options.units,
                   "with --window: aviation (m, kt), metric (m, km/h) or feet; default aviation")
        ->check(CLI::IsMember({"aviation", "metric", "feet"}))
        ->type_name("NAME");
    app.add_option("--scale", options.scale, "with --window: size of the panels, 0.75 to 3")
        ->check(CLI::Range(model::kLeastScale, model::kGreatestScale));
}

/// @return 0, or the exit code after saying what is wrong
int readPictureOptions(const PictureOptions& options, PictureWish& wish) {
    auto said_in = units::DisplayUnits::Aviation;
    if (options.units == "metric") {
        wish.units = model::UnitChoice::Metric;
        said_in = units::DisplayUnits::Metric;
    } else if (options.units == "feet") {
        wish.units = model::UnitChoice::Feet;
        said_in = units::DisplayUnits::Feet;
    }
    const auto open = options.open.wish(said_in);
    if (!open) return cli::refuse(open.error());
    wish.open = *open;
    if (!scene::viewFromWord(options.from, wish.view)) {
        return cli::refuse("--from", "\"" + options.from + "\" is no view",
                           "say crowd, judge, cockpit, chase, map or free");
    }
    const auto at = units::parseQuantity(options.at, units::Dimension::Time);
    if (!at) return cli::refuse("--at", at.error().what, at.error().remedy);
    wish.time_s = *at;
    if (!parseSize(options.size, wish.width_px, wish.height_px)) {
        return cli::refuse("--size", "\"" + options.size + "\" is no size",
                           "give two whole numbers from 16 to 8192: 1280x720");
    }
    if (!options.lens.empty()) {
        std::string number = options.lens;
        if (number.size() > 2 && number.substr(number.size() - 2) == "mm") {
            number.erase(number.size() - 2);
        }
        while (!number.empty() && number.back() == ' ') number.pop_back();
        wish.lens_mm = parseDouble(number);
        if (number == options.lens || !wish.lens_mm || *wish.lens_mm < 24 || *wish.lens_mm > 400) {
            return cli::refuse("--lens", "\"" + options.lens + "\" is no lens here",
                               "give 24mm to 400mm, with its unit");
        }
    }
    if (options.output.empty() == options.set.empty()) {
        return cli::refuse("picture", "where to?", "say -o FILE for one picture or --set DIR");
    }
    wish.output = options.output;
    wish.set = options.set;
    wish.window = options.window;
    wish.start_panel = options.start;
    if (options.theme == "light") wish.theme = model::ThemeChoice::Light;
    wish.ui_scale = options.scale;
    return cli::kDone;
}

int runPictureCommand(const cli::Arguments& arguments) {
    cli::OptionParser parser(
        "picture", "Draws pictures; needs no display.",
        "plumbline picture evening.routine.toml --from judge --at 95s -o a.png");
    PictureOptions options;
    addPictureOptions(parser.app(), options);
    if (const auto done = parser.parse(arguments)) return *done;
    PictureWish wish;
    if (const int wrong = readPictureOptions(options, wish)) return wrong;
    return runPicture(wish);
}

constexpr std::array kCommands = {
    cli::Command{"show", "opens the viewer: [FILE...]", runShowCommand},
    cli::Command{"picture", "draws pictures without a display: FILE --at 95s -o a.png",
                 runPictureCommand},
};

}  // namespace

std::span<const cli::Command> drawingCommands() { return kCommands; }

}  // namespace plumbline::app
