#include "engine/load/carried.h"

#include <map>
#include <optional>
#include <utility>

namespace plumbline::load {
namespace {

namespace fs = std::filesystem;

// chosen: a photograph of an airfield that is sharp enough from the crowd line
constexpr std::size_t kGreatestPicture_bytes = 3U << 20U;
constexpr std::size_t kGreatestNotes_bytes = 1U << 20U;  // chosen: hours of music written as notes

/// As it is told from others: whole, without "..".
fs::path wholePath(const fs::path& path) {
    std::error_code failed;
    const fs::path whole = fs::absolute(path, failed);
    return (failed ? path : whole).lexically_normal();
}

using Files = std::map<fs::path, std::string>;

/// The folder that all of them lie below.
fs::path commonFolder(const Files& files) {
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

/// Takes note of what is read.
FileSource keeping(const FileSource& source, Files& read) {
    return [&source, &read](const fs::path& path) {
        system::ReadFile file = source(path);
        if (file.bytes) read[wholePath(path)] = *file.bytes;
        return file;
    };
}

bool isPicture(const std::string& bytes) {
    // PNG (third edition), 5.2; JPEG: ITU-T T.81, B.1.1.3
    return bytes.starts_with("\x89PNG\r\n\x1a\n") || bytes.starts_with("\xff\xd8\xff");
}

/// What only those read who draw and play.
void addSeenAndHeard(const Workspace& workspace, const FileSource& files,
                     const FileSource& site_files, Files& read, Carried& out) {
    const std::string& music = workspace.routine.music_file;
    if (!music.empty()) {
        constexpr std::string_view kNotes = ".score.toml";
        const fs::path path = workspace.routine_path.parent_path() / music;
        const system::ReadFile file = music.ends_with(kNotes) ? files(path) : system::ReadFile();
        if (file.bytes && file.bytes->size() <= kGreatestNotes_bytes) {
            read[wholePath(path)] = *file.bytes;
        } else {
            out.left_out.push_back(
                "the music stays behind: only notes (.score.toml, 1 MB) go along");
        }
    }
    if (!workspace.site.aerial) return;
    const fs::path path = workspace.site.aerial->file;
    const system::ReadFile file = site_files(path);
    if (file.bytes && file.bytes->size() <= kGreatestPicture_bytes && isPicture(*file.bytes)) {
        read[wholePath(path)] = *file.bytes;
    } else {
        out.left_out.push_back("the aerial picture stays behind: a PNG or JPEG of 3 MB goes along");
    }
}

/// From a folder that has nothing else.
bool opensElsewhere(const Carried& carried) {
    const fs::path folder = "files";
    const FileSource files = [&](const fs::path& path) -> system::ReadFile {
        for (const Carried::File& file : carried.files) {
            if (folder / file.name == path.lexically_normal()) return {file.bytes, ""};
        }
        return {std::nullopt, "not carried"};
    };
    Overrides overrides;
    if (!carried.site.empty()) overrides.site_file = "files/" + carried.site;
    if (!carried.weather.empty()) {
        const bool metar = !files("files/" + carried.weather).bytes;
        overrides.weather = metar ? carried.weather : "files/" + carried.weather;
    }
    return loadWorkspace(folder / carried.routine, overrides, files, files).has_value();
}

/// Names for what was read, and for what takes the place of the routine's own.
void nameFiles(Files read, const fs::path& routine_file, const Overrides& overrides, Carried& out) {
    if (overrides.weather) out.weather = *overrides.weather;
    if (read.empty()) return;
    const fs::path folder = commonFolder(read);
    const auto nameOf = [&](const fs::path& path) {
        return wholePath(path).lexically_relative(folder).generic_string();
    };
    if (!routine_file.empty()) out.routine = nameOf(routine_file);
    if (overrides.site_file) out.site = nameOf(*overrides.site_file);
    if (overrides.weather && read.count(wholePath(*overrides.weather)) != 0)
        out.weather = nameOf(*overrides.weather);
    for (auto& [path, bytes] : read) out.files.push_back({nameOf(path), std::move(bytes)});
}

}  // namespace

Expected<Carried, Problems> filesToCarry(const fs::path& routine_file, const Overrides& overrides,
                                         const FileSource& files,
                                         const FileSource& override_files) {
    Carried out;
    Files read;
    const auto loaded =
        loadWorkspace(routine_file, overrides, keeping(files, read), keeping(override_files, read));
    if (!loaded) return Unexpected(loaded.error());
    // What the overrides put aside goes along where it is there: the routine names it.
    static_cast<void>(loadWorkspace(routine_file, {}, keeping(files, read)));
    addSeenAndHeard(*loaded, files, overrides.site_file ? override_files : files, read, out);
    nameFiles(std::move(read), routine_file, overrides, out);
    if (opensElsewhere(out)) return out;
    Problem problem;
    problem.where.file = routine_file.generic_string();
    problem.what = "a file of it is named by its whole path";
    problem.remedy =
        "name files by their way from the routine's folder, so that they can go with it";
    return Unexpected(Problems{problem});
}

Expected<Carried, Problems> demoFilesToCarry(const Overrides& overrides,
                                             const FileSource& override_files) {
    Carried out;
    Files read;
    const auto loaded = loadDemo(overrides, keeping(override_files, read));
    if (!loaded) return Unexpected(loaded.error());
    if (overrides.site_file) {
        Workspace seen = *loaded;
        seen.routine.music_file.clear();  // the demo's own
        addSeenAndHeard(seen, builtInFiles(), override_files, read, out);
    }
    nameFiles(std::move(read), {}, overrides, out);
    return out;
}

}  // namespace plumbline::load
