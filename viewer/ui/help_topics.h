#pragma once
// What can be asked about: each thing in the window in a few sentences.

#include <optional>
#include <string>

#include "viewer/model/lane_choice.h"
#include "viewer/scene/views.h"

namespace plumbline::ui {

struct HelpText {
    std::string title;
    std::string words;
};

enum class HelpTopic {
    General,
    Header,
    Rows,
    OpenFigure,
    Footer,
    Chooser,
    Legend,
    Strip,
    SightingCard,
    MapInset,
    SecondView,
    Transport,
    Ruler,
    Figures,
    Start,
    Cues,
    CuePace,
    BriefPage,
    Prompter,
    Walk
};

HelpText helpOn(HelpTopic topic);
HelpText helpOn(scene::View view);
HelpText helpOn(model::Lane lane);
/// On a line of figure text, by its first word; nothing for a line that begins with none.
std::optional<HelpText> helpOnLine(const std::string& line);

}  // namespace plumbline::ui
