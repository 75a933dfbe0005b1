#include "engine/page/font_files.h"

#include <filesystem>

#include "engine/system/whole_file.h"

namespace plumbline::page {

Expected<Fonts, Problems> openFonts(const std::vector<std::string>& files) {
    Fonts fonts;
    Problems problems;
    for (const std::string& name : files) {
        system::ReadFile file = system::readWholeFile(std::filesystem::u8path(name));
        std::string reason = file.reason;
        if (file.bytes) reason = fonts.add(std::move(*file.bytes));
        if (reason.empty()) continue;
        Problem problem;
        problem.where.file = name;
        problem.what = "this font cannot be used: " + reason;
        problem.remedy = "give a TrueType or OpenType file (.ttf, .otf, .ttc)";
        problems.push_back(std::move(problem));
    }
    if (!problems.empty()) return Unexpected(std::move(problems));
    return fonts;
}

}  // namespace plumbline::page
