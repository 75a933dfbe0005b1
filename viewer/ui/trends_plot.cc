// A measure of a figure over the season's sorties.

#include <algorithm>
#include <cmath>

#include "engine/record/clock_text.h"
#include "engine/season/trend_plot.h"
#include "viewer/ui/quantity_text.h"
#include "viewer/ui/sheet_parts.h"
#include "viewer/ui/trends_parts.h"

namespace plumbline::ui {
namespace {

std::string dayOf(double utc_s) { return record::formatUtc(utc_s).substr(0, 10); }

void replaceAll(std::string& text, const std::string& from, const std::string& to) {
    for (std::size_t at = text.find(from); at != std::string::npos;
         at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
}

/// Words of a command as the window has them.
std::string typeset(std::string text) {
    if (!text.empty() && text[0] == '-') text.replace(0, 1, "\u2212");
    replaceAll(text, " deg", "\u00B0");
    replaceAll(text, " +- ", " \u00B1");
    const std::size_t unit = text.rfind(' ');
    if (unit != std::string::npos && text.compare(unit, 3, " \u00B1") != 0)
        text.replace(unit, 1, "\u2009");
    return text;
}

class Plot {
public:
    Plot(const PanelInput& in, const season::Trend& trend, const Rect& rect)
        : in_(in),
          c_(in.canvas),
          theme_(in.canvas.theme()),
          trend_(trend),
          rect_(rect),
          field_(model::trendField(trend)),
          box_{rect.x + c_.px(72), rect.y + c_.px(28), rect.width - c_.px(84),
               rect.height - c_.px(54)} {}

    void draw() const {
        if (box_.width < c_.px(40) || box_.height < c_.px(24)) return;
        const std::string title =
            trend_.element.empty() ? std::string(trend_.kind.name) : trend_.element;
        const float end = c_.text(rect_.x, rect_.y, kStrong, theme_.ink, capitalised(title));
        c_.textClipped(end + c_.px(12), rect_.y + c_.px(1), rect_.right(), kNote, theme_.ink2,
                       courseWords());
        axes();
        planned();
        if (field_.line) {
            const ImVec2 ends[2] = {at(0, field_.line->first), at(1, field_.line->second)};
            c_.stroke(ends, theme_.ink2, 1);
        }
        discs();
        under();
    }

private:
    ImVec2 at(double x, double y) const {
        const float inside = c_.px(8);  // the first and the last disc stay clear of the frame
        return {
            std::round(box_.x + inside + (box_.width - 2 * inside) * static_cast<float>(x)),
            std::round(box_.bottom() - box_.height * static_cast<float>(std::clamp(y, 0.0, 1.0)))};
    }
    std::string words(double value, std::optional<double> sigma) const {
        return trendValueText(trend_, value, sigma, in_.model.session.units);
    }
    std::string courseWords() const {
        return "mean " + words(trend_.mean, trend_.points.back().sigma) + ", " +
               std::to_string(trend_.points.size()) +
               " times: " + season::courseWords(trend_.course);
    }

    void axes() const {
        c_.across(box_.x, box_.right(), box_.bottom(), theme_.line);
        c_.down(box_.x, box_.y, box_.bottom(), theme_.line);
        const auto [low, high] =
            std::minmax_element(trend_.points.begin(), trend_.points.end(),
                                [](const auto& a, const auto& b) { return a.value < b.value; });
        const float top = label(high->value, high->sigma, -1e6F);
        if (words(low->value, low->sigma) != words(high->value, high->sigma))
            label(low->value, low->sigma, top);
        if (field_.least < 0 && field_.most > 0)
            c_.across(box_.x, box_.right(), at(0, field_.yOf(0)).y, theme_.line);
        const float foot = box_.bottom() + c_.px(6);
        c_.text(box_.x, foot, kSmall, theme_.ink3, dayOf(trend_.points.front().utc_s));
        c_.textRight(box_.right(), foot, kSmall, theme_.ink3, dayOf(trend_.points.back().utc_s));
    }
    /// Left of the axis unless it would stand on the one above it; returns where it stands.
    float label(double value, std::optional<double> sigma, float above) const {
        const float y = at(0, field_.yOf(value)).y;
        if (y - above < c_.px(14)) return above;
        c_.textRight(box_.x - c_.px(8), y - c_.px(7), kSmall, theme_.ink2, words(value, sigma));
        return y;
    }

    /// A new plan is a step at the flight it was first flown to.
    void planned() const {
        for (std::size_t i = 1; i < field_.marks.size(); ++i) {
            if (!field_.planned[i - 1] || !field_.planned[i]) continue;
            const ImVec2 from = at(field_.marks[i - 1].x, *field_.planned[i - 1]);
            const ImVec2 to = at(field_.marks[i].x, *field_.planned[i]);
            c_.dotted(from.x, to.x, from.y, theme_.ink2, 6, 4);
            if (from.y != to.y)
                c_.down(to.x, std::min(from.y, to.y), std::max(from.y, to.y), theme_.ink2);
        }
    }

    void discs() const {
        const float half = std::max(1.0F, c_.px(2));
        for (const model::TrendField::Mark& mark : field_.marks) {
            if (mark.high <= mark.low) continue;
            const ImVec2 low = at(mark.x, mark.low), high = at(mark.x, mark.high);
            c_.fill(Rect{low.x - half, high.y, 2 * half, low.y - high.y},
                    faded(theme_.flight, 0.35));
        }
        for (const model::TrendField::Mark& mark : field_.marks)
            c_.list()->AddCircleFilled(at(mark.x, mark.y), 4 * c_.scale(), theme_.flight, 20);
    }

    /// The disc nearest to the pointer in words.
    void under() const {
        const ImVec2 pointer = ImGui::GetIO().MousePos;
        if (in_.model.list.kind != model::ListKind::None || !rect_.contains(pointer.x, pointer.y))
            return;
        float nearest = c_.px(16);
        int found = -1;
        for (std::size_t i = 0; i < field_.marks.size(); ++i) {
            const ImVec2 disc = at(field_.marks[i].x, field_.marks[i].y);
            const float away = std::hypot(disc.x - pointer.x, disc.y - pointer.y);
            if (away >= nearest) continue;
            nearest = away;
            found = static_cast<int>(i);
        }
        if (found < 0) return;
        const season::TrendPoint& p = trend_.points[static_cast<std::size_t>(found)];
        const model::TrendField::Mark& mark = field_.marks[static_cast<std::size_t>(found)];
        std::string text = typeset(season::measuredWords(trend_.kind, p.value, p.sigma,
                                                         displayUnits(in_.model.session.units)));
        if (p.planned) text += ", plan " + words(*p.planned, {});
        const std::string where = "sortie " + std::to_string(p.sortie) + " of " + dayOf(p.utc_s);
        const ImVec2 disc = at(mark.x, mark.y);
        c_.list()->AddCircle(disc, 7 * c_.scale(), theme_.ink, 24, 1.5F * c_.scale());
        const float width =
            std::max(c_.textWidth(kNoteStrong, text), c_.textWidth(kNote, where)) + c_.px(20);
        const float x =
            std::clamp(disc.x + c_.px(14), rect_.x, std::max(rect_.x, rect_.right() - width));
        // Above the disc, or below it where there is no room.
        float y = disc.y - c_.px(54);
        if (y < rect_.y) y = disc.y + c_.px(14);
        c_.fill(Rect{x, y, width, c_.px(42)}, theme_.line);
        c_.text(x + c_.px(10), y + c_.px(4), kNoteStrong, theme_.ink, text);
        c_.text(x + c_.px(10), y + c_.px(21), kNote, theme_.ink2, where);
    }

    const PanelInput& in_;
    const Canvas& c_;
    const Theme& theme_;
    const season::Trend& trend_;
    Rect rect_;
    model::TrendField field_;
    Rect box_;
};

}  // namespace

std::string trendValueText(const season::Trend& trend, double value, std::optional<double> sigma,
                           model::UnitChoice units) {
    return typeset(season::measureWords(trend.kind, value, sigma, displayUnits(units)));
}

void drawTrendPlot(const PanelInput& in, const season::Trend& trend, const Rect& rect) {
    Plot(in, trend, rect).draw();
}

}  // namespace plumbline::ui
