#include "engine/text/token.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <utility>

#include "engine/base/nearest_word.h"

namespace plumbline::text {

namespace {

constexpr std::uint32_t kNotUtf8 = 0xFFFFFFFF;

struct CodePoint {
    std::uint32_t value = kNotUtf8;  ///< kNotUtf8 for a byte that begins no valid sequence
    std::size_t bytes = 1;
};

/// The code point that begins at `at`; overlong forms and surrogates count as not UTF-8.
CodePoint decode(std::string_view text, std::size_t at) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const std::uint32_t lead = byte(at);
    if (lead < 0x80) return {lead, 1};
    const std::size_t bytes = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
    if (lead < 0xC2 || lead > 0xF4 || at + bytes > text.size()) return {};
    std::uint32_t value = lead & (0x7Fu >> bytes);
    for (std::size_t i = 1; i < bytes; ++i) {
        if ((byte(at + i) & 0xC0u) != 0x80u) return {};
        value = (value << 6) | (byte(at + i) & 0x3Fu);
    }
    constexpr std::array<std::uint32_t, 5> kLeast{0, 0, 0x80, 0x800, 0x10000};
    const bool surrogate = value >= 0xD800 && value <= 0xDFFF;
    if (value < kLeast[bytes] || surrogate || value > 0x10FFFF) return {};
    return {value, bytes};
}

bool isLetter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool isDigit(char c) { return c >= '0' && c <= '9'; }
bool isBlank(std::uint32_t c) {
    constexpr std::uint32_t kNoBreakSpace = 0xA0;
    return c == ' ' || c == '\t' || c == kNoBreakSpace;
}

bool continuesWord(char c) { return isLetter(c) || isDigit(c) || c == '-' || c == '/' || c == '_'; }
bool continuesName(char c) { return isLetter(c) || isDigit(c) || c == '-' || c == '_'; }
bool continuesNumber(char c) { return isDigit(c) || c == '.' || c == '/'; }

std::string numberOf(const CodePoint& c, unsigned char raw) {
    std::array<char, 24> words{};
    if (c.value == kNotUtf8) {
        std::snprintf(words.data(), words.size(), "byte 0x%02X", raw);
    } else {
        std::snprintf(words.data(), words.size(), "U+%04X", c.value);
    }
    return words.data();
}

/// What to do about a character that figure text does not know.
const char* remedyFor(std::uint32_t c) {
    switch (c) {
        case kNotUtf8:
            return "save the file as UTF-8";
        case 0x2212:  // minus sign
        case 0x2013:  // en dash
        case 0x2014:  // em dash
            return "write the plain minus of the keyboard, -";
        case 0xB0:  // degree sign
            return "write deg";
        case 0xBC:  // one quarter
        case 0xBD:  // one half
        case 0xBE:  // three quarters
            return "write fractions with a stroke, 1/4";
        case 0x2018:
        case 0x2019:
        case 0x201C:
        case 0x201D:
        case 0x201E:
        case '\'':
            return "put the words of a cue between straight double quotes, cue \"words\"";
        case ',':
            return "write decimals with a point, 2.5, and one element a line";
        case ';':
            return "write one element a line";
        case '{':
        case '}':
            return "write a parameter's name between braces, {entry_g}";
        default:
            return "figure text is made of words, numbers with units, and # before a comment";
    }
}

/// Walks along a line, counting code points.
class Cutter {
public:
    Cutter(std::string_view line, const std::string& file, std::int32_t line_number,
           Problems& problems, const std::vector<ParameterValue>& values)
        : line_(line),
          file_(file),
          line_number_(line_number),
          problems_(problems),
          values_(values) {
        result_.values = &values;
    }

    LineTokens cut() {
        while (at_ < line_.size()) {
            const CodePoint c = decode(line_, at_);
            if (isBlank(c.value)) {
                step(c.bytes);
                blank_before_ = true;
                continue;
            }
            if (line_[at_] == '#' || !cutToken(c)) break;
        }
        if (!result_.tokens.empty()) result_.end_column = result_.tokens.back().end_column;
        std::vector<std::int32_t>& used = result_.parameters;
        std::sort(used.begin(), used.end());
        used.erase(std::unique(used.begin(), used.end()), used.end());
        return std::move(result_);
    }

private:
    void push(Token::Kind kind, std::size_t start, std::int32_t start_column) {
        Token token;
        token.kind = kind;
        token.text = line_.substr(start, at_ - start);
        token.column = start_column;
        token.end_column = column_;
        token.blank_before = std::exchange(blank_before_, false);
        result_.tokens.push_back(token);
    }

    void step(std::size_t bytes) {
        at_ += bytes;
        ++column_;
    }

    template <class Continues>
    void takeWhile(Token::Kind kind, Continues continues) {
        const std::size_t start = at_;
        const std::int32_t start_column = column_;
        do {
            step(1);
        } while (at_ < line_.size() && continues(line_[at_]));
        push(kind, start, start_column);
    }

    bool startsNumber() const {
        const char c = line_[at_];
        if (isDigit(c)) return true;
        const bool sign = c == '-' || c == '+' || c == '.';
        return sign && at_ + 1 < line_.size() && continuesNumber(line_[at_ + 1]);
    }

    bool cutToken(const CodePoint& c) {
        if (c.value == '%') {
            takeWhile(Token::Kind::Word, [](char) { return false; });
        } else if (isLetter(line_[at_])) {
            takeWhile(Token::Kind::Word, continuesWord);
        } else if (startsNumber()) {
            takeWhile(Token::Kind::Number, continuesNumber);
        } else if (c.value == '"') {
            return cutQuoted();
        } else if (c.value == '{') {
            return cutParameter();
        } else {
            return refuse(c);
        }
        return true;
    }

