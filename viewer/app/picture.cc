#include "viewer/app/picture.h"

#include <cstdio>

#include "viewer/app/png.h"
#include "viewer/app/stage.h"
#include "viewer/platform/surface.h"
#include "viewer/ui/quantity_text.h"

namespace plumbline::app {
namespace {

/// The picture alone, as the window's picture region draws it.
render::Image drawPicture(Stage& stage, const Shot& shot) {
    const render::OffscreenTarget target(shot.width_px, shot.height_px);
    target.bind();
    stage.finishWork();
    stage.drawShot(shot.width_px, shot.height_px, shot.burnt, scene::Quality::High);
    return target.read();
}

render::Image drawWindow(Stage& stage, int width_px, int height_px) {
    const render::OffscreenTarget target(width_px, height_px);
    target.bind();
    stage.finishWork();
    stage.music().finish(stage.model());
    // The second frame has what the first one only asked for: the unfolded figure in sight.
    for (int i = 0; i < 2; ++i) stage.frame(width_px, height_px, 1, 0);
    return target.read();
}

render::Image draw(Stage& stage, const PictureWish& wish) {
    return wish.window ? drawWindow(stage, wish.shot.width_px, wish.shot.height_px)
                       : drawPicture(stage, wish.shot);
}

int write(const std::filesystem::path& file, const render::Image& image) {
    const std::string failure = writePng(file, image);
    if (failure.empty()) return 0;
    return fail(file.string() + ": cannot be written: " + failure);
}

/// As if somebody had gone there: the timeline follows.
void goTo(Stage& stage, double time_s) {
    model::Action seek;
    seek.kind = model::ActionKind::Seek;
    seek.value = time_s;
    model::apply(stage.model(), seek);
}

/// Every view at several moments, and the window in both themes.
int writeSet(Stage& stage, PictureWish wish) {
    std::error_code error;
    std::filesystem::create_directories(wish.set, error);
    if (error) return fail(wish.set.string() + ": cannot be made: " + error.message());
    model::Model& model = stage.model();
    const auto& outline = model.shown->outline;
    const auto moments = static_cast<std::size_t>(wish.moments);
    for (std::size_t m = 0; m < std::min(moments, outline.size()); ++m) {
        // Spread over the show, each in the middle of a figure.
        const std::size_t row = (2 * m + 1) * outline.size() / (2 * moments);
        goTo(stage, (outline[row].start_s + outline[row].stop_s) / 2);
        std::string moment = ui::timeText(model.clock.time_s());
        moment.replace(moment.find(':'), 1, "m");
        for (int v = 0; v < scene::kViewCount; ++v) {
            const auto view = static_cast<scene::View>(v);
            model.session.view.view = view;
            const std::string name = std::string(scene::viewWord(view)) + "-" + moment + "s.png";
            const int code = write(wish.set / name, drawPicture(stage, wish.shot));
            if (code != 0) return code;
            std::printf("%s\n", (wish.set / name).string().c_str());
        }
    }
    model.session.view.view = model.shown->recording() ? scene::View::Chase : scene::View::Crowd;
    for (const auto theme : {model::ThemeChoice::Dark, model::ThemeChoice::Light}) {
        model.session.theme = theme;
        const char* name =
            theme == model::ThemeChoice::Dark ? "window-dark.png" : "window-light.png";
        const int code = write(wish.set / name, drawWindow(stage, 1600, 900));
        if (code != 0) return code;
        std::printf("%s\n", (wish.set / name).string().c_str());
    }
    return 0;
}

}  // namespace

int runPicture(const PictureWish& wish) {
    auto surface = platform::Offscreen::create();
    if (!surface) return fail(surface.error());
    auto made = Stage::create((*surface)->loader());
    if (!made) return fail(made.error());
    Stage& stage = **made;
    Shot shot = wish.shot;
    shot.open.review = wish.window;  // as the window shows them
    if (const int wrong = prepare(stage, shot)) return wrong;
    model::Model& model = stage.model();
    model.start_panel = wish.window && wish.start_panel;
    if (!wish.set.empty()) return writeSet(stage, wish);
    const double duration_s = model.clock.duration_s();
    if (wish.time_s < 0 || wish.time_s > duration_s) {
        return fail("--at: outside of what is flown: say a time from 0 s to " +
                    ui::wholeText(std::floor(duration_s)) + " s");
    }
    goTo(stage, wish.time_s);
    model.brief.on = wish.window && !wish.brief.empty() && model.shown->workspace;
    model.brief.sheet = wish.brief == "director" ? 2 : wish.brief == "cues" ? 1 : 0;
    return write(wish.output, draw(stage, wish));
}

}  // namespace plumbline::app
