#include "viewer/model/outline.h"

#include <algorithm>

namespace plumbline::model {

std::vector<std::string> textLines(const std::string& text) {
    std::vector<std::string> lines;
    std::size_t at = 0;
    while (at <= text.size()) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        std::string line = text.substr(at, end - at);
        while (!line.empty() &&
               (line.back() == ' ' || line.back() == '\t' || line.back() == '\r')) {
            line.pop_back();
        }
        lines.push_back(std::move(line));
        at = end + 1;
    }
    while (!lines.empty() && lines.back().empty()) lines.pop_back();
    while (!lines.empty() && lines.front().empty()) lines.erase(lines.begin());
    std::size_t indent = std::string::npos;
    for (const std::string& line : lines) {
        if (!line.empty()) indent = std::min(indent, line.find_first_not_of(" \t"));
    }
    for (std::string& line : lines) {
        if (!line.empty() && indent != std::string::npos) line.erase(0, indent);
    }
    return lines;
}

std::vector<OutlineRow> makeOutline(const path::Path& path, const routine::Routine* routine,
                                    const std::vector<check::Finding>& findings) {
    std::vector<OutlineRow> rows;
    for (const path::Figure& figure : path.figures) {
        OutlineRow row;
        row.name = figure.name;
        row.start_s = figure.start_s;
        row.stop_s = figure.stop_s;
        rows.push_back(std::move(row));
    }
    if (rows.empty() && !path.samples.empty()) {
        OutlineRow row;
        row.name = path.name;
        row.stop_s = path.duration_s();
        rows.push_back(std::move(row));
    }
    if (routine != nullptr) {
        // The solver may end early, never out of order: figures of both match by name.
        for (const routine::RoutineFigure& figure : routine->figures) {
            for (OutlineRow& row : rows) {
                if (row.name == figure.name) row.text = textLines(figure.text);
            }
        }
    }
    for (std::size_t i = 0; i < findings.size(); ++i) {
        for (OutlineRow& row : rows) {
            if (row.name == findings[i].figure) {
                row.findings.push_back(static_cast<std::int32_t>(i));
            }
        }
    }
    for (OutlineRow& row : rows) {
        std::stable_sort(row.findings.begin(), row.findings.end(),
                         [&](std::int32_t a, std::int32_t b) {
                             return findings[static_cast<std::size_t>(a)].grade >
                                    findings[static_cast<std::size_t>(b)].grade;
                         });
    }
    return rows;
}

std::int32_t rowAt(const std::vector<OutlineRow>& rows, double time_s) {
    const auto after =
        std::upper_bound(rows.begin(), rows.end(), time_s,
                         [](double time, const OutlineRow& row) { return time < row.start_s; });
    if (rows.empty()) return -1;
    if (after == rows.begin()) return 0;
    return static_cast<std::int32_t>(after - rows.begin()) - 1;
}

std::string withValues(std::string line, const std::vector<text::ParameterValue>& values) {
    for (const text::ParameterValue& value : values) {
        const std::string name = '{' + value.name + '}';
        for (std::size_t at = line.find(name); at != std::string::npos;
             at = line.find(name, at + value.value.size())) {
            line.replace(at, name.size(), value.value);
        }
    }
    return line;
}

}  // namespace plumbline::model
