// The program in a page of a browser: the browser turns the loop.

#include <chrono>
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <utility>

#include <emscripten.h>

#include "engine/system/whole_file.h"
#include "engine/variant/wish_words.h"
#include "viewer/app/session_file.h"
#include "viewer/app/stage.h"
#include "viewer/app/window_loop.h"
#include "viewer/platform/window.h"

// Of library.js.
extern "C" {
void plumbline_wants_text(int wanted);
int plumbline_light();
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
    /// @param brought  files of that name were brought, not written
    void look(bool offer) {
        std::error_code failed;
        for (const auto& entry : fs::recursive_directory_iterator(kFiles, failed)) {
            if (!entry.is_regular_file(failed)) continue;
            const State now{entry.last_write_time(failed), entry.file_size(failed)};
            const auto [known, fresh] = known_.try_emplace(entry.path(), now);
            if (!fresh && known->second == now) continue;
            known->second = now;
            if (offer) give(entry.path());
        }
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
        plumbline_wants_text(stage->uiState().wants_text ? 1 : 0);
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
    static Page page;
    page.window = std::move(*window);
    page.stage = std::move(*stage);
    model::Model& model = page.stage->model();
    const bool first = !fs::exists("/kept/session.toml");
    model.session = app::loadSession();
    if (first && plumbline_light() != 0) model.session.theme = model::ThemeChoice::Light;
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

int main(int argc, char** argv) { return plumbline::browser::run(argc, argv); }
