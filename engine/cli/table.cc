#include "engine/cli/table.h"

#include <algorithm>

namespace plumbline::cli {

namespace {

std::size_t codePoints(const std::string& text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u;
    }));
}

}  // namespace

void printTable(std::FILE* to, const std::vector<std::vector<std::string>>& rows) {
    std::vector<std::size_t> widths;
    for (const std::vector<std::string>& row : rows) {
        widths.resize(std::max(widths.size(), row.size()), 0);
        for (std::size_t i = 0; i < row.size(); ++i)
            widths[i] = std::max(widths[i], codePoints(row[i]));
    }
    for (const std::vector<std::string>& row : rows) {
        std::string line;
        for (std::size_t i = 0; i < row.size(); ++i) {
            const std::string padding(widths[i] - codePoints(row[i]), ' ');
            line += i == 0 ? row[i] + padding : "  " + padding + row[i];
        }
        std::fprintf(to, "%s\n", line.c_str());
    }
}

}  // namespace plumbline::cli
