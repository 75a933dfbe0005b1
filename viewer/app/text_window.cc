#include "viewer/app/text_window.h"

#include "viewer/render/shared_picture.h"
#include "viewer/render/ui_surface.h"

namespace plumbline::app {
namespace {

void wishClosed(Stage& stage) {
    stage.actions().pushIndex(model::ActionKind::Prompter,
                              static_cast<int>(model::PrompterDo::Window));
}

bool isKey(const platform::Event& event) {
    return event.kind == platform::EventKind::KeyDown || event.kind == platform::EventKind::KeyUp ||
           event.kind == platform::EventKind::Character;
}

}  // namespace

bool TextWindow::open(model::Model& model) {
    platform::WindowSettings settings;
    settings.title = "Plumbline, the narrator's words";
    settings.width = 960;
    settings.height = 720;
    settings.wait_for_display = false;  // the first window sets the pace
    settings.shares = &first_;
    settings.beside = true;
    auto made = platform::Window::create(settings);
    if (made) {
        window_ = std::move(made).value();
        return true;
    }
    model.prompter.window = false;
    model.message = model::Message();
    model.message.text = "The second window cannot be opened: " + made.error();
    model.message.wrong = true;
    model.message.left_s = model::kMessage_s;
    return false;
}

std::vector<platform::Event> TextWindow::frame(Stage& stage) {
    model::Model& model = stage.model();
    if (!model.prompter.on || !model.prompter.window) {
        if (window_) {
            window_ = nullptr;
            first_.makeCurrent();
        }
        return {};
    }
    if (!window_ && !open(model)) return {};
    std::vector<platform::Event> keys;
    for (platform::Event& event : window_->takeEvents(0)) {
        const bool escape = isKey(event) && event.key == platform::Key::Escape;
        if (event.kind == platform::EventKind::CloseWish ||
            (escape && event.kind == platform::EventKind::KeyDown)) {
            wishClosed(stage);
        } else if (isKey(event) && !escape) {
            keys.push_back(std::move(event));
        }
    }
    const platform::PixelSize size = window_->pixelSize();
    if (size.width_px < 1 || size.height_px < 1) return keys;
    const std::uint32_t picture =
        stage.drawPrompterWords(size.width_px, size.height_px, window_->pixelRatio());
    window_->makeCurrent();
    render::showPicture(picture, size.width_px, size.height_px);
    window_->swap();
    first_.makeCurrent();
    return keys;
}

}  // namespace plumbline::app
