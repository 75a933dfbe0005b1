#pragma once
// A TOML file as plain values with their places, so that only one source file brings the library
// in.

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/expected.h"
#include "engine/base/problem.h"

namespace plumbline::data {

struct TomlEntry;

/// A value and where it stands.
struct TomlValue {
    enum class Kind { Text, Number, Boolean, Date, Array, Table };
    Kind kind = Kind::Table;
    std::string text;   ///< Text; Date as ISO 8601
    double number = 0;  ///< Number, of an integer too
    bool boolean = false;
    std::vector<TomlValue> items;    ///< Array
    std::vector<TomlEntry> entries;  ///< Table, in the order of the file
    std::int32_t line = 0, column = 0;
    /// Column of a Text's first character; 0 where escapes or several lines leave no plain
    /// relation.
    std::int32_t text_column = 0;
};

struct TomlEntry {
    std::string key;
    TomlValue value;
    std::int32_t line = 0, column = 0;  ///< of the key
};

/// @errors not UTF-8, not TOML, empty: the first place where it goes wrong
Expected<TomlValue, Problems> parseToml(std::string_view toml_text, const std::string& file);

/// "a text", "a number", ...
const char* kindName(TomlValue::Kind kind);

}  // namespace plumbline::data
