#pragma once
// One line of figure text cut into tokens.

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/problem.h"
#include "engine/text/figure_text.h"

namespace plumbline::text {

/// A piece of a line; `text` points into the line that was cut, or into a parameter's value.
struct Token {
    enum class Kind {
        Word,    ///< letters, digits, `-`, `/`; or `%` alone; always starts with a letter or `%`
        Number,  ///< `6`, `-150`, `2.2`, `1/4`; unchecked digits, signs, points and strokes
        Quoted,  ///< with its quotes
    };
    Kind kind = Kind::Word;
    std::string_view text;
    std::int32_t column = 0;      ///< from 1, in code points
    std::int32_t end_column = 0;  ///< one past the last
    bool blank_before = false;
    std::int32_t parameter = -1;  ///< index of the value it comes from; its columns are the braces'
};

struct LineTokens {
    std::vector<Token> tokens;
    std::int32_t end_column = 1;  ///< one past the last token, 1 where there is none
    const std::vector<ParameterValue>* values = nullptr;  ///< what the line was cut with
    std::vector<std::int32_t> parameters;                 ///< used, rising, each once
};

/// Cuts a line (without its line end) into tokens up to a `#` outside quotes; `{name}` gives the
/// tokens of that parameter's value. At the first character that figure text does not know, or
/// parameter that has no value, one problem is added and the rest of the line is left out. Time is
/// linear in the length of the line. `values` must outlive the tokens.
LineTokens cutLine(std::string_view line, const std::string& file, std::int32_t line_number,
                   Problems& problems, const std::vector<ParameterValue>& values);

/// ` (in {entry_g}, the value "5 kt" in r.toml:30:22)`, for a message.
std::string inParameter(const ParameterValue& value);

/// `text` in single quotes for a message, cut after 32 code points, control characters and bytes
/// that are not UTF-8 written as their numbers.
std::string quoteForMessage(std::string_view text);

/// Tokens first..last (exclusive) as they were written, with one blank where there were some.
std::string joinTokens(const std::vector<Token>& tokens, std::size_t first, std::size_t last);

/// ASCII letters in lower case, all else as it is.
std::string lowerCase(std::string_view text);

}  // namespace plumbline::text
