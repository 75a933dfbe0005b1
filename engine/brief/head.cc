#include "engine/brief/head.h"

#include <algorithm>

#include "engine/check/check.h"
#include "engine/page/utf8.h"

namespace plumbline::brief {

using page::Align;
using page::Document;
using page::Point;

namespace {

bool isSmall(const Document& document) { return document.size().width_mm < 160; }

page::Text footText(const Outline& outline, const std::string& words) {
    page::Text text;
    if (!outline.warning.empty())
        text.push_back({"\u25b2 " + outline.warning + " ", heavy(kLeast_pt + 1)});
    if (!words.empty()) text.push_back({words + " ", quiet(kLeast_pt)});
    text.push_back({check::caution(), quiet(kLeast_pt)});
    return text;
}

/// Room for the revision beside the foot.
double besideFoot(const Document& document) { return isSmall(document) ? 0 : 36; }

double footHeight(const Document& document, const Outline& outline, const std::string& words) {
    return document.heightOf_mm(widthOf(document) - besideFoot(document), footText(outline, words));
}

}  // namespace

double marginOf(const Document& document) { return isSmall(document) ? 8 : 12.5; }
double widthOf(const Document& document) {
    return document.size().width_mm - 2 * marginOf(document);
}

void drawBob(Document& document, double x_mm, double thread_mm, double top_mm, double unit_mm) {
    document.line({x_mm, thread_mm}, {x_mm, top_mm}, {1.2, page::kInk});
    constexpr double kBob[][2] = {{0, 0}, {5, 5}, {5, 8}, {0, 17}, {-5, 8}, {-5, 5}};
    std::vector<Point> bob;
    for (const auto& corner : kBob)
        bob.push_back({x_mm + corner[0] * unit_mm, top_mm + corner[1] * unit_mm});
    document.fill(bob, page::kInk);
}

double drawHead(Document& document, const Outline& outline, const std::string& kind,
                const std::string& last, const std::string& page) {
    const bool small = isSmall(document);
    const double left_mm = marginOf(document), right_mm = left_mm + widthOf(document);
    const double top_mm = left_mm, size_pt = small ? 8 : 9, step_mm = small ? 3.9 : 4.4;
    const double unit_mm = small ? 0.32 : 0.42;
    drawBob(document, left_mm + 5 * unit_mm, top_mm, top_mm + (small ? 4.6 : 6.6), unit_mm);
    const double text_mm = left_mm + (small ? 6 : 8.5);
    const double most_mm = 0.55 * (right_mm - text_mm);
    const auto right = [&](const std::string& words, const page::Style& style) {
        return page::Text{{fitted(document, words, style, most_mm), style}};
    };
    const page::Text rights[] = {right(outline.site + ", " + outline.day, plain(size_pt)),
                                 right(outline.wind, strong(size_pt)),
                                 right(outline.air, plain(size_pt)), right(last, plain(size_pt))};
    // Small sheets have the day below the name, over the whole width.
    const int beside = small ? 0 : last.empty() ? 3 : 4;
    double right_width_mm = 0;
    for (int i = 0; i < beside; ++i) {
        document.words({right_mm, top_mm + 2.6 + i * step_mm}, rights[i], Align::Right);
        right_width_mm = std::max(right_width_mm, document.widthOf_mm(rights[i]));
    }
    const double room_mm = right_mm - text_mm - (beside > 0 ? right_width_mm + 5 : 0);
    const double title_mm = small ? room_mm - 42 : room_mm;  // beside the revision
    page::Style title = heavy(small ? 14 : 20);
    while (title.size_pt > 11 && document.widthOf_mm({{outline.title, title}}) > title_mm)
        title.size_pt -= 0.5;
    const std::string below = kind + (outline.variant.empty() ? "" : ", " + outline.variant);
    double y_mm = top_mm + (small ? 4.4 : 2.6);
    if (!small)
        document.words({text_mm, y_mm}, {{fitted(document, below, plain(9), room_mm), plain(9)}});
    if (!small) y_mm += 8.2;
    document.words({text_mm, y_mm}, {{fitted(document, outline.title, title, title_mm), title}});
    if (small) {
        document.words({right_mm, y_mm}, {{outline.revision + ", " + page, quiet(kLeast_pt)}},
                       Align::Right);
        const std::string day = outline.variant.empty()
                                    ? outline.site + ", " + outline.day
                                    : outline.variant + "; " + outline.site + ", " + outline.day;
        document.words({text_mm, y_mm + step_mm},
                       {{fitted(document, day, plain(size_pt), room_mm), plain(size_pt)}});
        const double wind_mm = document.widthOf_mm({{outline.wind, strong(size_pt)}});
        document.words({text_mm, y_mm + 2 * step_mm}, {{outline.wind, strong(size_pt)}});
        const std::string air =
            fitted(document, ", " + outline.air, plain(size_pt), room_mm - wind_mm);
        document.words({text_mm + wind_mm, y_mm + 2 * step_mm}, {{air, plain(size_pt)}});
        y_mm += 2 * step_mm;
    } else {
        y_mm = std::max(y_mm, top_mm + 2.6 + (beside - 1) * step_mm);
    }
    y_mm += small ? 2 : 3.2;
    document.line({left_mm, y_mm}, {right_mm, y_mm}, {small ? 1.8 : 2.2, page::kInk});
    return y_mm;
}

double footTop(const Document& document, const Outline& outline, const std::string& words) {
    return document.size().height_mm - marginOf(document) - footHeight(document, outline, words) -
           1;
}

std::string pageWords(int page, int pages) {
    return "page " + std::to_string(page) + " of " + std::to_string(pages);
}

void drawFoot(Document& document, const Outline& outline, const std::string& words,
              const std::string& page) {
    const double left_mm = marginOf(document), right_mm = left_mm + widthOf(document);
    const double top_mm = footTop(document, outline, words) + 1, beside_mm = besideFoot(document);
    document.paragraph({left_mm, top_mm}, widthOf(document) - beside_mm, footText(outline, words));
    if (beside_mm > 0)
        document.paragraph({right_mm - beside_mm + 2, top_mm}, beside_mm - 2,
                           {{outline.revision + "\n" + page, quiet(kLeast_pt)}}, Align::Right);
}

std::string fitted(const Document& document, std::string words, const page::Style& style,
                   double width_mm) {
    if (document.widthOf_mm({{words, style}}) <= width_mm) return words;
    std::vector<page::Utf8Letter> letters = page::lettersOf(words);
    while (!letters.empty()) {
        letters.pop_back();
        while (!letters.empty() && (letters.back().letter == ' ' || letters.back().letter == ';' ||
                                    letters.back().letter == ','))
            letters.pop_back();
        const std::size_t end =
            letters.empty() ? 0
                            : static_cast<std::size_t>(letters.back().at + letters.back().bytes);
        std::string shorter = words.substr(0, end) + "\u2026";
        if (document.widthOf_mm({{shorter, style}}) <= width_mm) return shorter;
    }
    return "";
}

void drawWay(Document& document, const Act& act, Point middle, double length_mm, double most_mm) {
    const bool along = act.to_left || act.to_right;
    if (!along) length_mm = std::min(length_mm, most_mm);
    const bool forward = along ? act.to_right : !act.away;
    const Point to = along ? Point{1, 0} : Point{0, 1};
    const double sign = forward ? 1 : -1, half_mm = 0.5 * length_mm * sign;
    const double head_mm = std::max(0.24 * length_mm, 0.8);
    const auto at = [&](double on_mm, double beside_mm) {
        return Point{middle.x_mm + to.x_mm * on_mm + to.y_mm * beside_mm,
                     middle.y_mm + to.y_mm * on_mm + to.x_mm * beside_mm};
    };
    const page::Stroke stroke{length_mm > 5 ? 1.1 : 0.8, page::kInk};
    document.line(at(-half_mm, 0), at(half_mm, 0), stroke);
    const Point head[] = {at(half_mm - sign * head_mm, head_mm), at(half_mm, 0),
                          at(half_mm - sign * head_mm, -head_mm)};
    document.path(head, stroke);
}

double drawTag(Document& document, Point base, const std::string& words) {
    const page::Text text = {{words, plain(7.4)}};
    const double width_mm = document.widthOf_mm(text) + 3;
    const Point corners[] = {{base.x_mm, base.y_mm - 3},
                             {base.x_mm + width_mm, base.y_mm - 3},
                             {base.x_mm + width_mm, base.y_mm + 1.1},
                             {base.x_mm, base.y_mm + 1.1}};
    document.path(corners, {0.6, page::kInk}, true);
    document.words({base.x_mm + 1.5, base.y_mm}, text);
    return width_mm;
}

}  // namespace plumbline::brief
