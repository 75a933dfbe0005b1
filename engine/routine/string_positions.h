#pragma once
// Where the characters of a TOML string stand in its file.

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

namespace plumbline::routine {

struct LineColumn {
    std::int32_t line = 1;
    std::int32_t column = 1;  ///< in code points
};

/// Byte offsets of the lines of a file, to find a line and column again.
class LineIndex {
public:
    explicit LineIndex(std::string_view file_text);

    std::string_view text() const { return text_; }
    /// Byte at a place; the end of the text where there is no such place. Asking in rising order
    /// takes time linear in the file, whatever its lines are like.
    std::size_t offsetOf(LineColumn place);

private:
    std::string_view text_;
    std::vector<std::size_t> line_starts_;
    LineColumn last_place_;  ///< asked last, and its byte
    std::size_t last_offset_ = 0;
};

/// From a place in the value of a TOML string (any of the four kinds) to the place in its file:
/// quotes, the line end after opening quotes, escapes and backslashes at line ends are counted.
class StringPositions {
public:
    /// @param opening  where the string's first quote stands in the file
    StringPositions(LineIndex& file, LineColumn opening);

    LineColumn inFile(LineColumn in_value) const;

private:
    /// From here on, up to the next anchor, both columns go up together.
    struct Anchor {
        LineColumn value;
        LineColumn file;
    };
    std::vector<Anchor> anchors_;  ///< at least one, rising
};

}  // namespace plumbline::routine
