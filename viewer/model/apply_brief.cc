#include "viewer/model/apply_brief.h"

#include <algorithm>
#include <cmath>

#include "engine/page/font_files.h"
#include "viewer/model/say.h"

namespace plumbline::model {
namespace {

void stopWriting(Model& model) {
    if (!model.editor.writing) return;
    Action stop;
    stop.kind = ActionKind::StopWriting;
    apply(model, stop);
}

void wholePage(Brief& brief) {
    brief.zoom = 1;
    brief.middle_x = brief.middle_y = 0.5;
}

void toggle(Model& model) {
    Brief& brief = model.brief;
    const bool can = model.shown && model.shown->workspace;
    stopWriting(model);
    brief.on = can && !brief.on;
    if (brief.on) model.start_panel = false;
}

/// What lies under the pointer stays there.
void zoom(Brief& brief, double notches, double x, double y) {
    const double before = brief.zoom;
    constexpr double kNotch = 1.2;  // chosen
    brief.zoom = std::clamp(before * std::pow(kNotch, notches), 1.0, kGreatestZoom);
    brief.middle_x += (x - 0.5) * (1 / before - 1 / brief.zoom);
    brief.middle_y += (y - 0.5) * (1 / before - 1 / brief.zoom);
    if (brief.zoom <= 1) wholePage(brief);
}

void keepInside(Brief& brief) {
    const double half = 0.5 / brief.zoom;
    brief.middle_x = std::clamp(brief.middle_x, half, 1 - half);
    brief.middle_y = std::clamp(brief.middle_y, half, 1 - half);
}

void turnPage(Brief& brief, int pages) {
    if (!brief.made) return;
    const int last = brief.made->pages[static_cast<std::size_t>(sheetShown(brief))] - 1;
    brief.page = std::clamp(pageShown(brief) + pages, 0, std::max(0, last));
}

void addFont(Model& model, const Action& action) {
    if (action.files.empty()) return;
    const std::string file = action.files.front().string();
    const Expected<page::Fonts, Problems> fonts = page::openFonts({file});
    if (!fonts) {
        say(model, describe(fonts.error().front()), true);
        return;
    }
    std::vector<std::string>& known = model.session.fonts;
    known.erase(std::remove(known.begin(), known.end(), file), known.end());
    if (known.size() >= kMostFonts) known.erase(known.begin());
    known.push_back(file);
    say(model, action.files.front().filename().string() +
                   " is used for letters that the built-in font lacks");
}

}  // namespace

bool applyToBrief(Model& model, const Action& action) {
    Brief& brief = model.brief;
    switch (action.kind) {
        case ActionKind::ToggleBrief:
            toggle(model);
            return true;
        case ActionKind::ShowSheet:
            if (sheetShown(brief) != std::clamp(action.index, 0, 2)) wholePage(brief);
            brief.sheet = std::clamp(action.index, 0, 2);
            brief.page = 0;
            return true;
        case ActionKind::TurnPage:
            turnPage(brief, action.index);
            return true;
        case ActionKind::TogglePaper:
            model.session.letter_paper = !model.session.letter_paper;
            return true;
        case ActionKind::ZoomPage:
            zoom(brief, action.value, action.x, action.y);
            keepInside(brief);
            return true;
        case ActionKind::PanPage:
            brief.middle_x -= action.x / brief.zoom;
            brief.middle_y -= action.y / brief.zoom;
            keepInside(brief);
            return true;
        case ActionKind::WholePage:
            wholePage(brief);
            return true;
        case ActionKind::PaceBy: {
            constexpr double kStep = 5;  // chosen: words a minute that a listener tells apart
            double& pace = model.session.words_per_min;
            pace = std::clamp(kStep * std::round(pace / kStep) + kStep * action.index, kSlowestPace,
                              kFastestPace);
            return true;
        }
        case ActionKind::AddFont:
            addFont(model, action);
            return true;
        case ActionKind::ForgetFonts:
            model.session.fonts.clear();
            say(model, "The built-in font alone");
            return true;
        default:
            return false;
    }
}

}  // namespace plumbline::model
