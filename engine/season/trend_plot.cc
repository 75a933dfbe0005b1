#include "engine/season/trend_plot.h"

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/page/document.h"
#include "engine/record/clock_text.h"

namespace plumbline::season {

namespace {

using page::Align;
using page::Box;
using page::Point;

constexpr double kMargin_mm = 14, kGap_mm = 8, kPlot_mm = 44, kHead_mm = 20;
constexpr int kColumns = 2, kRows = 5;
constexpr double kWords_pt = 7;

/// What a plot is made of, for either kind of file.
class Canvas {
public:
    virtual ~Canvas() = default;
    virtual void line(Point from, Point to, const page::Stroke& stroke) = 0;
    virtual void disc(Point middle, double radius_mm, page::Colour colour) = 0;
    virtual void words(Point at, const std::string& words, const page::Style& style,
                       Align align) = 0;
};

class PaperCanvas final : public Canvas {
public:
    explicit PaperCanvas(page::Document& document) : document_(document) {}
    void line(Point from, Point to, const page::Stroke& stroke) override {
        document_.line(from, to, stroke);
    }
    void disc(Point middle, double radius_mm, page::Colour colour) override {
        document_.disc(middle, radius_mm, colour);
    }
    void words(Point at, const std::string& words, const page::Style& style, Align align) override {
        document_.words(at, {{words, style}}, align);
    }

private:
    page::Document& document_;
};

class SvgCanvas final : public Canvas {
public:
    void line(Point from, Point to, const page::Stroke& stroke) override {
        out_ += "<line x1=\"" + mm(from.x_mm) + "\" y1=\"" + mm(from.y_mm) + "\" x2=\"" +
                mm(to.x_mm) + "\" y2=\"" + mm(to.y_mm) + "\" stroke=\"" + hex(stroke.colour) +
                "\" stroke-width=\"" + mm(stroke.width_pt * page::kPoint_mm) + "\"";
        if (stroke.dash_pt > 0)
            out_ += " stroke-dasharray=\"" + mm(stroke.dash_pt * page::kPoint_mm) + "\"";
        out_ += "/>\n";
    }
    void disc(Point middle, double radius_mm, page::Colour colour) override {
        out_ += "<circle cx=\"" + mm(middle.x_mm) + "\" cy=\"" + mm(middle.y_mm) + "\" r=\"" +
                mm(radius_mm) + "\" fill=\"" + hex(colour) + "\"/>\n";
    }
    void words(Point at, const std::string& words, const page::Style& style, Align align) override {
        const char* anchor = align == Align::Right ? "end" : "start";
        out_ += "<text x=\"" + mm(at.x_mm) + "\" y=\"" + mm(at.y_mm) + "\" font-size=\"" +
                mm(style.size_pt * page::kPoint_mm) + "\" text-anchor=\"" + anchor + "\" fill=\"" +
                hex(style.colour) + "\"" +
                (style.weight == page::Weight::Regular ? "" : " font-weight=\"600\"") + ">";
        for (const char c : words) {
            if (c == '<')
                out_ += "&lt;";
            else if (c == '&')
                out_ += "&amp;";
            else if (static_cast<unsigned char>(c) >= 0x20)  // XML 1.0 has no other control codes
                out_ += c;
        }
        out_ += "</text>\n";
    }
    std::string finish(double width_mm, double height_mm) const {
        return "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + mm(width_mm) +
               "mm\" height=\"" + mm(height_mm) + "mm\" viewBox=\"0 0 " + mm(width_mm) + " " +
               mm(height_mm) + "\" font-family=\"Inter, sans-serif\">\n" +
               "<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n" + out_ + "</svg>\n";
    }

private:
    static std::string mm(double value) { return formatFixed(value, 3); }
    static std::string hex(page::Colour c) {
        std::string text = "#";
        for (const double part : {c.r, c.g, c.b}) {
            const auto byte = static_cast<unsigned>(std::lround(255 * part));
            text += "0123456789abcdef"[byte >> 4U];
            text += "0123456789abcdef"[byte & 15U];
        }
        return text;
    }
    std::string out_;
};

/// Values to places in a box, with some air above and below.
struct Scale {
    Box box;
    double from_s = 0, to_s = 1, least = 0, most = 1;

