#include "tests/figures/number_file.h"

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>

#include "engine/base/number_text.h"

namespace plumbline::figures {

const std::vector<double>& NumberTable::column(const std::string& name) const {
    for (std::size_t i = 0; i < names.size(); ++i)
        if (names[i] == name) return columns[i];
    std::fprintf(stderr, "no column %s\n", name.c_str());
    std::abort();
}

NumberTable readNumbers(const std::string& file) {
    std::ifstream in(file, std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    NumberTable table;
    std::size_t at = 0;
    bool header = true;
    while (at < text.size()) {
        std::size_t end = text.find('\n', at);
        if (end == std::string::npos) end = text.size();
        std::size_t column = 0;
        while (at <= end) {
            std::size_t stop = text.find(',', at);
            if (stop == std::string::npos || stop > end) stop = end;
            std::string cell = text.substr(at, stop - at);
            while (!cell.empty() && cell.back() == '\r') cell.pop_back();
            if (header) {
                table.names.push_back(cell);
                table.columns.emplace_back();
            } else if (column < table.columns.size()) {
                table.columns[column].push_back(parseDouble(cell).value_or(NAN));
            }
            ++column;
            at = stop + 1;
        }
        header = false;
        at = end + 1;
    }
    return table;
}

}  // namespace plumbline::figures
