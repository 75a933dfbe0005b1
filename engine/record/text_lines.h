#pragma once
// Line by line through a file's bytes, and places in it for messages.

#include <cstdint>
#include <string_view>

namespace plumbline::record {

/// Walks over lines that end in LF or CR LF; a byte-order mark at the start is skipped.
class LineReader {
public:
    explicit LineReader(std::string_view bytes);

    /// Moves to the next line; false past the last.
    bool next();
    std::string_view line() const { return line_; }  ///< without its end
    std::int32_t number() const { return number_; }  ///< from 1
    /// Byte of the input at which the next line starts.
    std::size_t offset() const { return size_ - rest_.size(); }

private:
    std::string_view rest_;
    std::size_t size_ = 0;
    std::string_view line_;
    std::int32_t number_ = 0;
};

/// The column, from 1 and in code points, of a byte of a UTF-8 line.
std::int32_t columnOf(std::string_view line, std::size_t byte);

/// The same without blanks and tabs at both ends.
std::string_view trimmed(std::string_view text);

/// The number that text made of digits only stands for; -1 for anything else.
std::int32_t digits(std::string_view text);

}  // namespace plumbline::record
