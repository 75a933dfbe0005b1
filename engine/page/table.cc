#include "engine/page/table.h"

#include <algorithm>
#include <string_view>

#include "engine/page/utf8.h"

namespace plumbline::page {

namespace {

/// As much of a text as there is room for; where something is left out, three dots say so.
Text shortened(const Document& document, Text text, double room_mm) {
    while (!text.empty() && document.widthOf_mm(text) > room_mm) {
        std::string& words = text.back().words;
        constexpr std::string_view kDots = "\u2026";
        if (words.size() >= kDots.size() && words.ends_with(kDots))
            words.resize(words.size() - kDots.size());
        const std::vector<Utf8Letter> letters = lettersOf(words);
        if (letters.empty()) {
            text.pop_back();
            continue;
        }
        words.resize(static_cast<std::size_t>(letters.back().at));
        while (!words.empty() && words.back() == ' ') words.pop_back();
        words += kDots;
        if (words == kDots) text.pop_back();
    }
    return text;
}

}  // namespace

Table::Table(Document& document, Point top_left, std::vector<Column> columns, TableForm form)
    : document_(document),
      x_mm_(top_left.x_mm),
      y_mm_(top_left.y_mm),
      columns_(std::move(columns)),
      form_(form) {}

double Table::width_mm() const {
    double sum = 0;
    for (const Column& column : columns_) sum += column.width_mm;
    return sum;
}

Box Table::cell(std::size_t column) const {
    double x_mm = x_mm_;
    for (std::size_t i = 0; i < column; ++i) x_mm += columns_[i].width_mm;
    return {x_mm, y_mm_ - last_mm_, columns_[column].width_mm, last_mm_};
}

void Table::cells(const std::vector<Text>& texts, double height_mm) {
    constexpr double kGap_mm = 1.2;  // chosen: between the end of one cell and the next
    last_mm_ = height_mm;
    y_mm_ += height_mm;
    for (std::size_t i = 0; i < std::min(texts.size(), columns_.size()); ++i) {
        if (texts[i].empty()) continue;
        const Box box = cell(i);
        double size_pt = 0;
        for (const Span& span : texts[i]) size_pt = std::max(size_pt, span.style.size_pt);
        const double base_mm = box.y_mm + 0.5 * height_mm + 0.36 * size_pt * kPoint_mm;
        const bool last = i + 1 == columns_.size();
        const Box room{box.x_mm, box.y_mm, box.width_mm - (last ? 0 : kGap_mm), height_mm};
        const auto put = [&](const Text& text) {
            const Align align = columns_[i].align;
            const double anchor_mm = align == Align::Right    ? room.right_mm()
                                     : align == Align::Centre ? room.x_mm + 0.5 * room.width_mm
                                                              : room.x_mm;
            document_.words({anchor_mm, base_mm}, text, align);
        };
        put(shortened(document_, texts[i], room.width_mm));
    }
}

void Table::head() {
    std::vector<Text> heads;
    for (const Column& column : columns_)
        heads.push_back({{column.head, {form_.head_pt, Weight::Regular, kQuiet}}});
    cells(heads, form_.row_mm);
    document_.line({x_mm_, y_mm_}, {x_mm_ + width_mm(), y_mm_}, {0.8, kInk});
}

void Table::row(const std::vector<Text>& texts) {
    cells(texts, form_.row_mm);
    document_.line({x_mm_, y_mm_}, {x_mm_ + width_mm(), y_mm_}, {0.4, kHairline});
}

}  // namespace plumbline::page
