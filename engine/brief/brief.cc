#include "engine/brief/brief.h"

#include "engine/brief/captions.h"
#include "engine/brief/card.h"
#include "engine/brief/cue_sheet.h"
#include "engine/brief/director_sheet.h"
#include "engine/brief/narration.h"
#include "engine/brief/outline.h"

namespace plumbline::brief {

Expected<Brief, std::string> makeBrief(const variant::Flown& flown, const page::Fonts& fonts,
                                       const Wishes& wishes) {
    const Outline outline = outlineOf(flown, wishes.units);
    const page::Paper large = wishes.letter ? page::Paper::Letter : page::Paper::A4;
    const page::Paper small = wishes.letter ? page::Paper::HalfLetter : page::Paper::A5;
    Brief brief;
    const auto add = [&](const std::string& file, const std::string& kind, page::Paper paper,
                         auto draw) -> std::string {
        page::Document document(paper, fonts, outline.title + ": " + kind);
        Sheet sheet{file, "", draw(document)};
        Expected<std::string, std::string> bytes = document.finish();
        if (!bytes) return bytes.error();
        sheet.bytes = std::move(bytes).value();
        brief.sheets.push_back(std::move(sheet));
        return "";
    };
    std::string failed = add("card.pdf", "kneeboard card", small, [&](page::Document& document) {
        return drawCard(document, outline, flown, wishes.units);
    });
    if (!failed.empty()) return Unexpected(failed);
    const Narration narration = narrate(flown, outline, wishes);
    failed = add("cues.pdf", "cue sheet", large, [&](page::Document& document) {
        return drawCueSheet(document, outline, narration, flown, wishes.units);
    });
    if (!failed.empty()) return Unexpected(failed);
    failed = add("director.pdf", "display director's sheet", large, [&](page::Document& document) {
        return drawDirectorSheet(document, outline, flown, wishes.units);
    });
    if (!failed.empty()) return Unexpected(failed);

    const std::vector<Caption> captions = captionsOf(narration, outline.path.duration_s());
    brief.captions.push_back({"captions.vtt", webVtt(captions, narration, outline)});
    brief.captions.push_back({"captions.srt", srt(captions)});

    if (!outline.warning.empty()) brief.remarks.push_back(outline.warning);
    if (!outline.declination_rad) brief.remarks.push_back(outline.magnetic);
    for (const Cue& cue : narration.cues)
        if (cue.too_many > 0)
            brief.remarks.push_back(
                outline.acts[cue.act].name + ": the narration is " + std::to_string(cue.too_many) +
                (cue.too_many == 1 ? " word" : " words") + " too long before the next cue");
    if (const std::string missing = fonts.missing(); !missing.empty())
        brief.remarks.push_back("no font has " + missing + ": give --font a file that has them");
    return brief;
}

}  // namespace plumbline::brief
