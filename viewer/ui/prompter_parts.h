#pragma once
// The prompter's parts: where they lie, and the text that also stands in a window of its own.

#include <string>
#include <vector>

#include "viewer/ui/ui.h"

namespace plumbline::ui {

/// Of the window while the prompter is open: the words left, what comes right, the crowd's view
/// over it.
struct PrompterLayout {
    float scale = 1;
    Rect window, text, side, picture;
};
PrompterLayout prompterLayoutOf(float width_px, float height_px, float scale);
/// The same as the other panels and the scene take it.
Layout layoutOf(const PrompterLayout& layout);

/// Height of the letters said now, units. @param width_units  of the text's column
int promptSize(float width_units, double wish);

/// What this moment of the prompter is made of.
struct PromptNow {
    model::Running running;
    std::vector<model::PromptBlock> blocks;
    model::PromptPlace place;
    double time_s = 0;
};
PromptNow promptNow(const model::Model& model);

/// The words before, now and to come.
/// @param alone  in a window of its own: no word on keys
void drawPromptText(const Canvas& canvas, const model::Model& model, const PromptNow& now,
                    const Rect& region, bool alone, WordSetter* setter);
/// Next cue, windows, cues ahead, what can be said of a show that runs otherwise.
void drawPromptSide(const PanelInput& in, UiState& state, const PromptNow& now,
                    const PrompterLayout& layout);

/// A text in lines of a width, as bytes of it: from, to.
struct TextLine {
    std::size_t from = 0, to = 0;
};
std::vector<TextLine> linesOf(const Canvas& canvas, const Type& type, float width,
                              const std::string& words);

/// "Smoke on" of "smoke on"; other scripts as they are.
std::string withCapital(std::string words);

}  // namespace plumbline::ui
