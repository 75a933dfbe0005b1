#pragma once
// The brief in the window: which page is looked at and where, what was made of it, and the
// narrator's cues as they stand in the text.

#include <array>
#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "engine/brief/brief.h"
#include "viewer/model/routine_blocks.h"

namespace plumbline::model {

struct Model;

/// What was made in the background of a routine as it was flown.
struct BriefMade {
    std::uint64_t number = 0;    ///< another one for each
    std::uint64_t revision = 0;  ///< of what was shown then
    brief::Content content;
    std::array<page::Size, 3> sizes{};  ///< of the sheets' pages
    std::array<int, 3> pages{};
    std::string missing;  ///< letters that no font has
};

/// A page, or the part of it in sight, as a picture.
struct PagePicture {
    std::uint64_t number = 0;  ///< of what was made
    int sheet = 0, page = 0;
    page::Box part;  ///< of the page
    double dots_per_mm = 0;
    page::Picture picture;
};

struct Brief {
    bool on = false;
    int sheet = 0;                          ///< brief::SheetKind
    int page = 0;                           ///< from 0
    double zoom = 1;                        ///< 1: the whole page
    double middle_x = 0.5, middle_y = 0.5;  ///< of the page, what stands in the room's middle
    std::shared_ptr<const BriefMade> made;  ///< null: none yet
    std::shared_ptr<const PagePicture> picture;
    double waits_s = 0;                        ///< what is shown has been old for
    double flown_share = 0;                    ///< of the flights for the cues' windows
    std::shared_ptr<const page::Fonts> fonts;  ///< that the words are shown in; null: not read yet
    std::vector<std::string> font_files;       ///< that those are of
    std::string fonts_fault;                   ///< a font file that cannot be used
    std::string to_print;  ///< HTML for a browser's printer, taken by its page; text is escaped
};

inline constexpr double kGreatestZoom = 6;

/// Why the pages are not as they should be; empty: they are.
std::string briefFault(const Model& model);

/// Where a page lies in the room that there is for it.
struct PagePlace {
    double dots_per_mm = 1;
    page::Box part;                  ///< of the page that is in sight, in whole dots
    double left_px = 0, top_px = 0;  ///< of that part in the room
};
PagePlace placeOf(const Brief& brief, const page::Size& size, double width_px, double height_px);

/// Sheets and pages that are there; the page nearest to the wished one.
int sheetShown(const Brief& brief);
int pageShown(const Brief& brief);

/// A cue of the narrator's, or a figure without one.
struct CueRow {
    int row = -1;                      ///< of Model::rows
    bool cue = false;                  ///< false: there is nothing to say in this figure yet
    bool first = true;                 ///< of its figure: the script belongs here
    double time_s = -1;                ///< -1: not flown
    double early_s = -1, late_s = -1;  ///< 5 and 95 % of flights come earlier; -1: not known
    std::string said;                  ///< in the figure text: `cue "..."`
    bool has_script = false;
    TextRange script;    ///< where it stands in the routine's text; empty range: nowhere there
    std::string words;   ///< of the script
    int word_count = 0;  ///< that are spoken
    int fit = -1;        ///< until the next cue; -1: not known
    int too_many = 0;
    std::vector<std::string> beats;  ///< "smoke", "low", "silence 6 s"
};

/// In the order of the rows. The words are those of the text now, the times those of the newest
/// flight.
std::vector<CueRow> cueRows(const Model& model);

/// "12 of 17 words", "17 words fit", "5 words too many".
std::string countWords(const CueRow& row);

}  // namespace plumbline::model
