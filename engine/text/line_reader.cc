#include "engine/text/line_reader.h"

#include <algorithm>
#include <cmath>

#include "engine/base/nearest_word.h"
#include "engine/base/number_text.h"
#include "engine/text/words.h"

namespace plumbline::text {

namespace {

std::string listWords(LineReader::Words words, const char* quote = "") {
    std::string list;
    std::size_t left = words.size();
    for (const std::string_view word : words) {
        list += quote + std::string(word) + quote;
        --left;
        if (left > 0) list += left == 1 ? " or " : ", ";
    }
    return list;
}

std::string remedyFor(const QuantityRule& rule) {
    return std::string("write it with its unit, ") + rule.example;
}

}  // namespace

LineReader::LineReader(const LineTokens& line, const std::string& file, std::int32_t line_number,
                       Problems& problems)
    : tokens_(line.tokens),
      values_(line.values),
      end_column_(line.end_column),
      file_(file),
      line_number_(line_number),
      problems_(problems) {
    lower_.reserve(tokens_.size());
    for (const Token& token : tokens_) {
        lower_.push_back(token.kind == Token::Kind::Word ? lowerCase(token.text) : std::string());
    }
}

std::string_view LineReader::word(std::size_t ahead) const {
    return at_ + ahead < lower_.size() ? std::string_view(lower_[at_ + ahead]) : std::string_view();
}

bool LineReader::numberNext(std::size_t ahead) const {
    return at_ + ahead < tokens_.size() && tokens_[at_ + ahead].kind == Token::Kind::Number;
}

bool LineReader::quantityNext(units::Dimension dimension, std::size_t ahead) const {
    if (!numberNext(ahead) || word(ahead + 1).empty()) return false;
    const units::Unit* unit = units::findUnit(tokens_[at_ + ahead + 1].text);
    return unit != nullptr && unit->dimension == dimension;
}

bool LineReader::accept(std::string_view wanted) {
    if (atEnd() || word() != wanted) return false;
    ++at_;
    return true;
}

bool LineReader::expect(std::string_view wanted, const char* remedy) {
    if (accept(wanted)) return true;
    if (atEnd()) {
        fail("'" + std::string(wanted) + "' is missing", remedy);
    } else {
        failUnknown({wanted}, remedy);
    }
    return false;
}

std::optional<std::string_view> LineReader::expectOneOf(Words words, const char* what) {
    const auto found = std::find(words.begin(), words.end(), word());
    if (!atEnd() && found != words.end()) {
        ++at_;
        return *found;
    }
    if (atEnd()) {
        fail(std::string(what) + " is missing", "write " + listWords(words));
    } else {
        failUnknown(words, "write " + listWords(words));
    }
    return std::nullopt;
}

std::optional<double> LineReader::readNumber(const char* what, const std::string& remedy,
                                             bool mixed) {
    if (!numberNext()) {
        if (atEnd()) {
            fail(std::string(what) + " is missing", remedy);
        } else if (findHonestAnswer(word()) != nullptr) {
            failUnknown({}, remedy);
        } else {
            fail(quoteForMessage(tokens_[at_].text) + " is no number for " + what, remedy);
        }
        return std::nullopt;
    }
    const std::string_view digits = tokens_[at_].text;
    const std::size_t stroke = digits.find('/');
    std::optional<double> value = parseDouble(digits.substr(0, stroke));
    if (stroke != std::string_view::npos) {
        const std::optional<double> below = parseDouble(digits.substr(stroke + 1));
        value = value && below && *below > 0 ? std::optional(*value / *below) : std::nullopt;
    }
    if (!value || !std::isfinite(*value)) {
        fail(quoteForMessage(digits) + " is no number", remedy);
        return std::nullopt;
    }
    ++at_;
    const bool fraction_follows = mixed && stroke == std::string_view::npos && numberNext() &&
                                  tokens_[at_].text.find('/') != std::string_view::npos;
    if (!fraction_follows) return value;
    const std::optional<double> fraction = readNumber(what, remedy, false);
    return fraction ? std::optional(*value + *fraction) : std::nullopt;
}

std::optional<double> LineReader::readQuantity(const QuantityRule& rule) {
    const std::size_t number_index = at_;
    const std::optional<double> number = readNumber(rule.name, remedyFor(rule), false);
    return number ? readUnit(*number, number_index, rule) : std::nullopt;
}

std::optional<double> LineReader::readUnit(double number, std::size_t number_index,
                                           const QuantityRule& rule) {
    const std::string unit_list = units::unitList(rule.dimension);
    const std::string_view name = word();
    const units::Unit* unit = name.empty() ? nullptr : units::findUnit(tokens_[at_].text);
    if (unit == nullptr && findHonestAnswer(name) != nullptr) {
        failUnknown({}, remedyFor(rule));
        return std::nullopt;
    }
    if (unit == nullptr && (name.empty() || isTradeWord(name))) {
        failAt(number_index,
               quoteForMessage(tokens_[number_index].text) + " has no unit, and " + rule.name +
                   " needs one",
               "write " + unit_list + " after it: " + rule.example);
        return std::nullopt;
    }
    if (unit == nullptr) {
        const std::string_view nearest = units::nearestUnit(tokens_[at_].text, rule.dimension);
        fail(quoteForMessage(tokens_[at_].text) + " is no unit",
             nearest.empty() ? "write " + unit_list + ": " + rule.example
                             : "did you mean '" + std::string(nearest) + "'?");
        return std::nullopt;
    }
    if (unit->dimension != rule.dimension) {
        fail(quoteForMessage(tokens_[at_].text) + " measures " +
                 std::string(units::dimensionName(unit->dimension)) + ", but " + rule.name +
                 " is " + std::string(units::dimensionName(rule.dimension)),
             "write " + unit_list + ": " + rule.example);
        return std::nullopt;
    }
    ++at_;
    const double value = number * unit->factor;
    const bool low = rule.above ? value <= rule.least : value < rule.least;
    if (low || value > rule.greatest) {
        failAt(number_index,
               std::string(rule.name) + " of " + joinTokens(tokens_, number_index, at_) +
                   " is out of range",
               std::string("write ") + rule.range);
    }
    return value;
}

std::optional<double> LineReader::readCount(const char* what, const char* example,
                                            double greatest) {
    const std::size_t number_index = at_;
    const std::optional<double> value =
        readNumber(what, std::string("write it as in ") + example, true);
    if (value && (*value <= 0 || *value > greatest)) {
        failAt(number_index,
               std::string(what) + " of " + joinTokens(tokens_, number_index, at_) +
                   " is out of range",
               "write more than 0 and at most " + formatDouble(greatest));
    }
    return value;
}

std::optional<std::int32_t> LineReader::readWhole(const char* what, std::int32_t least,
                                                  std::int32_t greatest) {
    const std::size_t number_index = at_;
    const std::string range =
        "write a whole number from " + std::to_string(least) + " to " + std::to_string(greatest);
    const std::optional<double> value = readNumber(what, range, false);
    if (!value) return std::nullopt;
    if (*value != std::floor(*value) || *value < least || *value > greatest) {
        failAt(number_index,
               std::string(what) + " of " + joinTokens(tokens_, number_index, at_) +
                   " is out of range",
               range);
        return least;
    }
    return static_cast<std::int32_t>(*value);
}

std::optional<std::string> LineReader::readQuoted(const char* example) {
    if (atEnd() || tokens_[at_].kind != Token::Kind::Quoted) {
        fail("the words in quotes are missing", std::string("write ") + example);
        return std::nullopt;
    }
    const std::string_view quoted = tokens_[at_++].text;
    return std::string(quoted.substr(1, quoted.size() - 2));
}

std::string LineReader::readName() {
    if (atEnd() || tokens_[at_].kind == Token::Kind::Number) return {};
    if (tokens_[at_].kind == Token::Kind::Quoted) return readQuoted("").value_or("");
    return std::string(tokens_[at_++].text);
}

bool LineReader::expectEnd(Words more) {
    if (atEnd()) return true;
    failUnknown(more, more.size() == 0
                          ? std::string("end the line here: one element a line")
                          : "end the line here, or go on with " + listWords(more, "'"));
    return false;
}

void LineReader::fail(std::string what, std::string remedy) {
    failAt(at_, std::move(what), std::move(remedy));
}

void LineReader::failAt(std::size_t index, std::string what, std::string remedy) {
    const std::int32_t column = index < tokens_.size() ? tokens_[index].column : end_column_;
    if (index < tokens_.size() && tokens_[index].parameter >= 0) {
        what += inParameter((*values_)[static_cast<std::size_t>(tokens_[index].parameter)]);
    }
    problems_.push_back({{file_, line_number_, column}, std::move(what), std::move(remedy)});
}

void LineReader::failUnknown(Words words, const std::string& remedy) {
    const std::string_view wrong = word();
    if (const HonestAnswer* answer = findHonestAnswer(wrong)) {
        fail(std::string(answer->what), std::string(answer->remedy));
        return;
    }
    const std::string quoted =
        atEnd() ? std::string("the end of the line") : quoteForMessage(tokens_[at_].text);
    if (wrong.empty() || isTradeWord(wrong)) {
        fail(quoted + " does not belong here", remedy);
        return;
    }
    const std::string_view nearest = nearestWord(wrong, words);
    fail(quoted + " is no word of figure text",
         nearest.empty() ? remedy : "did you mean '" + std::string(nearest) + "'?");
}

}  // namespace plumbline::text
