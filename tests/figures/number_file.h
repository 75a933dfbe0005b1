#pragma once
// Plain tables of numbers, for the figures: a header and rows; an empty cell is NaN.

#include <string>
#include <vector>

namespace plumbline::figures {

struct NumberTable {
    std::vector<std::string> names;
    std::vector<std::vector<double>> columns;

    std::size_t rows() const { return columns.empty() ? 0 : columns.front().size(); }
    /// Aborts with a message when there is none of that name.
    const std::vector<double>& column(const std::string& name) const;
};

/// Nothing in it when the file cannot be read.
NumberTable readNumbers(const std::string& file);

}  // namespace plumbline::figures
