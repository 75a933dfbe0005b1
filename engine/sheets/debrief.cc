#include "engine/sheets/debrief.h"

#include <algorithm>
#include <set>

#include "engine/brief/small_picture.h"
#include "engine/review/alone.h"
#include "engine/sheets/debrief_tables.h"
#include "engine/sheets/furniture.h"
#include "engine/sheets/scenes.h"
#include "engine/sheets/wording.h"

namespace plumbline::sheets {

using page::Box;
using page::Document;

namespace {

constexpr std::size_t kWorst = 3;

const review::FigureReview* figureNamed(const review::Review& review, const std::string& name) {
    for (const review::FigureReview& f : review.figures)
        if (f.name == name) return &f;
    return nullptr;
}

const path::Figure* plannedFigure(const path::Path& plan, const std::string& name) {
    for (const path::Figure& f : plan.figures)
        if (f.name == name) return &f;
    return nullptr;
}

/// What was found, in a line.
std::string summaryOf(const Sortie& sortie) {
    const review::Review& review = *sortie.review;
    const std::size_t planned = sortie.plan->figures.size();
    std::string text = sortie.workspace->site.name + "; ";
    std::set<std::string> found;
    for (const review::FigureReview& f : review.figures) found.insert(f.name);
    text += std::to_string(found.size()) + " of " + std::to_string(planned) + " figures found";
    if (review.unlike_plan) text += "; it does not look like this plan";
    if (review.part_last > 0) text += "; " + review::partWords(review, planned);
    if (!sortie.variant.empty()) text += "; " + sortie.variant;
    return text;
}

/// One thing to mend with its small picture.
double drawThing(Document& document, double top_mm, std::size_t number, const Sortie& sortie,
                 const review::Remark& remark, double height_mm) {
    const double right_mm = document.size().width_mm - kMargin_mm;
    document.words({kMargin_mm, top_mm + 8}, {{std::to_string(number), heavy(17)}});
    const double span_m = sortie.workspace->aircraft.geometry.span_m;
    const Box picture{kMargin_mm + 10, top_mm + 1.5, 30, height_mm - 3.5};
    if (const auto* figure = figureNamed(*sortie.review, remark.figure))
        brief::drawSmallPicture(document, picture, *sortie.flight, figure->start_s, figure->stop_s,
                                span_m);
    else if (const auto* planned = plannedFigure(*sortie.plan, remark.figure))
        brief::drawSmallPicture(document, picture, *sortie.plan, planned->start_s, planned->stop_s,
                                span_m);
    const double text_mm = kMargin_mm + 45, width_mm = right_mm - text_mm;
    const int in_plan = numberInPlan(sortie, remark.figure);
    std::string where = in_plan > 0 ? "   figure " + std::to_string(in_plan) : "";
    if (figureNamed(*sortie.review, remark.figure))
        where += ", " + units::formatTime(remark.time_s) + " into the recording";
    document.words({text_mm, top_mm + 6.6}, {{remark.figure, strong(10.5)}, {where, quiet(8)}});
    std::string words = withSigns(remark.words);
    if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
        words[0] = static_cast<char>(words[0] - 'a' + 'A');
    double y = top_mm + 8.6;
    y += document.paragraph({text_mm, y}, width_mm, {{words + ".", plain(8.8)}}) + 1.2;
    if (!remark.advice.empty()) drawDo(document, {text_mm, y}, width_mm, withSigns(remark.advice));
    document.line({kMargin_mm, top_mm + height_mm}, {right_mm, top_mm + height_mm},
                  {0.4, page::kHairline});
    return top_mm + height_mm;
}

/// The figure that the pictures show: of the first remark on one that was flown, else the first.
const review::FigureReview* shownFigure(const review::Review& review) {
    for (const review::Remark& remark : review.remarks)
        if (const auto* figure = figureNamed(review, remark.figure)) return figure;
    return review.figures.empty() ? nullptr : &review.figures.front();
}

void drawPictures(Document& document, double top_mm, double height_mm, const Sortie& sortie) {
    const review::FigureReview* figure = shownFigure(*sortie.review);
    if (!figure) return;
    constexpr double kGap = 5;
    const double width_mm = 0.5 * (document.size().width_mm - 2 * kMargin_mm - kGap);
    const Box left{kMargin_mm, top_mm, width_mm, height_mm};
    const Box right{kMargin_mm + width_mm + kGap, top_mm, width_mm, height_mm};
    drawFromCrowd(document, left, sortie, *figure);
    drawFromAbove(document, right, sortie, *figure);
    const data::Site& site = sortie.workspace->site;
    const bool judge = std::any_of(site.viewpoints.begin(), site.viewpoints.end(),
                                   [](const data::Viewpoint& v) { return v.name == "judge"; });
    document.words({left.x_mm, left.bottom_mm() + 3.8},
                   {{figure->name + (judge ? " from the judge\u2019s seat" : " from the crowd") +
                         ": flown blue, plan open, wings twice as wide",
                     quiet(7.2)}});
    document.words({right.x_mm, right.bottom_mm() + 3.8},
                   {{"From above: away from the crowd is up, ticks each 100 m", quiet(7.2)}});
}

void drawFirstPage(Document& document, const Sortie& sortie, double foot_mm) {
    const review::Review& review = *sortie.review;
    double y = drawHead(
        document,
        {sortie.workspace->routine.name + ": as flown", summaryOf(sortie),
         sortie.start_utc.empty() ? "no date in the recording" : dayAndTime(sortie.start_utc),
         windWords(sortie.workspace->weather, sortie.workspace->site, sortie.units) +
             " as planned"});
    const std::size_t worst = std::min(kWorst, review.remarks.size());
    const char* title = worst == 0   ? "Nothing to mend that this recording can show"
                        : worst == 1 ? "One thing worth fixing"
                        : worst == 2 ? "Two things worth fixing"
                                     : "Three things worth fixing first";
    const std::string beside =
        review.remarks.size() > worst
            ? std::to_string(review.remarks.size() - worst) + " more in review.json"
            : "";
    drawTitle(document, {kMargin_mm, y + 8.5}, title, beside);
    y += 11;
    constexpr double kThing_mm = 29;
    for (std::size_t i = 0; i < worst; ++i)
        y = drawThing(document, y, i + 1, sortie, review.remarks[i], kThing_mm);
    if (worst == 0) y += 4;
    constexpr double kPlot_mm = 46;
    y += 5;
    const double pictures_mm = std::min(foot_mm - y - kPlot_mm - 18, 112.0);
    if (!review.figures.empty()) drawPictures(document, y, pictures_mm, sortie);
    y += pictures_mm + 13;
    drawTitle(document, {kMargin_mm, y},
              sortie.units == units::DisplayUnits::Feet ? "Height, ft" : "Height, m",
              "flown blue, plan grey figure by figure, floor dotted; numbers are the plan\u2019s "
              "figures");
    drawHeights(document,
                {kMargin_mm, y + 3, document.size().width_mm - 2 * kMargin_mm, foot_mm - y - 5},
                sortie);
}

}  // namespace

Expected<std::string, std::string> debriefPdf(const Sortie& sortie, const Print& print) {
    const std::string revision =
        "plan " + sortie.workspace->revision() + ", recording " + sortie.log_revision;
    // Lines without room make more pages; how many is known once they are laid out.
    int pages = 2;
    for (int tries = 0;; ++tries) {
        Document document(print.paper, *print.fonts, sortie.workspace->routine.name + ": debrief");
        drawFirstPage(document, sortie, footTop(document));
        drawFoot(document, revision, 1, pages);
        drawTablePages(document, sortie, revision, pages);
        if (document.pages() == pages || tries == 1) return document.finish();
        pages = document.pages();
    }
}

}  // namespace plumbline::sheets
