#include "engine/routine/string_positions.h"

#include <algorithm>
#include <utility>

namespace plumbline::routine {

namespace {

/// Bytes that continue a code point do not count as columns.
bool startsCodePoint(char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u; }

bool before(const LineColumn& a, const LineColumn& b) {
    return a.line != b.line ? a.line < b.line : a.column < b.column;
}

/// Walks along a string in its file.
class Walker {
public:
    Walker(std::string_view text, std::size_t at, LineColumn place)
        : text_(text), at_(at), place_(place) {}

    bool atEnd() const { return at_ >= text_.size(); }
    bool next(std::string_view wanted) const { return text_.substr(at_, wanted.size()) == wanted; }
    char peek(std::size_t ahead = 0) const {
        return at_ + ahead < text_.size() ? text_[at_ + ahead] : '\0';
    }
    LineColumn place() const { return place_; }

    void step(std::size_t bytes) {
        for (std::size_t i = 0; i < bytes && !atEnd(); ++i, ++at_) {
            if (text_[at_] == '\n') {
                place_ = {place_.line + 1, 1};
            } else if (startsCodePoint(text_[at_])) {
                ++place_.column;
            }
        }
        while (!atEnd() && !startsCodePoint(text_[at_])) ++at_;
    }

    bool acceptLineEnd() {
        const std::size_t bytes = next("\n") ? 1 : next("\r\n") ? 2 : 0;
        step(bytes);
        return bytes > 0;
    }

    /// A backslash and what belongs to it; how the place in the value goes on after it.
    LineColumn stepEscape(LineColumn value) {
        constexpr std::size_t kShort = 2, kUnicode = 6, kLongUnicode = 10;
        const char kind = peek(1);
        if (kind == ' ' || kind == '\t' || kind == '\n' || kind == '\r') {
            step(1);
            while (peek() == ' ' || peek() == '\t' || peek() == '\n' || peek() == '\r') step(1);
            return value;
        }
        const bool line_end = kind == 'n' || next("\\u000A") || next("\\u000a");
        step(kind == 'u' ? kUnicode : kind == 'U' ? kLongUnicode : kShort);
        return line_end ? LineColumn{value.line + 1, 1} : LineColumn{value.line, value.column + 1};
    }

private:
    std::string_view text_;
    std::size_t at_;
    LineColumn place_;
};

}  // namespace

LineIndex::LineIndex(std::string_view file_text) : text_(file_text), line_starts_{0} {
    for (std::size_t at = text_.find('\n'); at != std::string_view::npos;
         at = text_.find('\n', at + 1)) {
        line_starts_.push_back(at + 1);
    }
}

std::size_t LineIndex::offsetOf(LineColumn place) {
    if (place.line < 1 || static_cast<std::size_t>(place.line) > line_starts_.size()) {
        return text_.size();
    }
    const bool onward = place.line == last_place_.line && place.column >= last_place_.column;
    std::size_t at = onward ? last_offset_ : line_starts_[static_cast<std::size_t>(place.line - 1)];
    std::int32_t column = onward ? last_place_.column : 1;
    for (; column < place.column && at < text_.size(); ++column) {
        do {
            ++at;
        } while (at < text_.size() && !startsCodePoint(text_[at]));
    }
    last_place_ = {place.line, column};
    last_offset_ = at;
    return at;
}

StringPositions::StringPositions(LineIndex& file, LineColumn opening) {
    Walker walker(file.text(), file.offsetOf(opening), opening);
    const bool basic = walker.peek() == '"';
    const std::string_view three = basic ? "\"\"\"" : "'''";
    const bool multi_line = walker.next(three);
    const std::string_view closing = multi_line ? three : three.substr(0, 1);
    walker.step(closing.size());
    if (multi_line) walker.acceptLineEnd();

    LineColumn value;
    anchors_.push_back({value, walker.place()});
    while (!walker.atEnd() && !walker.next(closing)) {
        if (walker.acceptLineEnd()) {
            value = {value.line + 1, 1};
        } else if (basic && walker.peek() == '\\') {
            value = walker.stepEscape(value);
        } else {
            walker.step(1);
            ++value.column;
            continue;
        }
        anchors_.push_back({value, walker.place()});
    }
}

LineColumn StringPositions::inFile(LineColumn in_value) const {
    const auto after = std::upper_bound(
        anchors_.begin(), anchors_.end(), in_value,
        [](const LineColumn& place, const Anchor& anchor) { return before(place, anchor.value); });
    const Anchor& anchor = after == anchors_.begin() ? anchors_.front() : *std::prev(after);
    return {anchor.file.line, anchor.file.column + in_value.column - anchor.value.column};
}

}  // namespace plumbline::routine
