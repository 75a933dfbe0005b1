#include "viewer/ui/help_topics.h"

#include "engine/text/word_help.h"

namespace plumbline::ui {

HelpText helpOn(HelpTopic topic) {
    switch (topic) {
        case HelpTopic::General:
            break;
        case HelpTopic::Header:
            return {"What is open",
                    "The routine or recording, where and when it is flown, the wind near the "
                    "ground. A variant (another show, mirrored, practised high) stands first."};
        case HelpTopic::Rows:
            return {"The figures",
                    "A row for each: its path as a small picture, the worst finding, when it "
                    "begins. Click: go there. Drag: another place in the routine. Double-click: "
                    "write in it. Shift Delete removes, Ctrl Z brings back."};
        case HelpTopic::OpenFigure:
            return {"The open figure",
                    "Its text; Enter or a double-click to write, Esc ends. Drag a number for "
                    "another value. Below it what the checks found: filled triangle unsafe, open "
                    "triangle tight, dot a note."};
        case HelpTopic::Footer:
            return {"Find, keys, units, light or dark",
                    "F2 finds anything by its words, F1 shows every key, U changes the units, T "
                    "between dark and light."};
        case HelpTopic::Chooser:
            return {"Where one looks from",
                    "1 to 6; with Shift the second view. V puts the second view into the corner, "
                    "beside the first, or away. Below stands where the eye is, how far the "
                    "aircraft, how large it looks and how late it is heard."};
        case HelpTopic::Legend:
            return {"Colours of the path",
                    "Click or C: by load, speed, height, or the distance to a second path. The "
                    "stroke is now. Shift C: lightness alone instead of colours."};
        case HelpTopic::Strip:
            return {"Numbers of the moment",
                    "Each over its scale: raspberry is a limit, the strokes are the least and the "
                    "most so far. A dash: not known. Cells drop from the right where there is no "
                    "room."};
        case HelpTopic::SightingCard:
            return {"The sighting frame",
                    "The bar in use lies along the horizon when the zero-lift axis is exactly at "
                    "its angle. The large number is how far it is off, and how to mend it. Of a "
                    "recording it is what the pilot saw, no surer than what stands behind it."};
        case HelpTopic::MapInset:
            return {"Seen from above",
                    "Crowd at the bottom. The wind blows along the arrow, the circle is the sun; "
                    "the open wedge is what the crowd's lens sees."};
        case HelpTopic::SecondView:
            return {"The second view",
                    "A long lens of its own until one is chosen with Shift and 1 to 6. It turns "
                    "and zooms like the first; double-click: as at first. V moves it."};
        case HelpTopic::Transport:
            return {"Playing",
                    "Space plays and pauses, comma and full stop step a frame, minus and equals "
                    "change the speed from 1/8 to 8 times. L loops the figure, I and O mark a loop "
                    "of one's own."};
        case HelpTopic::Ruler:
            return {"Time",
                    "Drag to go there. Wheel: zoom; with Shift: move. The line with the bob is "
                    "now. Shift L chooses the lanes; drag the upper edge for more room."};
        case HelpTopic::Figures:
            return {"Figures in time",
                    "Click a block to go to its start, Page up and down for the one before and "
                    "after. The short strokes below are the narrator's cues: click to play from "
                    "there."};
        case HelpTopic::Cues:
            return {
                "The narrator's cues",
                "When each comes, between which times 9 of 10 imperfect flights bring it, what "
                "the figure text says there. Double-click or Enter: write the words to say, Tab "
                "goes on to the next. [silence 6 s] in square brackets is done, not said. "
                "Filled triangle: too many words before the next cue."};
        case HelpTopic::CuePace:
            return {"Back to the figures; how fast the narrator speaks",
                    "Words that fit are counted at this pace, a second kept free before the next "
                    "cue. F6 opens and closes the brief."};
        case HelpTopic::BriefPage:
            return {"A page of the brief",
                    "As it will be printed. Wheel: closer; drag: move; double-click: all of it. "
                    "Ctrl F6 turns the page, Shift F6 writes all of them into a folder beside the "
                    "routine. A letter that no font has needs one: F2, Font for other scripts."};
        case HelpTopic::Start:
            return {"Three ways to begin",
                    "The demo, a routine of one's own, or a file. Everything else is found with "
                    "F2."};
        case HelpTopic::Prompter:
            return {"The narrator's prompter",
                    "Left the words, those to come in grey; right when the next cue comes and how "
                    "many words fit. Enter goes live, then each Enter says that the cue is now "
                    "and times all that follows anew. X: the next figure is left out, A: this one "
                    "again, Backspace takes back. W: a second window. F1: all its keys."};
        case HelpTopic::Walk:
            return {"The walk-through",
                    "The routine in real time, called out to be walked with the hands: large the "
                    "call that is heard, below it the next. Minus and equals change how early a "
                    "call comes, Space holds, M silences, F9 ends."};
    }
    return {"Help",
            "Put the pointer on anything to read what it is. While a figure is written, this is "
            "about the line at the caret. F1 shows every key, F3 closes this."};
}

HelpText helpOn(scene::View view) {
    switch (view) {
        case scene::View::Crowd:
            return {"From the crowd",
                    "Wheel: the lens, 24 to 400 mm. Drag: turn the head; F follows again. Right "
                    "drag: another seat along the line or farther back; Shift S sits down. R: as "
                    "at first. Click the path: go to that moment."};
        case scene::View::Judge:
            return {"From the judge's seat",
                    "The site file says where it stands. Wheel: the lens. Drag: turn the head; F "
                    "follows again. Click the path: go to that moment."};
        case scene::View::Cockpit:
            return {"From the cockpit",
                    "A and D look along the wings, where the sighting frames stand, W up, X at the "
                    "instruments, S ahead. Drag: turn the head. G shows or hides the frames."};
        case scene::View::Chase:
            return {"Behind the aircraft",
                    "Drag: go round it. Wheel: nearer or farther. Saffron is the canopy's side, "
                    "indigo the wheels'; only the left wing has a band. Click the path: go to that "
                    "moment."};
        case scene::View::Map:
            return {"From above",
                    "Crowd at the bottom, true to scale; aircraft and path are drawn larger where "
                    "they would be specks. Drag: move. Wheel: zoom. R: all of it."};
        case scene::View::Free:
            break;
    }
    return {"Freely",
            "Drag: go round. Right drag: move the middle. Wheel: nearer or farther. F stays with "
            "the aircraft. Click the path: go to that moment."};
}

HelpText helpOn(model::Lane lane) {
    using model::Lane;
    switch (lane) {
        case Lane::Cues:
            return {"Cues",
                    "The narrator's words from the moment they are due. Click: play from "
                    "there."};
        case Lane::Height:
            return {"Height", "Over show centre. The dotted line is the site's floor."};
        case Lane::Load:
            return {"Load",
                    "As the meter reads it, in the colours of the path; each bar is its "
                    "extreme, so that no peak hides."};
        case Lane::Speed:
            return {"Speed", "Through the air; of a recording without airspeed over the ground."};
        case Lane::Power:
            return {"Power", "The power setting, nothing to full."};
        case Lane::Apart:
            return {"Apart", "How far the second path is away, at the same place in the figure."};
        case Lane::Heard:
            return {"Heard",
                    "The power setting as the seat hears it: later than it is seen by the sound's "
                    "way. Standing air of show centre's temperature; nothing of how loud it is."};
        case Lane::Smoke:
            return {"Smoke", "When it is on."};
        case Lane::Reach:
            return {"Reach without engine",
                    "Raspberry: should the engine stop there, no landing strip is within the glide "
                    "from that height and speed, turns and wind included. E shows the ground in "
                    "reach. An indication; the flare and obstacles are not in it."};
        case Lane::Logged:
            return {"Logged",
                    "A bar for each stream of the recording: holes are holes, raspberry "
                    "marks what did not fit the rest and was let go."};
        case Lane::Music:
            return {"Music", "How loud the track is; it plays in step. M: music or silence."};
        case Lane::Remarks:
            return {"Remarks",
                    "What coach and pilot said of moments. Click: go there. N says something, "
                    "Shift N changes it."};
        case Lane::Findings:
            break;
    }
    return {"Findings",
            "Filled triangle: unsafe. Open: tight. Dot: a note. Click one or press F8; "
            "the words stand in the figure."};
}

std::optional<HelpText> helpOnLine(const std::string& line) {
    const std::size_t begin = line.find_first_not_of(" \t0123456789");
    if (begin == std::string::npos) return std::nullopt;
    std::string word = line.substr(begin, line.find_first_of(" \t\n", begin) - begin);
    if (word == "pivots") word = "pivot";
    const text::WordHelp* help = text::helpOnWord(word);
    if (help == nullptr) return std::nullopt;
    return HelpText{std::string(help->word),
                    std::string(help->about) + " For example: " + std::string(help->example)};
}

}  // namespace plumbline::ui
