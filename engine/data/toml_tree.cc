#include "engine/data/toml_tree.h"

#include <algorithm>
#include <sstream>
#include <utility>

// toml++ 3.3.0 asserts that a key follows "[", and where NDEBUG is set tells the compiler that one
// does, although its next lines handle the other case. So the parser is compiled here, from the
// headers, with assertions that do nothing ("[=" in aircraft_toml_test).
#undef NDEBUG
#undef TOML_HEADER_ONLY
#undef TOML_SHARED_LIB
#define TOML_HEADER_ONLY 1
#define TOML_ASSERT(expression) static_cast<void>(0)
#include <toml++/toml.h>

namespace plumbline::data {
namespace {

std::int32_t codePoints(std::string_view text) {
    return static_cast<std::int32_t>(std::count_if(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    }));
}

bool isControl(char c) { return static_cast<unsigned char>(c) < 0x20; }

template <class Date>
std::string dateText(const Date& date) {
    std::ostringstream out;
    out << date;
    return out.str();
}

TomlValue convert(const toml::node& node);

void convertText(const toml::node& node, TomlValue& value) {
    value.kind = TomlValue::Kind::Text;
    value.text = node.ref<std::string>();
    const toml::source_region& source = node.source();
    // As long as its text and two quotes: nothing in it is escaped.
    const bool plain = source.begin.line == source.end.line &&
                       static_cast<std::int32_t>(source.end.column) -
                               static_cast<std::int32_t>(source.begin.column) ==
                           codePoints(value.text) + 2 &&
                       std::none_of(value.text.begin(), value.text.end(), isControl);
    value.text_column = plain ? value.column + 1 : 0;
}

void convertTable(const toml::table& table, TomlValue& value) {
    value.kind = TomlValue::Kind::Table;
    for (const auto& [key, node] : table) {
        TomlEntry entry;
        entry.key = std::string(key.str());
        entry.line = static_cast<std::int32_t>(key.source().begin.line);
        entry.column = static_cast<std::int32_t>(key.source().begin.column);
        entry.value = convert(node);
        value.entries.push_back(std::move(entry));
    }
    std::stable_sort(value.entries.begin(), value.entries.end(),
                     [](const TomlEntry& a, const TomlEntry& b) {
                         return a.line != b.line ? a.line < b.line : a.column < b.column;
                     });
}

TomlValue convert(const toml::node& node) {
    TomlValue value;
    value.line = static_cast<std::int32_t>(node.source().begin.line);
    value.column = static_cast<std::int32_t>(node.source().begin.column);
    switch (node.type()) {
        case toml::node_type::string:
            convertText(node, value);
            break;
        case toml::node_type::integer:
            value.kind = TomlValue::Kind::Number;
            value.number = static_cast<double>(node.ref<std::int64_t>());
            break;
        case toml::node_type::floating_point:
            value.kind = TomlValue::Kind::Number;
            value.number = node.ref<double>();
            break;
        case toml::node_type::boolean:
            value.kind = TomlValue::Kind::Boolean;
            value.boolean = node.ref<bool>();
            break;
        case toml::node_type::array:
            value.kind = TomlValue::Kind::Array;
            for (const toml::node& item : *node.as_array()) value.items.push_back(convert(item));
            break;
        case toml::node_type::date:
            value.kind = TomlValue::Kind::Date;
            value.text = dateText(node.ref<toml::date>());
            break;
        case toml::node_type::time:
            value.kind = TomlValue::Kind::Date;
            value.text = dateText(node.ref<toml::time>());
            break;
        case toml::node_type::date_time:
            value.kind = TomlValue::Kind::Date;
            value.text = dateText(node.ref<toml::date_time>());
            break;
        default:
            convertTable(*node.as_table(), value);
            break;
    }
    return value;
}

}  // namespace

Expected<TomlValue, Problems> parseToml(std::string_view toml_text, const std::string& file) {
    Problem problem;
    problem.where.file = file;
    if (toml_text.find_first_not_of(" \t\r\n") == std::string_view::npos) {
        problem.where.line = problem.where.column = 1;
        problem.what = "the file is empty";
        problem.remedy = "fill it or name another";
        return Unexpected(Problems{std::move(problem)});
    }
    const auto failed = [&problem](const toml::parse_error& error) {
        const toml::source_position& at = error.source().begin;
        problem.where.line = static_cast<std::int32_t>(at.line);
        problem.where.column = static_cast<std::int32_t>(at.column);
        problem.what = "this is not TOML: " + std::string(error.description());
        problem.remedy = "write key = value, texts and quantities in quotes";
        return Unexpected(Problems{std::move(problem)});
    };
#if TOML_EXCEPTIONS
    try {
        return convert(toml::parse(toml_text, std::string_view(file)));
    } catch (const toml::parse_error& error) {
        return failed(error);
    }
#else
    const toml::parse_result result = toml::parse(toml_text, std::string_view(file));
    if (!result) return failed(result.error());
    return convert(result.table());
#endif
}

const char* kindName(TomlValue::Kind kind) {
    switch (kind) {
        case TomlValue::Kind::Text:
            return "a text";
        case TomlValue::Kind::Number:
            return "a number";
        case TomlValue::Kind::Boolean:
            return "true or false";
        case TomlValue::Kind::Date:
            return "a date";
        case TomlValue::Kind::Array:
            return "a list";
        case TomlValue::Kind::Table:
            return "a table";
    }
    return "a value";
}

}  // namespace plumbline::data
