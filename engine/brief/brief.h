#pragma once
// The sheets that everyone is briefed with: the pilot's card, the narrator's cues, the display
// director's outline.

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "engine/base/expected.h"
#include "engine/brief/narration.h"
#include "engine/brief/outline.h"
#include "engine/brief/script.h"
#include "engine/page/document.h"
#include "engine/page/fonts.h"
#include "engine/page/paper.h"
#include "engine/system/parallel.h"
#include "engine/units/quantity.h"
#include "engine/variant/variant.h"

namespace plumbline::brief {

struct Wishes {
    bool letter = false;  ///< letter and half-letter, else A4 and A5
    units::DisplayUnits units = units::DisplayUnits::Aviation;
    double words_per_min = kWordsPerMin;
    std::uint64_t flights =
        200;  ///< for the cues' windows; chosen: their ends are good to a second
    std::uint64_t seed = 1;
    system::Executor executor = system::serial();
    std::function<bool(std::uint64_t done)> progress = nullptr;  ///< see margins::Wishes
    std::function<bool()> give_up = nullptr;                     ///< likewise
};

/// The sheets, in the order they are made.
enum class SheetKind { Card, Cues, Director };
inline constexpr SheetKind kSheetKinds[] = {SheetKind::Card, SheetKind::Cues, SheetKind::Director};
/// "card.pdf".
std::string fileOf(SheetKind kind);
/// What a sheet is printed on.
inline page::Paper paperOf(SheetKind kind, bool letter) {
    if (kind == SheetKind::Card) return letter ? page::Paper::HalfLetter : page::Paper::A5;
    return letter ? page::Paper::Letter : page::Paper::A4;
}

/// What the sheets are laid out from.
struct Content {
    Outline outline;
    Narration narration;
};

struct Sheet {
    std::string file;  ///< "card.pdf"
    std::string bytes;
    int pages = 0;
};

struct TextFile {
    std::string file;  ///< "captions.vtt"
    std::string text;
};

struct Brief {
    std::vector<Sheet> sheets;
    std::vector<TextFile> captions;    ///< the narrator's script: WebVTT and SRT
    std::vector<std::string> remarks;  ///< what is amiss with them; one clause each
};

/// All sheets of a routine as it was flown. The same inputs give the same bytes.
/// @errors what the maker of pages says
Expected<Brief, std::string> makeBrief(const variant::Flown& flown, const page::Fonts& fonts,
                                       const Wishes& wishes);
/// The same of what was looked at before.
Expected<Brief, std::string> makeBrief(const variant::Flown& flown, const Content& content,
                                       const page::Fonts& fonts, const Wishes& wishes);

/// One sheet as pages to be looked at: what the file will show.
page::Document pagesOf(SheetKind kind, const variant::Flown& flown, const Content& content,
                       const page::Fonts& fonts, const Wishes& wishes);

}  // namespace plumbline::brief
