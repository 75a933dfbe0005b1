#include "engine/base/problem.h"

namespace plumbline {

std::string describe(const Problem& problem) {
    std::string text;
    const auto add = [&text](const std::string& part, const char* separator) {
        if (part.empty()) return;
        if (!text.empty()) text += separator;
        text += part;
    };
    add(problem.where.file, "");
    if (problem.where.line > 0) {
        add(std::to_string(problem.where.line), ":");
        if (problem.where.column > 0) add(std::to_string(problem.where.column), ":");
    }
    add(problem.what, ": ");
    add(problem.remedy, ": ");
    return text;
}

std::string describe(const Problems& problems) {
    std::string text;
    for (const Problem& problem : problems) {
        text += describe(problem);
        text += '\n';
    }
    return text;
}

}  // namespace plumbline
