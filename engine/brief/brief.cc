#include "engine/brief/brief.h"

#include "engine/brief/captions.h"
#include "engine/brief/card.h"
#include "engine/brief/cue_sheet.h"
#include "engine/brief/director_sheet.h"

namespace plumbline::brief {
namespace {

std::string nameOf(SheetKind kind) {
    switch (kind) {
        case SheetKind::Card:
            return "kneeboard card";
        case SheetKind::Cues:
            return "cue sheet";
        case SheetKind::Director:
            break;
    }
    return "display director's sheet";
}

/// @return how many pages
int draw(page::Document& document, SheetKind kind, const variant::Flown& flown,
         const Content& content, units::DisplayUnits units) {
    switch (kind) {
        case SheetKind::Card:
            return drawCard(document, content.outline, flown, units);
        case SheetKind::Cues:
            return drawCueSheet(document, content.outline, content.narration, flown, units);
        case SheetKind::Director:
            break;
    }
    return drawDirectorSheet(document, content.outline, flown, units);
}

std::vector<std::string> remarksOn(const Content& content, const page::Fonts& fonts) {
    const Outline& outline = content.outline;
    std::vector<std::string> remarks;
    if (!outline.warning.empty()) remarks.push_back(outline.warning);
    if (!outline.declination_rad) remarks.push_back(outline.magnetic);
    for (const Cue& cue : content.narration.cues)
        if (cue.too_many > 0)
            remarks.push_back(
                outline.acts[cue.act].name + ": the narration is " + std::to_string(cue.too_many) +
                (cue.too_many == 1 ? " word" : " words") + " too long before the next cue");
    if (const std::string missing = fonts.missing(); !missing.empty())
        remarks.push_back("no font has " + missing + ": give --font a file that has them");
    return remarks;
}

}  // namespace

std::string fileOf(SheetKind kind) {
    switch (kind) {
        case SheetKind::Card:
            return "card.pdf";
        case SheetKind::Cues:
            return "cues.pdf";
        case SheetKind::Director:
            break;
    }
    return "director.pdf";
}

page::Document pagesOf(SheetKind kind, const variant::Flown& flown, const Content& content,
                       const page::Fonts& fonts, const Wishes& wishes) {
    page::Document document(page::sizeOf(paperOf(kind, wishes.letter)), fonts);
    draw(document, kind, flown, content, wishes.units);
    return document;
}

Expected<Brief, std::string> makeBrief(const variant::Flown& flown, const page::Fonts& fonts,
                                       const Wishes& wishes) {
    Content content;
    content.outline = outlineOf(flown, wishes.units);
    content.narration = narrate(flown, content.outline, timeCues(flown, wishes), wishes);
    return makeBrief(flown, content, fonts, wishes);
}

Expected<Brief, std::string> makeBrief(const variant::Flown& flown, const Content& content,
                                       const page::Fonts& fonts, const Wishes& wishes) {
    Brief brief;
    for (const SheetKind kind : kSheetKinds) {
        page::Document document(paperOf(kind, wishes.letter), fonts,
                                content.outline.title + ": " + nameOf(kind));
        Sheet sheet{fileOf(kind), "", draw(document, kind, flown, content, wishes.units)};
        Expected<std::string, std::string> bytes = document.finish();
        if (!bytes) return Unexpected(bytes.error());
        sheet.bytes = std::move(bytes).value();
        brief.sheets.push_back(std::move(sheet));
    }
    const Narration& narration = content.narration;
    const std::vector<Caption> captions = captionsOf(narration, content.outline.path.duration_s());
    brief.captions.push_back({"captions.vtt", webVtt(captions, narration, content.outline)});
    brief.captions.push_back({"captions.srt", srt(captions)});
    brief.remarks = remarksOn(content, fonts);
    return brief;
}

}  // namespace plumbline::brief
