// In a browser the cue sheet goes to the browser's printer, as a table.

#include <cmath>
#include <string>
#include <utility>

#include "engine/base/number_text.h"
#include "engine/out/xml_text.h"
#include "engine/units/quantity.h"
#include "viewer/model/brief_desk.h"
#include "viewer/model/model.h"
#include "viewer/model/say.h"

namespace plumbline::model {
namespace {

/// An element of HTML whose text came from anybody.
std::string element(const char* name, const std::string& words) {
    return "<" + std::string(name) + ">" + out::xmlText(words) + "</" + name + ">";
}

std::string rowOf(const brief::Cue& cue, const brief::Outline& outline) {
    const brief::Act& act = outline.acts[cue.act];
    const std::string early = units::formatTime(cue.early_s), late = units::formatTime(cue.late_s);
    std::string row = "<tr><td>" + element("b", early == late ? early : early + " to " + late) +
                      "<br>" + element("small", "plan " + units::formatTime(cue.time_s)) +
                      "</td><td>" + element("b", std::to_string(act.number) + "  " + act.name);
    for (const std::string& beat : cue.beats) row += " " + element("i", beat);
    row += "<p>";
    for (const brief::ScriptPart& part : cue.script.parts)
        row += part.spoken ? out::xmlText(part.words) + " "
                           : element("small", "[" + part.words + "]") + " ";
    if (cue.script.empty()) row += out::xmlText(cue.words);
    row += "</p>" + element("small", cue.look) + "</td><td>";
    const std::string words = cue.script.words > 0
                                  ? formatFixed(std::ceil(cue.script.words - 1e-9), 0)
                                  : std::string("\u2013");
    row += element("b", words) + " / " + std::to_string(cue.fit);
    if (cue.too_many > 0) row += "<br>" + element("b", std::to_string(cue.too_many) + " too many");
    return row + "</td></tr>";
}

std::string cueTable(const brief::Content& content) {
    const brief::Outline& outline = content.outline;
    const brief::Narration& narration = content.narration;
    std::string html = element("h1", outline.title + ": cue sheet for the narrator");
    std::string head = outline.site + ", " + outline.day + ". " + outline.wind + ". " +
                       outline.revision + ". " + formatFixed(narration.words_per_min, 0) +
                       " words a minute.";
    if (!outline.variant.empty()) head = outline.variant + ". " + head;
    html += element("p", head);
    if (!outline.warning.empty()) html += "<p>" + element("b", outline.warning) + "</p>";
    html +=
        "<table><thead><tr><th>comes between</th><th>say</th><th>words / that fit</th></tr>"
        "</thead><tbody><tr><td><b>0:00</b></td><td><b>First radio call</b><p>The clock starts "
        "here.";
    if (!narration.music.empty()) html += " Music: " + out::xmlText(narration.music) + ".";
    html += "</p></td><td></td></tr>";
    for (const brief::Cue& cue : narration.cues) html += rowOf(cue, outline);
    html += "</tbody></table>";
    std::string foot = "Times count from the first radio call. ";
    if (narration.flights > 0)
        foot += "Between: where 9 of 10 of " + std::to_string(narration.flights) +
                " flights with a pilot's usual errors come. ";
    foot +=
        "A planning and training aid with a simplified model; no approval to fly. Limits come "
        "from the aircraft's documents, the display authority and a licensed evaluator.";
    return html + element("p", foot);
}

}  // namespace

std::filesystem::path briefFolder(const Model&) { return {}; }

void BriefDesk::write(Model& model) {
    const Brief& brief = model.brief;
    if (!model.shown || !model.shown->workspace || !model.editor.stand_in.empty() || !brief.made) {
        say(model, "There is no flown routine to print cues of yet: open the brief (F6) first",
            true);
        return;
    }
    model.brief.to_print = cueTable(brief.made->content);
}

}  // namespace plumbline::model
