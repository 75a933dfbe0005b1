#include "viewer/app/commands.h"

#include <array>

#include "viewer/app/film.h"
#include "viewer/app/picture.h"
#include "viewer/app/shot_options.h"
#include "viewer/app/show.h"

namespace plumbline::app {
namespace {

int runShowCommand(const cli::Arguments& arguments) {
    cli::OptionParser parser("show", "Opens the viewer.",
                             "plumbline show evening.routine.toml\n"
                             "  plumbline show evening.routine.toml --mirror --floor 600m");
    OpenOptions options;
    ShowWish show;
    std::string size;
    addOpenOptions(parser.app(), options);
    parser.app()
        .add_option("--size", size, "of the window; default as it was left: 1280x720")
        ->type_name("WxH");
    parser.app().add_flag("--bench", show.bench, "measure start and frame times, then close");
    parser.app()
        .add_option("--log", show.log_file, "write what is done, an action a line, into this file")
        ->type_name("FILE");
    if (const auto done = parser.parse(arguments)) return *done;
    const auto wish = readOpenOptions(options, units::DisplayUnits::Aviation);
    if (!wish) return cli::refuse(wish.error());
    show.open = *wish;
    if (!size.empty()) {
        if (const int wrong = readSize(size, show.width, show.height)) return wrong;
    }
    return runShow(std::move(show));
}

int runPictureCommand(const cli::Arguments& arguments) {
    cli::OptionParser parser(
        "picture", "Draws pictures; needs no display.",
        "plumbline picture evening.routine.toml --from judge --at 95s -o a.png");
    ShotOptions options;
    std::string at = "0 s", output, set;
    PictureWish wish;
    addShotOptions(parser.app(), options);
    parser.app()
        .add_option("--at", at, "time in the show, with its unit: 95s; default 0 s")
        ->type_name("TIME");
    parser.app().add_option("-o,--output", output, "the picture, a PNG file")->type_name("FILE");
    parser.app()
        .add_option("--set", set,
                    "instead of one picture: all views at several moments, into this folder")
        ->type_name("DIR");
    parser.app()
        .add_option("--moments", wish.moments, "of the set, 1 to 60; default 4")
        ->check(CLI::Range(1, 60));
    parser.app().add_flag("--window", wish.window, "the whole window with its panels");
    parser.app()
        .add_option("--brief", wish.brief,
                    "with --window: the brief beside the picture, card, cues or director")
        ->check(CLI::IsMember({"card", "cues", "director"}))
        ->type_name("SHEET");
    parser.app().add_flag("--start", wish.start_panel, "with --window: as it opens with no file");
    if (const auto done = parser.parse(arguments)) return *done;
    if (const int wrong = readShotOptions(options, wish.shot)) return wrong;
    if (const int wrong = readTime("--at", at, wish.time_s)) return wrong;
    if (output.empty() == set.empty()) {
        return cli::refuse("picture", "where to?", "say -o FILE for one picture or --set DIR");
    }
    wish.output = output;
    wish.set = set;
    return runPicture(wish);
}

int runFilmCommand(const cli::Arguments& arguments) {
    cli::OptionParser parser(
        "film", "Makes a film of the replay; needs ffmpeg, and no display.",
        "plumbline film evening.routine.toml --from judge --start 60s --stop 65s -o a.mp4");
    ShotOptions options;
    std::string start = "0 s", stop, output;
    FilmWish wish;
    addShotOptions(parser.app(), options);
    parser.app()
        .add_option("--start", start, "time in the show, with its unit; default its beginning")
        ->type_name("TIME");
    parser.app().add_option("--stop", stop, "default its end")->type_name("TIME");
    parser.app()
        .add_option("--frames", wish.frames_ps, "frames a second, 1 to 120; default 30")
        ->check(CLI::Range(1.0, 120.0));
    parser.app()
        .add_option("--speed", wish.speed, "of the replay, 0.125 to 8: 0.25 is slow motion")
        ->check(CLI::Range(0.125, 8.0));
    parser.app()
        .add_option("-o,--output", output, "the film: a name that ends in .mp4 or .webm")
        ->required()
        ->type_name("FILE");
    std::string log;
    parser.app()
        .add_option("--log", log,
                    "the whole window, worked in as this file of show --log tells; saves nothing")
        ->type_name("FILE");
    if (const auto done = parser.parse(arguments)) return *done;
    wish.log = log;
    if (const int wrong = readShotOptions(options, wish.shot)) return wrong;
    if (const int wrong = readTime("--start", start, wish.start_s)) return wrong;
    if (!stop.empty()) {
        wish.stop_s = 0;
        if (const int wrong = readTime("--stop", stop, *wish.stop_s)) return wrong;
    }
    wish.output = output;
    const std::filesystem::path kind = wish.output.extension();
    if (kind != ".mp4" && kind != ".webm") {
        return cli::refuse(output, "not a kind of film", "end its name in .mp4 or .webm");
    }
    if (wish.shot.width_px % 2 != 0 || wish.shot.height_px % 2 != 0) {
        return cli::refuse("--size", "films have even sizes", "give 1280x720 or the like");
    }
    return runFilm(wish);
}

constexpr std::array kCommands = {
    cli::Command{"show", "opens the viewer: [FILE...]", runShowCommand},
    cli::Command{"picture", "draws pictures without a display: FILE --at 95s -o a.png",
                 runPictureCommand},
    cli::Command{"film", "makes a film: FILE --start 60s --stop 65s -o a.mp4", runFilmCommand},
};

}  // namespace

std::span<const cli::Command> drawingCommands() { return kCommands; }

}  // namespace plumbline::app
