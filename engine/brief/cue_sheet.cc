#include "engine/brief/cue_sheet.h"

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/brief/head.h"
#include "engine/brief/small_picture.h"

namespace plumbline::brief {
namespace {

using page::Align;
using page::Document;
using page::Point;

constexpr double kTime_mm = 35, kPicture_mm = 24, kFit_mm = 21, kGap_mm = 4;
constexpr double kNameSize_pt = 9, kLookSize_pt = 8;

struct Columns {
    double left, picture, say, say_width, right;
    explicit Columns(const Document& document) {
        left = marginOf(document);
        right = left + widthOf(document);
        picture = left + kTime_mm + kGap_mm;
        say = picture + kPicture_mm + kGap_mm;
        say_width = right - kFit_mm - say - kGap_mm;
    }
};

page::Text sayText(const Cue& cue) {
    page::Text text;
    for (const ScriptPart& part : cue.script.parts)
        text.push_back(
            {(text.empty() ? "" : " ") + (part.spoken ? part.words : "[" + part.words + "]"),
             part.spoken ? plain(kSay_pt) : quiet(kLookSize_pt)});
    if (text.empty() && !cue.words.empty()) text.push_back({cue.words, quiet(kSay_pt)});
    return text;
}

struct Row {
    const Cue* cue = nullptr;  ///< null: the first call
    double height_mm = 0;
};

double rowHeight(const Document& document, const Columns& x, const Cue& cue) {
    const page::Text look = {{cue.look, quiet(kLookSize_pt)}};
    double height_mm = 5 + document.heightOf_mm(x.say_width, sayText(cue)) + 0.8 +
                       document.heightOf_mm(x.say_width, look) + 2.4;
    return std::max(height_mm, 17.0);
}

std::string timeWords(double time_s) { return units::formatTime(time_s); }

void drawWindow(Document& document, double x_mm, double y_mm, const Cue& cue) {
    // The same scale for all: half a minute, the plan in the middle.
    constexpr double kWidth_mm = 32, kHalf_s = 15;
    const double per_s = 0.5 * kWidth_mm / kHalf_s, middle_mm = x_mm + 0.5 * kWidth_mm;
    const auto at = [&](double from_plan_s) {
        return middle_mm + per_s * std::clamp(from_plan_s, -kHalf_s, kHalf_s);
    };
    document.line({x_mm, y_mm}, {x_mm + kWidth_mm, y_mm}, {0.6, page::kHairline});
    const double early_mm = at(cue.early_s - cue.time_s), late_mm = at(cue.late_s - cue.time_s);
    document.fill(page::Box{early_mm, y_mm - 0.7, std::max(0.3, late_mm - early_mm), 1.4},
                  page::Colour{0.72, 0.72, 0.70});
    document.line({middle_mm, y_mm - 1.3}, {middle_mm, y_mm + 1.3}, {1.3, page::kInk});
}

void drawCue(Document& document, const Outline& outline, const Columns& x, const Cue& cue,
             double top_mm, double height_mm) {
    const Act& act = outline.acts[cue.act];
    const std::string early = timeWords(cue.early_s), late = timeWords(cue.late_s);
    page::Text time = {{early, heavy(13)}};
    if (late != early) time.push_back({" to " + late, plain(13)});
    document.words({x.left, top_mm + 5.6}, time);
    drawWindow(document, x.left, top_mm + 9, cue);
    document.words({x.left, top_mm + 13}, {{"plan " + timeWords(cue.time_s), quiet(kLeast_pt)}});
    if (cue.first)
        drawSmallPicture(document,
                         {x.picture, top_mm + 1.5, kPicture_mm, std::min(height_mm - 3, 15.0)},
                         outline.path, act.start_s, act.stop_s, outline.span_m);

    // The number by itself: it stands first in any script.
    const page::Text number = {{std::to_string(act.number), strong(kNameSize_pt)}};
    const double name_mm = x.say + document.widthOf_mm(number) + 1.8;
    const page::Text name = {
        {fitted(document, act.name, strong(kNameSize_pt), x.say + x.say_width - name_mm),
         strong(kNameSize_pt)}};
    document.words({x.say, top_mm + 4.6}, number);
    document.words({name_mm, top_mm + 4.6}, name);
    double tag_mm = name_mm + document.widthOf_mm(name) + 2.5;
    for (const std::string& beat : cue.beats) {
        const double width_mm = document.widthOf_mm({{beat, plain(7.4)}}) + 3;
        if (tag_mm + width_mm > x.right - kFit_mm) break;
        tag_mm += drawTag(document, {tag_mm, top_mm + 4.5}, beat) + 1.6;
    }
    double y_mm = top_mm + 5.8;
    y_mm += document.paragraph({x.say, y_mm}, x.say_width, sayText(cue)) + 0.8;
    document.paragraph({x.say, y_mm}, x.say_width, {{cue.look, quiet(kLookSize_pt)}});

    if (cue.script.words > 0) {
        const int words = static_cast<int>(std::ceil(cue.script.words - 1e-9));
        document.words(
            {x.right, top_mm + 4.8},
            {{std::to_string(words), heavy(10)}, {" / " + std::to_string(cue.fit), plain(10)}},
            Align::Right);
        if (cue.too_many > 0) {
            const page::Text warning = {{std::to_string(cue.too_many) + " too many", heavy(8)}};
            document.words({x.right, top_mm + 9.2}, warning, Align::Right);
            const double tip_mm = x.right - document.widthOf_mm(warning) - 3;
            const Point triangle[] = {
                {tip_mm, top_mm + 9.2}, {tip_mm + 1.1, top_mm + 7.1}, {tip_mm + 2.2, top_mm + 9.2}};
            document.fill(triangle, page::kInk);
        }
    } else {
        document.words({x.right, top_mm + 4.8},
                       {{"\u2013 / " + std::to_string(cue.fit), quiet(10)}}, Align::Right);
    }
}

page::Text firstCallWords(const Narration& narration) {
    return {{"The clock starts here. " +
                 (narration.music.empty() ? std::string() : "Music: " + narration.music + "."),
             plain(10)}};
}

double firstCallHeight_mm(const Document& document, const Columns& x, const Narration& narration) {
    return 8.5 + document.heightOf_mm(x.say_width, firstCallWords(narration));
}

void drawFirstCall(Document& document, const Columns& x, const Narration& narration,
                   double top_mm) {
    document.words({x.left, top_mm + 5.6}, {{"0:00", heavy(13)}});
    document.words({x.say, top_mm + 4.6}, {{"First radio call", strong(kNameSize_pt)}});
    drawTag(document,
            {x.say + document.widthOf_mm({{"First radio call", strong(kNameSize_pt)}}) + 2.5,
             top_mm + 4.5},
            "radio");
    document.paragraph({x.say, top_mm + 5.8}, x.say_width, firstCallWords(narration));
}

std::string footWords(const Narration& narration) {
    std::string words = "Times count from the first radio call. ";
    if (narration.flights > 0)
        words +=
            "Grey: where 9 of 10 of " + std::to_string(narration.flights) +
            " flights with a pilot's usual errors come; the tick is the plan. A figure left out "
            "or repeated moves all that follows. ";
    return words + "Words that fit: at " + formatFixed(narration.words_per_min, 0) +
           " words a minute, a second kept free before the next cue.";
}

void drawColumnNames(Document& document, const Columns& x, double y_mm) {
    document.words({x.left, y_mm}, {{"comes between", quiet(8)}});
    document.words({x.say, y_mm}, {{"say", quiet(8)}});
    document.words({x.right, y_mm}, {{"words / that fit", quiet(8)}}, Align::Right);
}

}  // namespace

int drawCueSheet(Document& document, const Outline& outline, const Narration& narration,
                 const variant::Flown&, units::DisplayUnits) {
    const Columns x(document);
    const std::string foot = footWords(narration);
    const std::string pace = formatFixed(narration.words_per_min, 0) + " words a minute";
    // How many pages stands on each: first where the rows go.
    constexpr double kHead_mm = 33, kNames_mm = 5;
    const double bottom_mm = footTop(document, outline, foot) - 2;
    std::vector<std::vector<Row>> pages(1);
    const double first_call_mm = firstCallHeight_mm(document, x, narration);
    double y_mm = kHead_mm + kNames_mm + first_call_mm;
    for (const Cue& cue : narration.cues) {
        const double height_mm = rowHeight(document, x, cue);
        if (y_mm + height_mm > bottom_mm && !pages.back().empty()) {
            pages.emplace_back();
            y_mm = kHead_mm + kNames_mm;
        }
        pages.back().push_back({&cue, height_mm});
        y_mm += height_mm;
    }
    for (std::size_t p = 0; p < pages.size(); ++p) {
        if (p > 0) document.newPage();
        const std::string page = pageWords(static_cast<int>(p) + 1, static_cast<int>(pages.size()));
        const double head_mm =
            drawHead(document, outline, "Cue sheet for the narrator", pace, page);
        drawColumnNames(document, x, head_mm + 4);
        double row_mm = kHead_mm + kNames_mm;
        const auto rule = [&] {
            document.line({x.left, row_mm}, {x.right, row_mm}, {0.5, page::kHairline});
        };
        if (p == 0) {
            drawFirstCall(document, x, narration, row_mm);
            row_mm += first_call_mm;
            rule();
        }
        for (const Row& row : pages[p]) {
            drawCue(document, outline, x, *row.cue, row_mm, row.height_mm);
            row_mm += row.height_mm;
            rule();
        }
        drawFoot(document, outline, foot, page);
    }
    return static_cast<int>(pages.size());
}

}  // namespace plumbline::brief
