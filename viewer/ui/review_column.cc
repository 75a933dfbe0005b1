// What is worth mending in a flight: the heaviest first, then every line, slide, loop, roll, pivot.

#include <algorithm>
#include <cmath>

#include "engine/base/measured_text.h"
#include "engine/base/number_text.h"
#include "engine/review/line_words.h"
#include "engine/units/units.h"
#include "viewer/ui/fingers.h"
#include "viewer/ui/quantity_text.h"
#include "viewer/ui/review_parts.h"
#include "viewer/ui/sheet_parts.h"

namespace plumbline::ui {
namespace {

using model::ActionKind;

constexpr float kEntry = 22;    ///< height of a line of numbers
constexpr float kNumbers = 84;  ///< width of a value with its uncertainty

/// Writes from top to bottom; places out of sight take no clicks.
class ReviewColumn {
public:
    ReviewColumn(const PanelInput& in, UiState& state, const Rect& region, float top)
        : in_(in),
          c_(in.canvas),
          theme_(in.canvas.theme()),
          state_(state),
          region_(region),
          x_(region.x + c_.px(kColumnSide)),
          right_(region.right() - c_.px(kColumnSide)),
          y_(top),
          units_(in.model.session.units),
          review_(*in.model.shown->review) {}

    float draw() {
        worst();
        order();
        lines("Every vertical", "wheels", "canopy", true);
        lines("Every 45 and other line", "shallow", "steep", false);
        slides();
        loops();
        rolls();
        pivots();
        turnings();
        tops();
        heading("Remarks", "", "");
        y_ = drawSaid(in_, state_, region_, y_);
        notes();
        return y_;
    }

private:
    /// True where it was clicked.
    bool place(float height, double time_s) {
        const float from = std::max(y_, region_.y), to = std::min(y_ + height, region_.bottom());
        ++id_;
        if (to <= from || time_s < 0) return false;
        const Rect rect{region_.x, from, region_.width, to - from};
        ImGui::PushID(id_);
        const Press pressed = press("mend", rect);
        ImGui::PopID();
        if (pressed.hovered) {
            state_.wants_hand = true;
            state_.hint = "Go to where it was flown";
            c_.fill(rect, theme_.raised);
        }
        if (pressed.clicked) in_.actions.push(ActionKind::Seek, time_s);
        return pressed.clicked;
    }

    bool isMissing(const model::ToMend& one) const {
        const auto& missing = review_.result.missing;
        return std::find(missing.begin(), missing.end(), one.figure) != missing.end();
    }

    void worst() {
        const auto& list = review_.to_mend;
        if (list.empty()) {
            const bool told = !review_.result.figures.empty();
            y_ += c_.paragraph(x_, y_, right_ - x_, kBody, theme_.ink2,
                               told ? "Nothing to mend that this recording can show"
                                    : "This recording does not tell the attitude: figures and "
                                      "lines are told by it") +
                  c_.px(16);
            return;
        }
        const float left = x_ + c_.px(28);
        for (std::size_t i = 0; i < std::min(model::kWorstFew, list.size()); ++i) {
            const model::ToMend& one = list[i];
            const bool missing = isMissing(one);
            std::string under = one.figure;
            if (!missing) under += ", " + timeText(one.time_s);
            if (!one.where.empty()) under += ", " + one.where;
            under += ".";
            if (!one.advice.empty()) under += " " + one.advice;
            const std::string fault = capitalised(one.fault);
            const float head = c_.paragraph(left, y_, right_ - left, kHead, 0, fault, false);
            const float rest = c_.paragraph(left, y_, right_ - left, kBody, 0, under, false);
            place(head + rest + c_.px(16), missing ? -1 : one.time_s);
            c_.text(x_, y_ + c_.px(6), kValue, theme_.ink2, std::to_string(i + 1));
            c_.paragraph(left, y_ + c_.px(8), right_ - left, kHead, theme_.ink, fault);
            c_.paragraph(left, y_ + c_.px(10) + head, right_ - left, kBody, theme_.ink2, under);
            y_ += head + rest + c_.px(20);
            c_.across(x_, right_, y_ - c_.px(1), theme_.line);
        }
        if (list.size() > model::kWorstFew) {
            y_ += c_.px(6);
            c_.text(x_, y_, kNote, theme_.ink3,
                    "and " + std::to_string(list.size() - model::kWorstFew) +
                        " more along the timeline (F8)");
            y_ += c_.px(20);
        }
        y_ += c_.px(10);
    }

