#include "engine/load/carried.h"

#include <algorithm>
#include <map>
#include <utility>

namespace plumbline::load {
namespace {

namespace fs = std::filesystem;

/// As it is told from others: whole, without "..".
fs::path wholePath(const fs::path& path) {
    std::error_code failed;
    const fs::path whole = fs::absolute(path, failed);
    return (failed ? path : whole).lexically_normal();
}

std::string utf8(const fs::path& path) {
    const std::u8string text = path.generic_u8string();
    return {text.begin(), text.end()};
}

/// The folder that all of them lie below.
fs::path commonFolder(const std::map<fs::path, std::string>& files) {
    fs::path common = files.begin()->first.parent_path();
    for (const auto& [path, bytes] : files) {
        fs::path both;
        auto a = common.begin();
        for (auto b = path.begin(); a != common.end() && b != path.end() && *a == *b; ++a, ++b)
            both /= *a;
        common = both;
    }
    return common;
}

/// From a folder that has nothing else.
bool opensElsewhere(const Carried& carried) {
    const fs::path folder = "files";
    const auto files = [&](const fs::path& path) -> system::ReadFile {
        for (const Carried::File& file : carried.files) {
            const fs::path name(std::u8string(file.name.begin(), file.name.end()));
            if (folder / name == path.lexically_normal()) return {file.bytes, ""};
        }
        return {std::nullopt, "not carried"};
    };
    Overrides overrides;
    const auto placed = [&](const std::string& name) { return (folder / name).generic_string(); };
    if (!carried.site.empty()) overrides.site_file = placed(carried.site);
    return loadWorkspace(folder / std::u8string(carried.routine.begin(), carried.routine.end()),
                         overrides, files)
        .has_value();
}

}  // namespace

Expected<Carried, Problems> filesToCarry(const fs::path& routine_file, const Overrides& overrides,
                                         const FileSource& files) {
    std::map<fs::path, std::string> read;
    const auto keep = [&](const fs::path& path) {
        system::ReadFile file = files(path);
        if (file.bytes) read[wholePath(path)] = *file.bytes;
        return file;
    };
    const auto loaded = loadWorkspace(routine_file, overrides, keep);
    if (!loaded) return Unexpected(loaded.error());
    const fs::path folder = commonFolder(read);
    const auto nameOf = [&](const fs::path& path) {
        return utf8(wholePath(path).lexically_relative(folder));
    };
    Carried out;
    for (auto& [path, bytes] : read) out.files.push_back({nameOf(path), std::move(bytes)});
    out.routine = nameOf(routine_file);
    if (overrides.site_file) out.site = nameOf(*overrides.site_file);
    if (overrides.weather) {
        const bool file = read.count(wholePath(*overrides.weather)) != 0;
        out.weather = file ? nameOf(*overrides.weather) : *overrides.weather;
    }
    if (!opensElsewhere(out)) {
        Problem problem;
        problem.where.file = routine_file.generic_string();
        problem.what = "a file of it is named by its whole path";
        problem.remedy =
            "name files by their way from the routine's folder, so that they can go with it";
        return Unexpected(Problems{problem});
    }
    return out;
}

}  // namespace plumbline::load