    bool cutQuoted() {
        const std::size_t start = at_;
        const std::int32_t start_column = column_;
        step(1);
        while (at_ < line_.size() && line_[at_] != '"') {
            const CodePoint c = decode(line_, at_);
            if (c.value == kNotUtf8 || (c.value < 0x20 && c.value != '\t')) return refuse(c);
            step(c.bytes);
        }
        if (at_ == line_.size()) {
            problems_.push_back({{file_, line_number_, start_column},
                                 "the words have no closing quote",
                                 "put a \" at their end, on the same line"});
            return false;
        }
        step(1);
        push(Token::Kind::Quoted, start, start_column);
        return true;
    }

    bool cutParameter() {
        const std::size_t start = at_;
        const std::int32_t start_column = column_;
        do {
            step(1);
        } while (at_ < line_.size() && continuesName(line_[at_]));
        const std::string_view name = line_.substr(start + 1, at_ - start - 1);
        if (name.empty() || at_ == line_.size() || line_[at_] != '}') {
            return addProblem(start_column, "the parameter is not a name between braces",
                              "write its name between braces, {entry_g}");
        }
        step(1);
        const auto found = std::find_if(values_.begin(), values_.end(),
                                        [&](const ParameterValue& v) { return v.name == name; });
        if (found == values_.end()) {
            return addProblem(start_column, "{" + std::string(name) + "} has no value",
                              knownParameters(name));
        }
        return putIn(static_cast<std::int32_t>(found - values_.begin()), start_column);
    }

    /// Puts the tokens of a value at the braces, which end here.
    bool putIn(std::int32_t index, std::int32_t start_column) {
        // chosen: a list of rolls fits, and a value used everywhere does not swell the text
        constexpr std::size_t kLongest = 120;
        const ParameterValue& value = values_[static_cast<std::size_t>(index)];
        if (value.value.size() > kLongest) {
            return addProblem(start_column, "the value is too long" + inParameter(value),
                              "write at most 120 bytes");
        }
        Problems inner;
        static const std::vector<ParameterValue> kNone;
        const LineTokens cut = Cutter(value.value, file_, 1, inner, kNone).cut();
        const bool comment = value.value.find('#') != std::string::npos;
        if (!inner.empty() || cut.tokens.empty() || comment) {
            return addProblem(
                start_column,
                (inner.empty() ? "the value has no words or numbers" : inner.front().what) +
                    inParameter(value),
                "write a number with its unit or words of figure text");
        }
        for (Token token : cut.tokens) {
            token.column = start_column;
            token.end_column = column_;
            token.blank_before = true;
            token.parameter = index;
            result_.tokens.push_back(token);
        }
        blank_before_ = true;
        result_.parameters.push_back(index);
        return true;
    }

    std::string knownParameters(std::string_view wrong) const {
        if (values_.empty()) return "give it a value, or write the number itself";
        std::vector<std::string_view> names;
        std::string list;
        for (const ParameterValue& value : values_) {
            names.push_back(value.name);
            list += (list.empty() ? "{" : ", {") + value.name + "}";
        }
        const std::string_view near = nearestWord(wrong, names);
        return (near.empty() ? "" : "did you mean {" + std::string(near) + "}? ") +
               "there are values of " + list;
    }

    bool addProblem(std::int32_t column, std::string what, std::string remedy) {
        problems_.push_back({{file_, line_number_, column}, std::move(what), std::move(remedy)});
        return false;
    }

    bool refuse(const CodePoint& c) {
        problems_.push_back({{file_, line_number_, column_},
                             quoteForMessage(line_.substr(at_, c.bytes)) + " has no meaning here",
                             remedyFor(c.value)});
        return false;
    }

    std::string_view line_;
    const std::string& file_;
    std::int32_t line_number_;
    Problems& problems_;
    const std::vector<ParameterValue>& values_;
    LineTokens result_;
    bool blank_before_ = false;
    std::size_t at_ = 0;
    std::int32_t column_ = 1;
};

}  // namespace

LineTokens cutLine(std::string_view line, const std::string& file, std::int32_t line_number,
                   Problems& problems, const std::vector<ParameterValue>& values) {
    return Cutter(line, file, line_number, problems, values).cut();
}

std::string inParameter(const ParameterValue& value) {
    std::string words = " (in {" + value.name + "}, the value " + quoteForMessage(value.value);
    if (value.where.line > 0) {
        words += " of " + value.where.file + ":" + std::to_string(value.where.line) + ":" +
                 std::to_string(value.where.column);
    }
    return words + ")";
}

std::string quoteForMessage(std::string_view text) {
    constexpr int kLongest = 32;  // chosen: fits on a line of a terminal with the rest
    std::string words = "'";
    std::size_t at = 0;
    for (int shown = 0; at < text.size(); ++shown) {
        if (shown == kLongest) {
            words += "...";
            break;
        }
        const CodePoint c = decode(text, at);
        const bool control = c.value < 0x20 || (c.value >= 0x7F && c.value < 0xA0);
        if (c.value == kNotUtf8 || control) {
            words += numberOf(c, static_cast<unsigned char>(text[at]));
        } else {
            words += text.substr(at, c.bytes);
        }
        at += c.bytes;
    }
    return words + "'";
}

std::string joinTokens(const std::vector<Token>& tokens, std::size_t first, std::size_t last) {
    std::string words;
    for (std::size_t i = first; i < last; ++i) {
        if (i > first && tokens[i].blank_before) words += ' ';
        words += tokens[i].text;
    }
    return words;
}

std::string lowerCase(std::string_view text) {
    std::string lower(text);
    for (char& c : lower) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    return lower;
}

}  // namespace plumbline::text