    /// Missing, flown again, out of order.
    void order() {
        std::vector<std::pair<std::string, double>> said;
        for (const review::FigureReview& figure : review_.result.figures) {
            if (figure.out_of_order)
                said.emplace_back(figure.name + ": out of order", figure.start_s);
            if (figure.again) said.emplace_back(figure.name + ": once more", figure.start_s);
        }
        const review::Review& result = review_.result;
        if (result.part_last > 0 && review_.plan)
            said.emplace_back(
                capitalised(review::partWords(result, review_.plan->path().figures.size())), -1);
        for (const std::string& name : result.missing)
            if (std::find(result.beyond_part.begin(), result.beyond_part.end(), name) ==
                result.beyond_part.end())
                said.emplace_back(name + ": not flown", -1);
        if (said.empty()) return;
        heading("Figures", "", "");
        for (const auto& [words, time_s] : said) {
            const float height = c_.paragraph(x_, y_, right_ - x_, kNote, 0, words, false);
            const float row = std::max(c_.px(kEntry), height + c_.px(4));
            place(row, time_s);
            c_.paragraph(x_, y_ + c_.px(2), right_ - x_, kNote, theme_.ink, words);
            y_ += row;
        }
        y_ += c_.px(10);
    }

    float scaleMiddle() const { return right_ - c_.px(kNumbers + 12) - scaleHalf(); }
    float scaleHalf() const {
        return std::clamp((right_ - x_ - c_.px(kNumbers + 132)) / 2, c_.px(24), c_.px(56));
    }

    void heading(const char* title, const char* low, const char* high) {
        c_.text(x_, y_, kNoteStrong, theme_.ink, title);
        if (low[0] != '\0') {
            const float middle = scaleMiddle();
            c_.textRight(middle - c_.px(6), y_, kSmall, theme_.ink3, low);
            c_.down(middle, y_ + c_.px(1), y_ + c_.px(13), theme_.edge);
            c_.text(middle + c_.px(7), y_, kSmall, theme_.ink3, high);
        }
        y_ += c_.px(24);
    }

    /// A value from the middle of its scale with the bar that holds it 19 times of 20.
    void scale(double value, double within, double full, bool sure) {
        const float middle = scaleMiddle(), half = scaleHalf(), line = y_ + c_.px(11);
        const auto at = [&](double v) {
            return middle + half * static_cast<float>(std::clamp(v / full, -1.0, 1.0));
        };
        c_.down(middle, line - c_.px(7), line + c_.px(7), theme_.edge);
        for (const float end : {middle - half, middle + half})
            c_.down(std::round(end), line - c_.px(2), line + c_.px(2), theme_.edge);
        if (within > 0) {
            const float from = at(value - within), to = at(value + within);
            c_.fill(Rect{from, line - c_.px(3), std::max(1.0F, to - from), c_.px(7)},
                    faded(theme_.flight, 0.35));
        }
        const float w = std::max(2.0F, std::round(2.5F * c_.scale()));
        c_.fill(Rect{std::round(at(value) - w / 2), line - c_.px(6), w, c_.px(13)},
                sure ? theme_.flight : theme_.ink2);
    }

