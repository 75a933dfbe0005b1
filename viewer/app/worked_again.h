#pragma once
// The window worked in again as a log of `show --log` tells, for films of it.

#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

#include "viewer/app/stage.h"

namespace plumbline::app {

class WorkedAgain {
public:
    /// @return what is wrong with the log, with its remedy; empty: nothing
    std::string read(const std::filesystem::path& log);
    /// Opens what the log began with. @return false: it cannot be opened
    bool begin(Stage& stage, const model::OpenWish& wish) const;
    /// Seconds from the first frame until a moment after the last action.
    double duration_s() const;
    /// Draws the next frame of the window, with all that was done up to its time.
    void frame(Stage& stage, double time_s, double step_s, int width_px, int height_px,
               double scale);

private:
    struct Done {
        double time_s;
        model::Action action;
    };
    std::vector<Done> done_;
    std::size_t next_ = 0;
};

}  // namespace plumbline::app
