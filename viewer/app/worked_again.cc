#include "viewer/app/worked_again.h"

#include <algorithm>
#include <chrono>
#include <string_view>
#include <thread>
#include <utility>

#include "engine/base/number_text.h"
#include "engine/system/whole_file.h"
#include "viewer/model/action_list.h"

namespace plumbline::app {
namespace {

constexpr double kLooksOn_s = 2;  // chosen: to see what the last action has done

/// A film of what was done changes no files and opens no others.
bool leftOut(model::ActionKind kind) {
    using K = model::ActionKind;
    switch (kind) {
        case K::Open:
        case K::OpenAnyway:
        case K::Save:
        case K::SaveAs:
        case K::TakeTheirs:
        case K::KeepMine:
        case K::Quit:
        case K::QuitAnyway:
        case K::ToggleFullScreen:
            return true;
        default:
            return false;
    }
}

}  // namespace

std::string WorkedAgain::read(const std::filesystem::path& log) {
    const system::ReadFile file = system::readWholeFile(log);
    if (!file.bytes) return log.string() + ": cannot be read: " + file.reason;
    std::string_view rest = *file.bytes;
    for (int number = 1; !rest.empty(); ++number) {
        const std::size_t end = std::min(rest.find('\n'), rest.size());
        const std::string_view line = rest.substr(0, end);
        rest.remove_prefix(std::min(end + 1, rest.size()));
        const std::size_t blank = std::min(line.find(' '), line.size());
        const auto time_s = parseDouble(line.substr(0, blank));
        const std::string_view words = line.substr(std::min(blank + 1, line.size()));
        if (words.substr(0, 3) == "so ") continue;  // comes about again by itself
        auto action = model::actionFromText(words);
        if (!time_s || !action) {
            return log.string() + ':' + std::to_string(number) +
                   ": not a line of such a log: give a file that show --log has written";
        }
        if (!leftOut(action->kind)) done_.push_back({*time_s, std::move(*action)});
    }
    return done_.empty() ? log.string() + ": nothing was done in it: give a longer log" : "";
}

bool WorkedAgain::begin(Stage& stage, const model::OpenWish& wish) const {
    stage.beginWriting({}, nullptr);
    model::Model& model = stage.model();
    model.start_panel = wish.files.empty();
    model::OpenWish as_shown = wish;
    as_shown.review = true;
    stage.open(std::move(as_shown));
    while (model.opening) {
        stage.frame(64, 64, 1, 0);
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
    return model.shown != nullptr;
}

double WorkedAgain::duration_s() const { return done_.back().time_s + kLooksOn_s; }

void WorkedAgain::frame(Stage& stage, double time_s, double step_s, int width_px, int height_px,
                        double scale) {
    for (; next_ < done_.size() && done_[next_].time_s <= time_s; ++next_) {
        stage.actions().push(done_[next_].action);
    }
    stage.frame(width_px, height_px, scale, step_s);
    // What is solved meanwhile is there in the next frame, however slowly these are drawn.
    for (int i = 0; i < 20 && stage.busy(); ++i) {
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
}

}  // namespace plumbline::app