    void entry(const std::string& name, const std::string& value, double time_s, float name_right,
               bool sure = true) {
        place(c_.px(kEntry), time_s);
        c_.textClipped(x_, y_ + c_.px(3), name_right, kNote, theme_.ink, name);
        c_.textRight(right_, y_ + c_.px(3), sure ? kNoteStrong : kNote,
                     sure ? theme_.ink : theme_.ink2, value);
    }
    void quiet(const std::string& words) {
        c_.text(x_ + c_.px(12), y_, kSmall, theme_.ink2, words);
        y_ += c_.px(18);
    }

    void lines(const char* title, const char* low, const char* high, bool vertical) {
        constexpr double kFull_rad =
            6 * units::kDegree_rad;  // chosen: a little over a published point
        bool any = false;
        for (const review::Review::Line& line : review_.result.lines) {
            const review::LineMeasure& m = line.measure;
            if (m.vertical() != vertical) continue;
            if (!any) heading(title, low, high);
            any = true;
            const double within_rad = model::within(m.sigma_rad);
            const double main_rad =
                vertical ? m.pitch_rad : (m.climb_rad > 0 ? m.along_rad : -m.along_rad);
            const double side_rad = vertical ? m.yaw_rad : m.across_rad;
            const bool sure = model::sureEnough(m);
            entry(model::lineName(line),
                  measuredText(main_rad / units::kDegree_rad, within_rad / units::kDegree_rad,
                               {1, true}) +
                      "\u00B0",
                  m.start_s, scaleMiddle() - scaleHalf() - c_.px(6), sure);
            scale(main_rad, within_rad, kFull_rad, sure);
            y_ += c_.px(kEntry);
            constexpr double kSaid_rad =
                0.5 * units::kDegree_rad;  // chosen: less is nobody's concern
            seen(line);
            if (!sure) {
                quiet("not sure enough to judge");
            } else if (std::abs(side_rad) > std::max(within_rad, kSaid_rad)) {
                quiet("and " +
                      measuredText(std::abs(side_rad) / units::kDegree_rad,
                                   within_rad / units::kDegree_rad, {1}) +
                      "\u00B0 to the " + (side_rad > 0 ? "right" : "left"));
            }
        }
        if (any) y_ += c_.px(10);
    }

    /// How a line looks from the ground, where that is off by what a judge would see.
    void seen(const review::Review::Line& line) {
        constexpr double kSeen_rad = 1 * units::kDegree_rad;  // chosen: less no eye tells
        std::string words;
        const auto say = [&](const char* who, const std::optional<review::Seen>& from) {
            if (!from || std::abs(from->steeper_rad()) < kSeen_rad) return;
            words += words.empty() ? "from the " : ", the ";
            words +=
                who +
                (" " + measuredText(std::abs(from->steeper_rad()) / units::kDegree_rad,
                                    model::within(from->sigma_rad) / units::kDegree_rad, {1})) +
                "\u00B0";
            if (!line.measure.vertical()) words += from->steeper_rad() > 0 ? " steep" : " shallow";
        };
        say("judge\u2019s seat", line.from_judge);
        say("crowd", line.from_crowd);
        if (!words.empty()) quiet(words);
    }

    std::string length(double length_m, double sigma_m) const {
        return measuredHeightText(length_m, sigma_m, units_);
    }
    std::string besidePlan(const std::string& planned) const {
        return review_.result.with_plan ? ", plan " + planned : "";
    }

    void slides() {
        if (review_.result.slides.empty()) return;
        heading("Slides", "", "");
        for (const review::SlideReview& slide : review_.result.slides) {
            entry(slide.figure,
                  length(slide.way_m.flown, slide.way_sigma_m) +
                      besidePlan(length(slide.way_m.planned, 0)),
                  slide.start_s, right_ - c_.px(130));
            y_ += c_.px(kEntry);
            quiet("tail first at most " +
                  measuredSpeedText(slide.fastest_mps.flown, slide.fastest_sigma_mps, units_) +
                  besidePlan(speedText(slide.fastest_mps.planned, units_).joined()));
        }
        y_ += c_.px(10);
    }

