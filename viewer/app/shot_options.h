#pragma once
// The options of `picture` and `film`. Includes CLI11: for .cc files only.

#include <string>
#include <vector>

#include "engine/cli/options.h"
#include "viewer/app/shot.h"

namespace plumbline::app {

/// Options of everything that opens files.
struct OpenOptions {
    std::vector<std::string> files;
    std::vector<std::string> second;
    cli::VariantOptions variant;
};
void addOpenOptions(CLI::App& app, OpenOptions& options);
Expected<model::OpenWish, Problems> readOpenOptions(const OpenOptions& options,
                                                    units::DisplayUnits units);

/// As given.
struct ShotOptions {
    OpenOptions open;
    std::string from = "crowd";
    std::string size = "1280x720";
    std::string lens, seat, back, eye, look;
    std::string theme = "dark";
    std::string units = "aviation";
    double scale = 1;
    bool cues = false, numbers = false;
};
void addShotOptions(CLI::App& app, ShotOptions& options);

/// @return 0, or the exit code after saying on stderr what is wrong
int readShotOptions(const ShotOptions& options, Shot& shot);

/// "1280x720", from 16 to 8192 on each side. @return as readTime
int readSize(const std::string& text, int& width_px, int& height_px);

/// "95s" of an option. @return 0, or the exit code after saying what is wrong
int readTime(const char* option, const std::string& text, double& time_s);

}  // namespace plumbline::app
