#pragma once
// Takes the entries of one TOML table, checks each and collects what is wrong.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/base/problem.h"
#include "engine/data/toml_tree.h"
#include "engine/units/quantity.h"

namespace plumbline::data {

/// Sane range of a quantity, as people write it: {"0 m2", "100 m2"}; both ends are inside.
struct QuantityRange {
    const char* least;
    const char* greatest;
};
struct NumberRange {
    double least;
    double greatest;
};

/// Each read returns what stands there, or 0 (an empty text, nothing) after noting a problem; a key
/// with a fallback may be absent. finish() reports what nobody asked for.
class TableReader {
public:
    /// @param name  "[mass]"; empty: the file itself
    TableReader(const TomlValue& table, std::string name, const std::string& file,
                Problems& problems)
        : table_(&table), name_(std::move(name)), file_(&file), problems_(&problems) {}

    double quantity(std::string_view key, units::Dimension dimension, QuantityRange range,
                    std::optional<double> fallback = std::nullopt);
    double number(std::string_view key, NumberRange range);
    std::string text(std::string_view key, bool required = true);
    /// An ISO 8601 date and time in UTC, bare or as a text; empty when absent.
    std::string dateTime(std::string_view key);
    /// One of a few words; their index, or 0.
    std::size_t choice(std::string_view key, const std::vector<std::string_view>& words,
                       std::size_t fallback);

    std::optional<TableReader> table(std::string_view key, bool required);
    /// [[key]]: any number, also none.
    std::vector<TableReader> tables(std::string_view key);
    /// The entry, noted as known; null and no problem when absent.
    const TomlValue* find(std::string_view key);

    /// A quantity in an item of a list.
    double quantityOf(const TomlValue& value, const std::string& what, units::Dimension dimension,
                      QuantityRange range);

    bool has(std::string_view key) const;
    void problemAt(const TomlValue& value, std::string what, std::string remedy);
    void problemAtKey(std::string_view key, std::string what, std::string remedy);
    void finish();

    const std::string& file() const { return *file_; }
    Problems& problems() { return *problems_; }

private:
    const TomlEntry* entry(std::string_view key) const;
    const TomlValue* required(std::string_view key);
    bool isKind(const TomlValue& value, std::string_view key, TomlValue::Kind kind,
                const std::string& remedy);
    void note(std::int32_t line, std::int32_t column, std::string what, std::string remedy);
    std::string placeName() const { return name_.empty() ? "the file" : name_; }

    const TomlValue* table_;
    std::string name_;
    const std::string* file_;
    Problems* problems_;
    std::vector<std::string_view> known_;
};

}  // namespace plumbline::data