    void loops() {
        if (review_.result.arcs.empty()) return;
        heading("Loops and half loops", "", "");
        const auto percent = [](double share) { return formatFixed(100 * share, 0); };
        for (const review::Review::Arc& arc : review_.result.arcs) {
            entry(arc.figure,
                  "radius " + length(arc.flown.radius_m, arc.flown.radius_sigma_m) +
                      besidePlan(length(arc.planned.radius_m, 0)),
                  arc.flown.start_s, right_ - c_.px(150));
            y_ += c_.px(kEntry);
            quiet("radii differ by " +
                  measuredText(100 * arc.flown.unround,
                               model::within(100 * arc.flown.unround_sigma), {0}) +
                  " %" + besidePlan(percent(arc.planned.unround) + " %"));
        }
        y_ += c_.px(10);
    }

    void rolls() {
        if (review_.result.rolls.empty()) return;
        constexpr double kFull_rad = 15 * units::kDegree_rad;  // chosen: three published points
        heading("Rolls", "short", "over");
        for (const review::Review::RolledLine& roll : review_.result.rolls) {
            const review::RollMeasure& m = roll.measure;
            const double over_rad = std::abs(m.angle_rad) - std::abs(m.planned_rad);
            const double within_rad = model::within(m.sigma_rad);
            entry(roll.figure + ", " +
                      formatFixed(std::abs(m.planned_rad) / units::kDegree_rad, 0) + "\u00B0",
                  measuredText(over_rad / units::kDegree_rad, within_rad / units::kDegree_rad,
                               {0, true}) +
                      "\u00B0",
                  m.start_s, scaleMiddle() - scaleHalf() - c_.px(6));
            scale(over_rad, within_rad, kFull_rad, true);
            y_ += c_.px(kEntry);
            quiet(measuredText(std::abs(m.rate_radps) / units::kDegree_rad,
                               model::within(m.rate_sigma_radps) / units::kDegree_rad, {0}) +
                  "\u00B0 a second");
        }
        y_ += c_.px(10);
    }

    void pivots() {
        if (review_.result.pivots.empty()) return;
        heading("Pivots", "", "");
        for (const review::Review::Pivot& pivot : review_.result.pivots) {
            entry(pivot.figure,
                  measuredText(pivot.half_spans.flown, model::within(pivot.sigma), {1}) +
                      besidePlan(formatFixed(pivot.half_spans.planned, 1)),
                  pivot.start_s, right_ - c_.px(100));
            y_ += c_.px(kEntry);
        }
        quiet("half spans aside over the ground, wind included");
        y_ += c_.px(10);
    }

    void turnings() {
        if (review_.result.turnings.empty()) return;
        heading("Spins and tumbles", "", "");
        for (const review::Review::Turning& t : review_.result.turnings) {
            entry(t.figure + (t.motion == review::Motion::Spin ? ", spin" : ", tumble"),
                  measuredText(t.flown.turns, model::within(t.flown.turns_sigma), {1}) + " turns" +
                      besidePlan(formatFixed(t.planned.turns, 1)),
                  t.start_s, right_ - c_.px(130));
            y_ += c_.px(kEntry);
            if (t.too_far_rad)
                quiet("stopped " +
                      measuredText(std::abs(*t.too_far_rad) / units::kDegree_rad,
                                   model::within(t.flown.heading_sigma_rad) / units::kDegree_rad,
                                   {0}) +
                      "\u00B0 " + (*t.too_far_rad < 0 ? "short" : "too far"));
            const bool gained = t.flown.height_lost_m < 0;
            quiet(length(std::abs(t.flown.height_lost_m), t.flown.height_sigma_m) +
                  (gained ? " of height gained" : " of height") +
                  besidePlan(length(t.planned.height_lost_m, 0)));
        }
        y_ += c_.px(10);
    }