    Scale(const Trend& trend, const Box& where) : box(where) {
        from_s = trend.points.front().utc_s;
        to_s = trend.points.back().utc_s;
        if (!(to_s > from_s)) to_s = from_s + 1;
        least = most = trend.points.front().value;
        for (const TrendPoint& p : trend.points) {
            const double doubt = 2 * p.sigma.value_or(0);
            for (const double value :
                 {p.value - doubt, p.value + doubt, p.planned.value_or(p.value)}) {
                least = std::min(least, value);
                most = std::max(most, value);
            }
        }
        const double span = most > least ? most - least : std::max(std::fabs(most), 1e-3);
        least -= 0.08 * span;
        most += 0.08 * span;
    }
    Point at(double utc_s, double value) const {
        constexpr double kIn_mm = 3;  // the first and last disc stay clear of the frame
        return {
            box.x_mm + kIn_mm + (box.width_mm - 2 * kIn_mm) * (utc_s - from_s) / (to_s - from_s),
            box.bottom_mm() - box.height_mm * (value - least) / (most - least)};
    }
};

std::string dayOf(double utc_s) { return record::formatUtc(utc_s).substr(0, 10); }

void plot(Canvas& canvas, const Trend& trend, const Box& box, units::DisplayUnits units) {
    constexpr double kTitle_mm = 4, kFoot_mm = 5, kLabels_mm = 15;
    const page::Style quiet{kWords_pt, page::Weight::Regular, page::kQuiet};
    const Box field{box.x_mm + kLabels_mm, box.y_mm + kTitle_mm + 2, box.width_mm - kLabels_mm,
                    box.height_mm - kTitle_mm - kFoot_mm - 2};
    const Scale scale(trend, field);
    const page::Stroke hair{0.4, page::kHairline};
    canvas.words({box.x_mm, box.y_mm + kTitle_mm - 0.6},
                 trend.figure + (trend.element.empty() ? "" : ", " + trend.element) + ": " +
                     std::string(trend.kind.name),
                 {kWords_pt + 1, page::Weight::SemiBold, page::kInk}, Align::Left);
    canvas.line({field.x_mm, field.bottom_mm()}, {field.right_mm(), field.bottom_mm()}, hair);
    canvas.line({field.x_mm, field.y_mm}, {field.x_mm, field.bottom_mm()}, hair);
    if (scale.least < 0 && scale.most > 0) {
        const double y_mm = scale.at(scale.from_s, 0).y_mm;
        canvas.line({field.x_mm, y_mm}, {field.right_mm(), y_mm}, hair);
    }
    double least = trend.points.front().value, most = least;
    for (const TrendPoint& p : trend.points) {
        least = std::min(least, p.value);
        most = std::max(most, p.value);
    }
    const auto label = [&](double value) {
        canvas.words({field.x_mm - 1.5, scale.at(scale.from_s, value).y_mm + 0.9},
                     measureWords(trend.kind, value, trend.points.back().sigma, units), quiet,
                     Align::Right);
    };
    label(least);
    if (scale.at(0, least).y_mm - scale.at(0, most).y_mm > 3) label(most);
    const TrendPoint* before = nullptr;
    for (const TrendPoint& p : trend.points) {
        if (before != nullptr && before->planned && p.planned)
            canvas.line(scale.at(before->utc_s, *before->planned), scale.at(p.utc_s, *p.planned),
                        {0.8, page::kDo, 2.5});
        before = &p;
    }
    const bool said = trend.course != Course::TooFew && trend.course != Course::NoChange;
    if (said && trend.fit) {
        const auto on_line = [&](double utc_s) {
            return scale.at(
                utc_s, trend.fit->intercept + trend.fit->slope * (utc_s - scale.from_s) / 86400);
        };
        canvas.line(on_line(scale.from_s), on_line(trend.points.back().utc_s), {0.6, page::kQuiet});
    }
    for (const TrendPoint& p : trend.points) {
        if (p.sigma)
            canvas.line(scale.at(p.utc_s, p.value - 2 * *p.sigma),
                        scale.at(p.utc_s, p.value + 2 * *p.sigma), {0.9, page::kFlownDoubt});
        canvas.disc(scale.at(p.utc_s, p.value), 0.8, page::kFlown);
    }
    const double foot_mm = box.bottom_mm() - 1;
    canvas.words({field.x_mm, foot_mm}, dayOf(trend.points.front().utc_s), quiet, Align::Left);
    canvas.words({field.right_mm(), foot_mm},
                 dayOf(trend.points.back().utc_s) + ", " + std::to_string(trend.points.size()) +
                     " times: " + courseWords(trend.course),
                 quiet, Align::Right);
}

void heading(Canvas& canvas) {
    canvas.words({kMargin_mm, kMargin_mm + 1}, "How the season goes",
                 {13, page::Weight::Bold, page::kInk}, Align::Left);
    canvas.words({kMargin_mm, kMargin_mm + 5},
                 "Disc: flown, its bar holds 95 of 100 errors. Dashed: planned. A line is drawn "
                 "where a change is beyond doubt.",
                 {kWords_pt, page::Weight::Regular, page::kQuiet}, Align::Left);
}

Box placeOf(std::size_t index, double page_width_mm) {
    const double width_mm = (page_width_mm - 2 * kMargin_mm - (kColumns - 1) * kGap_mm) / kColumns;
    const auto column = static_cast<double>(index % kColumns);
    const auto row = static_cast<double>(index / kColumns);
    return {kMargin_mm + column * (width_mm + kGap_mm),
            kMargin_mm + kHead_mm / 2 + row * (kPlot_mm + kGap_mm), width_mm, kPlot_mm};
}

}  // namespace

Expected<std::string, std::string> trendsPdf(std::span<const Trend> trends,
                                             units::DisplayUnits units, page::Paper paper,
                                             const page::Fonts& fonts) {
    page::Document document(paper, fonts, "How the season goes");
    PaperCanvas canvas(document);
    heading(canvas);
    constexpr std::size_t kEach = kColumns * kRows;
    for (std::size_t i = 0; i < trends.size(); ++i) {
        if (i > 0 && i % kEach == 0) document.newPage();
        plot(canvas, trends[i], placeOf(i % kEach, document.size().width_mm), units);
    }
    return document.finish();
}

std::string trendsSvg(std::span<const Trend> trends, units::DisplayUnits units) {
    const double width_mm = page::sizeOf(page::Paper::A4).width_mm;
    SvgCanvas canvas;
    heading(canvas);
    for (std::size_t i = 0; i < trends.size(); ++i)
        plot(canvas, trends[i], placeOf(i, width_mm), units);
    const std::size_t last = trends.empty() ? 0 : trends.size() - 1;
    return canvas.finish(width_mm, placeOf(last, width_mm).bottom_mm() + kMargin_mm);
}

}  // namespace plumbline::season
