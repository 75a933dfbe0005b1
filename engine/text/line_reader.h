#pragma once
// Reads the tokens of one line from left to right, saying what is wrong in the words of the trade.

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/text/quantity_rule.h"
#include "engine/text/token.h"

namespace plumbline::text {

/// Every `expect...` and `read...` adds one problem and returns nothing when it fails; the caller
/// then gives the line up. A number out of its range adds a problem, but reading goes on.
class LineReader {
public:
    using Words = std::initializer_list<std::string_view>;

    LineReader(const LineTokens& line, const std::string& file, std::int32_t line_number,
               Problems& problems);

    bool atEnd() const { return at_ == tokens_.size(); }
    std::size_t position() const { return at_; }
    const std::vector<Token>& tokens() const { return tokens_; }

    /// The word `ahead` places on, in lower case; empty where no word stands.
    std::string_view word(std::size_t ahead = 0) const;
    bool numberNext(std::size_t ahead = 0) const;
    /// A number with a unit of that dimension stands `ahead` places on.
    bool quantityNext(units::Dimension dimension, std::size_t ahead = 0) const;

    /// Passes over the word if it is the next one.
    bool accept(std::string_view word);
    bool expect(std::string_view word, const char* remedy);
    /// One of the words; `what` names them together: "a side".
    std::optional<std::string_view> expectOneOf(Words words, const char* what);

    /// A number with its unit, in SI units.
    std::optional<double> readQuantity(const QuantityRule& rule);
    /// A number without a unit: `1`, `1 1/2`, `3/4`, `1.5`.
    std::optional<double> readCount(const char* what, const char* example, double greatest);
    /// A whole number from least to greatest.
    std::optional<std::int32_t> readWhole(const char* what, std::int32_t least,
                                          std::int32_t greatest);
    std::optional<std::string> readQuoted(const char* example);
    /// A word as written, or what stands between quotes; empty, and no problem, for all else.
    std::string readName();

    /// True when nothing is left; `more` are the words that could have followed.
    bool expectEnd(Words more);

    /// A problem at the next token, or past the last one where none is left.
    void fail(std::string what, std::string remedy);
    /// A problem at token `index`.
    void failAt(std::size_t index, std::string what, std::string remedy);
    /// The next token is not one of `words`: an honest word for what is known but not flown, else
    /// the nearest word, else `remedy`.
    void failUnknown(Words words, const std::string& remedy);

private:
    /// The value of one number token, or of a whole number and a fraction after it.
    std::optional<double> readNumber(const char* what, const std::string& remedy, bool mixed);
    std::optional<double> readUnit(double number, std::size_t number_index,
                                   const QuantityRule& rule);

    const std::vector<Token>& tokens_;
    const std::vector<ParameterValue>* values_;
    std::vector<std::string> lower_;  ///< of each word token, empty for the others
    std::int32_t end_column_;
    const std::string& file_;
    std::int32_t line_number_;
    Problems& problems_;
    std::size_t at_ = 0;
};

}  // namespace plumbline::text