    void tops() {
        if (review_.result.tops.empty()) return;
        heading("Tops and their gates", "", "");
        for (const review::TopReview& top : review_.result.tops) {
            const bool below = top.height_m.flown < top.gate_m;
            entry(top.figure,
                  length(top.height_m.flown, top.sigma_m) + ", gate " +
                      leastHeightText(top.gate_m, units_).joined(),
                  top.time_s, right_ - c_.px(160));
            if (below) c_.mark(Mark::Filled, x_ - c_.px(10), y_ + c_.px(11), theme_.alarm, 8);
            y_ += c_.px(kEntry);
        }
        y_ += c_.px(10);
    }

    void notes() {
        for (const std::string& note : review_.result.notes) {
            y_ +=
                c_.paragraph(x_, y_, right_ - x_, kNote, theme_.ink2, capitalised(note)) + c_.px(6);
        }
        y_ += c_.paragraph(x_, y_, right_ - x_, kSmall, theme_.ink3,
                           "\u00B1 and the bars hold 19 times of 20, as far as the recording tells "
                           "its errors. A coach's eye and the licensed evaluator stay the "
                           "judges.") +
              c_.px(12);
    }

    const PanelInput& in_;
    const Canvas& c_;
    const Theme& theme_;
    UiState& state_;
    Rect region_;
    float x_, right_, y_;
    model::UnitChoice units_;
    const model::FlightReview& review_;
    int id_ = 0;
};

}  // namespace

void drawReviewColumn(const PanelInput& in, UiState& state) {
    const Rect& column = in.layout.mending;
    if (column.width <= 0) return;
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    c.fill(column, theme.surface);
    c.down(column.x, 0, column.bottom(), theme.line);
    c.text(column.x + c.px(kColumnSide), c.px(14), kHead, theme.ink, "Worth fixing first");
    const model::FlightReview& review = *in.model.shown->review;
    if (review.plan) {
        const float width = c.textWidth(kBody, "Two pages");
        const float x = column.right() - c.px(kColumnSide) - width;
        const Rect button{x - c.px(8), c.px(10), width + c.px(16), c.px(28)};
        const Press pressed = press("two pages", button);
        if (pressed.hovered) {
            state.wants_hand = true;
            state.hint = "Debrief, crew's sheet and tables into a folder beside the log (Ctrl P)";
            c.fill(button, pressed.held ? theme.line : theme.raised);
        }
        if (pressed.clicked) in.actions.push(model::ActionKind::WriteDebrief);
        c.text(x, c.px(15), kBody, theme.ink2, "Two pages");
    }
    c.across(column.x + c.px(kColumnSide), column.right() - c.px(kColumnSide), c.px(46),
             theme.line);
    const Rect region{column.x + 1, c.px(48), column.width - 1, column.height - c.px(48)};
    targets().scrolled.push_back(region);
    const bool over = ImGui::IsMouseHoveringRect(ImVec2(region.x, region.y),
                                                 ImVec2(region.right(), region.bottom()), false);
    if (over && !in.model.session.key_help && in.model.list.kind == model::ListKind::None)
        state.mending_scroll -= ImGui::GetIO().MouseWheel * c.px(48);
    state.mending_scroll = std::clamp(state.mending_scroll, 0.0F,
                                      std::max(0.0F, state.mending_height - region.height));
    const Clip clip(c, region);
    const float top = std::round(region.y + c.px(4) - state.mending_scroll);
    state.mending_height = ReviewColumn(in, state, region, top).draw() - top + c.px(12);
    if (state.mending_height > region.height) {
        const float length = region.height * region.height / state.mending_height;
        const float at = region.y + state.mending_scroll / state.mending_height * region.height;
        c.fill(Rect{region.right() - c.px(4), at, c.px(3), length}, theme.line);
    }
    // The rest of the column is nothing to turn the picture by.
    press("mending", column);
}

}  // namespace plumbline::ui
