#include "viewer/app/shot_options.h"

#include <array>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/load/demo_name.h"
#include "engine/units/quantity.h"

namespace plumbline::app {
namespace {

/// "85mm". @return nothing when it is none or not from 24 to 400 mm
std::optional<double> parseLens(const std::string& text) {
    std::string number = text;
    if (number.size() <= 2 || number.substr(number.size() - 2) != "mm") return std::nullopt;
    number.erase(number.size() - 2);
    while (!number.empty() && number.back() == ' ') number.pop_back();
    const auto lens_mm = parseDouble(number);
    if (!lens_mm || *lens_mm < 24 || *lens_mm > 400) return std::nullopt;
    return lens_mm;
}

/// Leaves the value as it is where the option was not given.
int readLength(const char* option, const std::string& text, std::optional<double>& value_m) {
    if (text.empty()) return cli::kDone;
    const auto length = units::parseQuantity(text, units::Dimension::Length);
    if (!length) return cli::refuse(option, length.error().what, length.error().remedy);
    value_m = *length;
    return cli::kDone;
}

int readUnits(const ShotOptions& options, Shot& shot, units::DisplayUnits& said_in) {
    if (options.units == "metric") {
        shot.units = model::UnitChoice::Metric;
        said_in = units::DisplayUnits::Metric;
    } else if (options.units == "feet") {
        shot.units = model::UnitChoice::Feet;
        said_in = units::DisplayUnits::Feet;
    }
    return cli::kDone;
}

}  // namespace

void addOpenOptions(CLI::App& app, OpenOptions& options) {
    app.add_option("FILE", options.files,
                   "one *.routine.toml, or the recordings of one flight (IGC, GPX, CSV); none: the "
                   "demo");
    app.add_option("--second", options.second,
                   "drawn beside the routine as a ghost: a second routine, or the recordings of a "
                   "flight")
        ->type_name("FILE...");
    cli::addVariantOptions(app, options.variant);
}

Expected<model::OpenWish, Problems> readOpenOptions(const OpenOptions& options,
                                                    units::DisplayUnits units) {
    const auto how = cli::readVariant(options.variant, units);
    if (!how) return Unexpected(how.error());
    model::OpenWish out;
    out.variant = *how;
    const std::vector<std::string>& files = options.files;
    // As elsewhere on the command line, demo is the built-in routine.
    const bool demo = files.size() == 1 && load::meansDemo(files[0]);
    if (!demo) out.files.assign(files.begin(), files.end());
    if (!options.second.empty()) {
        if (out.files.empty()) {
            Problem problem;
            problem.where.file = "--second";
            problem.what = "there is no routine it could stand beside";
            problem.remedy = "name one before it";
            Problems problems;
            problems.push_back(std::move(problem));
            return Unexpected(std::move(problems));
        }
        out.files.insert(out.files.end(), options.second.begin(), options.second.end());
    }
    out.overrides = options.variant.overrides;
    return out;
}

void addShotOptions(CLI::App& app, ShotOptions& options) {
    addOpenOptions(app, options.open);
    app.add_option("--from", options.from,
                   "crowd, judge, cockpit, chase, map or free; default crowd")
        ->type_name("VIEW");
    app.add_option("--size", options.size, "pixels, default 1280x720")->type_name("WxH");
    app.add_option("--lens", options.lens, "crowd's and judge's lens: 24mm to 400mm")
        ->type_name("LENGTH");
    app.add_option("--seat", options.seat,
                   "crowd's seat, right of show centre: 150m; left of it -150m")
        ->type_name("LENGTH");
    app.add_option("--back", options.back, "crowd's seat behind the crowd line: 4m")
        ->type_name("LENGTH");
    app.add_option("--eye", options.eye, "crowd's eye above the ground: 1.2m sits, 1.7m stands")
        ->type_name("LENGTH");
    app.add_option("--look", options.look,
                   "in the cockpit: ahead, left (wing), right (wing), up or panel; default ahead")
        ->check(CLI::IsMember({"ahead", "left", "right", "up", "panel"}))
        ->type_name("WHERE");
    app.add_flag("--cues", options.cues, "with the narrator's cues, when they are due");
    app.add_flag("--numbers", options.numbers, "with the numbers of the moment");
    app.add_option("--theme", options.theme, "of what is written: dark or light; default dark")
        ->check(CLI::IsMember({"dark", "light"}))
        ->type_name("NAME");
    app.add_option("--units", options.units,
                   "of what is written: aviation (m, kt), metric (m, km/h) or feet; default "
                   "aviation")
        ->check(CLI::IsMember({"aviation", "metric", "feet"}))
        ->type_name("NAME");
    app.add_option("--scale", options.scale, "size of what is written, 0.75 to 3")
        ->check(CLI::Range(model::kLeastScale, model::kGreatestScale));
}

int readTime(const char* option, const std::string& text, double& time_s) {
    const auto at = units::parseQuantity(text, units::Dimension::Time);
    if (!at) return cli::refuse(option, at.error().what, at.error().remedy);
    time_s = *at;
    return cli::kDone;
}

int readSize(const std::string& text, int& width_px, int& height_px) {
    const std::size_t by = text.find('x');
    const auto side = [](const std::string& number) {
        const auto value = parseDouble(number);
        const bool fits = value && *value >= 16 && *value <= 8192 && std::floor(*value) == *value;
        return fits ? static_cast<int>(*value) : 0;
    };
    const int width = by == std::string::npos ? 0 : side(text.substr(0, by));
    const int height = width > 0 ? side(text.substr(by + 1)) : 0;
    if (height == 0) {
        return cli::refuse("--size", "\"" + text + "\" is no size",
                           "give two whole numbers from 16 to 8192: 1280x720");
    }
    width_px = width;
    height_px = height;
    return cli::kDone;
}

int readShotOptions(const ShotOptions& options, Shot& shot) {
    auto said_in = units::DisplayUnits::Aviation;
    if (const int wrong = readUnits(options, shot, said_in)) return wrong;
    const auto open = readOpenOptions(options.open, said_in);
    if (!open) return cli::refuse(open.error());
    shot.open = *open;
    if (!scene::viewFromWord(options.from, shot.view)) {
        return cli::refuse("--from", "\"" + options.from + "\" is no view",
                           "say crowd, judge, cockpit, chase, map or free");
    }
    if (const int wrong = readSize(options.size, shot.width_px, shot.height_px)) return wrong;
    if (!options.lens.empty()) {
        shot.lens_mm = parseLens(options.lens);
        if (!shot.lens_mm) {
            return cli::refuse("--lens", "\"" + options.lens + "\" is no lens here",
                               "give 24mm to 400mm, with its unit");
        }
    }
    if (const int wrong = readLength("--seat", options.seat, shot.seat_x_m)) return wrong;
    if (const int wrong = readLength("--back", options.back, shot.rows_back_m)) return wrong;
    if (const int wrong = readLength("--eye", options.eye, shot.eye_height_m)) return wrong;
    if (shot.eye_height_m && !(*shot.eye_height_m >= 0.5 && *shot.eye_height_m <= 50)) {
        return cli::refuse("--eye", "an eye is 0.5 m to 50 m above the ground",
                           "give 1.2m for sitting, 1.7m for standing");
    }
    if (!options.look.empty()) {
        model::HeadTurn turn = model::headTurn(model::Look::Ahead);
        if (options.look == "left") turn = model::headTurn(model::Look::Left);
        if (options.look == "right") turn = model::headTurn(model::Look::Right);
        if (options.look == "panel") turn = model::headTurn(model::Look::Panel);
        if (options.look == "up") turn = model::headTurn(model::Look::Up);
        shot.head_right_rad = turn.right_rad;
        shot.head_up_rad = turn.up_rad;
    }
    shot.burnt.cues = options.cues;
    shot.burnt.numbers = options.numbers;
    if (options.theme == "light") shot.theme = model::ThemeChoice::Light;
    shot.ui_scale = options.scale;
    return cli::kDone;
}

}  // namespace plumbline::app
