// The program in a page of a browser: the browser turns the loop.

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include <emscripten.h>

#include "engine/system/whole_file.h"
#include "engine/variant/wish_words.h"
#include "viewer/app/session_file.h"
#include "viewer/app/stage.h"
#include "viewer/app/window_loop.h"
#include "viewer/model/say.h"
#include "viewer/platform/window.h"
#include "viewer/ui/fingers.h"

// Of library.js.
extern "C" {
void plumbline_wants_text(int wanted);
int plumbline_light();
int plumbline_coarse();
void plumbline_offer(const char* name, const void* bytes, std::size_t size);
void plumbline_keep();
void plumbline_print(const char* html);
}

namespace plumbline::browser {
namespace {

namespace fs = std::filesystem;

/// Where what the page carries, what is brought to it and what the program writes lies; in memory.
constexpr const char* kFiles = "/files";

/// What the program writes is offered to the browser, which saves it where the person wants.
class Offers {
public:
    /// What is there now is known.
    void begin() { look(false); }
    /// @param offer  what is new is given: routines first, since browsers let one file pass and ask
    /// about those that follow
    void look(bool offer) {
        std::error_code failed;
        std::vector<fs::path> fresh_files;
        for (const auto& entry : fs::recursive_directory_iterator(kFiles, failed)) {
            if (!entry.is_regular_file(failed)) continue;
            const State now{entry.last_write_time(failed), entry.file_size(failed)};
            const auto [known, fresh] = known_.try_emplace(entry.path(), now);
            if (!fresh && known->second == now) continue;
            known->second = now;
            fresh_files.push_back(entry.path());
        }
        if (!offer) return;
        const auto routine = [](const fs::path& file) {
            return file.filename().string().find(".routine.") != std::string::npos;
        };
        std::stable_partition(fresh_files.begin(), fresh_files.end(), routine);
        for (const fs::path& file : fresh_files) give(file);
    }

    /// A file that was brought is not given back.
    void know(const fs::path& file) {
        std::error_code failed;
        known_[file] = {fs::last_write_time(file, failed), fs::file_size(file, failed)};
    }

private:
    struct State {
        fs::file_time_type written;
        std::uintmax_t size = 0;
        bool operator==(const State&) const = default;
    };
    static void give(const fs::path& file) {
        const system::ReadFile read = system::readWholeFile(file);
        if (!read.bytes) return;
        plumbline_offer(file.filename().string().c_str(), read.bytes->data(), read.bytes->size());
    }
    std::map<fs::path, State> known_;
};

/// All of the program; lives as long as the page.
struct Page {
    std::unique_ptr<platform::Window> window;
    std::unique_ptr<app::Stage> stage;
    std::unique_ptr<app::WindowLoop> loop;
    Offers offers;
    std::string session_kept;
    int turns = 0;

    void turn() {
        loop->frame(false);
        const model::Model& model = stage->model();
        const bool asks = model.list.kind != model::ListKind::None;
        plumbline_wants_text(model.editor.writing || asks ? 1 : 0);
        const std::string to_print = std::exchange(stage->model().brief.to_print, {});
        if (!to_print.empty()) plumbline_print(to_print.c_str());
        constexpr int kLookEvery = 30;  // chosen: twice a second
        if (++turns % kLookEvery != 0) return;
        offers.look(true);
        const std::string session = model::sessionText(model.session);
        if (session != session_kept) {
            session_kept = session;
            app::saveSession(model.session);
        }
        plumbline_keep();
    }
};

Page& thePage() {
    static Page page;
    return page;
}

ui::Place meant(double x, double y, double least) {
    return ui::meantBy(ui::targets(), {static_cast<float>(x), static_cast<float>(y)},
                       static_cast<float>(least));
}

int run(int argc, char** argv) {
    auto window = platform::Window::create({});
    if (!window) {
        std::fprintf(stderr, "plumbline: %s\n", window.error().c_str());
        return 2;
    }
    auto stage = app::Stage::create((*window)->loader());
    if (!stage) {
        std::fprintf(stderr, "plumbline: %s\n", stage.error().c_str());
        return 2;
    }
    Page& page = thePage();
    page.window = std::move(*window);
    page.stage = std::move(*stage);
    model::Model& model = page.stage->model();
    const bool first = !fs::exists("/kept/session.toml");
    model.session = app::loadSession();
    if (first && plumbline_light() != 0) model.session.theme = model::ThemeChoice::Light;
    // chosen: rows of lists get 43 points high, the least that fingers hit well being 40
    if (first && plumbline_coarse() != 0) model.session.ui_scale = 1.25;
    page.session_kept = model::sessionText(model.session);
    model::OpenWish open;
    variant::WishRead words = variant::readWishWords({argv + 1, argv + argc});
    open.variant = std::move(words.wish);
    open.overrides = std::move(words.overrides);
    open.files.assign(words.rest.begin(), words.rest.end());
    open.review = true;
    model.start_panel = open.files.empty();
    page.stage->music().allowSound();
    page.stage->beginWriting(app::unsavedFolder(), nullptr);
    page.stage->open(std::move(open));
    page.offers.begin();
    page.loop = std::make_unique<app::WindowLoop>(*page.window, *page.stage);
    emscripten_set_main_loop_arg([](void* all) { static_cast<Page*>(all)->turn(); }, &page, 0, 0);
    return 0;
}

}  // namespace
}  // namespace plumbline::browser

extern "C" {
/// A file that somebody brought lies in the folder now.
/// @param path  UTF-8
EMSCRIPTEN_KEEPALIVE void plumbline_brought(const char* path) {
    plumbline::browser::thePage().offers.know(path);
}

/// What a routine names was brought without one.
EMSCRIPTEN_KEEPALIVE void plumbline_at_hand(const char* path) {
    const std::string name = std::filesystem::path(path).filename().string();
    plumbline::model::say(
        plumbline::browser::thePage().stage->model(),
        name + " is at hand: a routine opened here that names it is flown with it");
}

/// Where a finger that came down there is meant to be, pixels.
/// @param least  width and height that everything has for fingers
EMSCRIPTEN_KEEPALIVE double plumbline_meant_x(double x, double y, double least) {
    return static_cast<double>(plumbline::browser::meant(x, y, least).x);
}
EMSCRIPTEN_KEEPALIVE double plumbline_meant_y(double x, double y, double least) {
    return static_cast<double>(plumbline::browser::meant(x, y, least).y);
}

/// @return 1: a finger that moves up or down there scrolls
EMSCRIPTEN_KEEPALIVE int plumbline_scrolls(double x, double y) {
    return plumbline::ui::scrolls(plumbline::ui::targets(),
                                  {static_cast<float>(x), static_cast<float>(y)})
               ? 1
               : 0;
}
}

int main(int argc, char** argv) { return plumbline::browser::run(argc, argv); }
