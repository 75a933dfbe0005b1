#include "engine/load/load.h"

#include <algorithm>

#include "engine/base/nearest_word.h"
#include "engine/data/aircraft_toml.h"
#include "engine/data/metar.h"
#include "engine/data/pilot_toml.h"
#include "engine/data/rules_toml.h"
#include "engine/data/site_geojson.h"
#include "engine/data/site_toml.h"
#include "engine/data/weather_toml.h"

namespace plumbline::load {

namespace {

namespace fs = std::filesystem;

/// By its path in assets/.
constexpr std::string_view kDemoRoutine = "demo/demo.routine.toml";

/// Where a key of the routine file stands, for problems with the file that it names.
TextPosition positionOfKey(const std::string& text, const std::string& file, std::string_view key) {
    std::int32_t number = 1;
    for (std::size_t at = 0; at < text.size(); ++number) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        const std::string_view line = std::string_view(text).substr(at, end - at);
        const std::size_t first = line.find_first_not_of(" \t");
        if (first != std::string_view::npos && line.substr(first, key.size()) == key) {
            const std::string_view rest = line.substr(first + key.size());
            const std::size_t equals = rest.find_first_not_of(" \t");
            if (equals != std::string_view::npos && rest[equals] == '=')
                return {file, number, static_cast<std::int32_t>(first) + 1};
        }
        at = end + 1;
    }
    return {file, 0, 0};
}

class Loader {
public:
    Loader(const fs::path& routine_file, const Overrides& overrides, const FileSource& files,
           const FileSource& override_files)
        : routine_name_(routine_file.generic_string()),
          overrides_(overrides),
          files_(files),
          override_files_(override_files) {
        workspace_.routine_path = routine_file;
    }

    Expected<Workspace, Problems> load() {
        if (readRoutine()) {
            readAircraft();
            readSite();
            readWeather();
            readPilot();
        }
        if (!problems_.empty()) return Unexpected(std::move(problems_));
        noteOutside(workspace_.aircraft.model_file);
        return std::move(workspace_);
    }

    std::optional<Expected<Workspace, Problems>> loadAgain(const Workspace& before) {
        const bool read = readRoutine();
        const routine::Routine &now = workspace_.routine, &then = before.routine;
        if (read && (now.aircraft_file != then.aircraft_file || now.site_file != then.site_file ||
                     now.weather_file != then.weather_file || now.pilot_file != then.pilot_file))
            return std::nullopt;
        if (!problems_.empty()) return Unexpected(std::move(problems_));
        workspace_.aircraft = before.aircraft;
        workspace_.site = before.site;
        workspace_.weather = before.weather;
        workspace_.pilot = before.pilot;
        workspace_.rules = before.rules;
        workspace_.around = before.around;
        for (const std::string& name : before.outside) noteOutside(name);
        return std::move(workspace_);
    }

    Expected<data::Site, Problems> loadSite() {
        readSite();
        if (!problems_.empty()) return Unexpected(std::move(problems_));
        return std::move(workspace_.site);
    }

private:
    static system::ReadFile read(const fs::path& path, const FileSource& files, Fingerprint& mark) {
        system::ReadFile file = files(path);
        if (file.bytes) mark.add(*file.bytes);
        return file;
    }

    bool readRoutine() {
        system::ReadFile file = read(workspace_.routine_path, files_, workspace_.written);
        if (!file.bytes) {
            addUnreadable({routine_name_, 0, 0}, "this routine", file.reason);
            return false;
        }
        workspace_.routine_text = std::move(*file.bytes);
        routine::ReadRoutine read = routine::readRoutine(workspace_.routine_text, routine_name_);
        workspace_.routine = std::move(read.routine);
        noteOutside(workspace_.routine.music_file);
        add(read.problems);
        add(routine::bindFigures(workspace_.routine,
                                 [this](const std::string& name, const TextPosition& where) {
                                     return findFigure(name, where);
                                 }));
        return true;
    }

    /// A path beside the routine, or a name of the shelf.
    Expected<routine::FigureSource, Problem> findFigure(const std::string& name,
                                                        const TextPosition& where) {
        if (!isPath(name)) return findOnShelf(name, where);
        noteOutside(name);
        const fs::path path = workspace_.routine_path.parent_path() / name;
        system::ReadFile file = read(path, files_, workspace_.written);
        if (file.bytes) return routine::FigureSource{path.generic_string(), std::move(*file.bytes)};
        return Unexpected(
            unreadable(where, "figure file \"" + path.generic_string() + "\"", file.reason));
    }

    static bool isPath(const std::string& name) {
        constexpr std::string_view kEnding = ".toml";
        const bool ending =
            name.size() > kEnding.size() &&
            name.compare(name.size() - kEnding.size(), kEnding.size(), kEnding) == 0;
        return ending || name.find('/') != std::string::npos;
    }

    Expected<routine::FigureSource, Problem> findOnShelf(const std::string& name,
                                                         const TextPosition& where) {
        const auto figure = shelfFigure(name);
        if (figure) workspace_.written.add(*figure);
        if (figure)
            return routine::FigureSource{"shelf/" + name + ".figure.toml", std::string(*figure)};
        return Unexpected(unknownName(where, "there is no figure \"" + name + "\" on the shelf",
                                      name, shelfNames(), "the shelf has ",
                                      "a file of your own ends in .figure.toml"));
    }

    static Problem unknownName(const TextPosition& where, std::string what, const std::string& name,
                               const std::vector<std::string_view>& known,
                               const std::string& there_are, const std::string& own) {
        std::string list;
        for (const std::string_view one : known)
            list += (list.empty() ? "" : ", ") + std::string(one);
        const std::string_view near = nearestWord(name, known);
        return {where, std::move(what),
                (near.empty() ? "" : "did you mean " + std::string(near) + "? ") + there_are +
                    list + "; " + own};
    }

    void readAircraft() {
        if (workspace_.routine.aircraft_file.empty()) return;  // the reader has said so
        readNamed(workspace_.routine.aircraft_file, "aircraft", data::readAircraft,
                  workspace_.aircraft);
    }

    void readSite() {
        if (overrides_.site_file) {
            const system::ReadFile file =
                read(*overrides_.site_file, override_files_, workspace_.around);
            if (file.bytes) {
                take(data::readSite(*file.bytes, *overrides_.site_file), workspace_.site);
                readOutlines(*overrides_.site_file, override_files_);
                placeAerial(*overrides_.site_file);
                readRules(*overrides_.site_file, override_files_);
            } else {
                addUnreadable({*overrides_.site_file, 0, 0}, "this site file", file.reason);
            }
            return;
        }
        const std::string& site = workspace_.routine.site_file;
        if (site.empty()) return;  // the reader has said so
        readNamed(site, "site", data::readSite, workspace_.site);
        readOutlines(workspace_.routine_path.parent_path() / site, files_);
        placeAerial(workspace_.routine_path.parent_path() / site);
        readRules(workspace_.routine_path.parent_path() / site, files_);
    }

    /// The rule sets that a site file names: beside itself, or built in.
    void readRules(const fs::path& site_path, const FileSource& files) {
        for (const auto& [name, where] : workspace_.site.rules) {
            if (!isPath(name)) {
                readBuiltInRules(name, where);
                continue;
            }
            noteOutside(name);
            const fs::path path = site_path.parent_path() / name;
            const system::ReadFile file = read(path, files, workspace_.around);
            if (file.bytes)
                takeRules(data::readRules(*file.bytes, path.generic_string()));
            else
                addUnreadable(where, "rule file \"" + path.generic_string() + "\"", file.reason);
        }
    }

    void readBuiltInRules(const std::string& name, const TextPosition& where) {
        const auto text = embeddedAsset("rules/" + name + ".rules.toml");
        if (text) {
            workspace_.around.add(*text);
            takeRules(data::readRules(*text, "rules/" + name + ".rules.toml"));
            return;
        }
        problems_.push_back(unknownName(where, "there are no rules \"" + name + "\"", name,
                                        builtInRules(), "built in are ",
                                        "a file of your own ends in .rules.toml"));
    }

    void takeRules(Expected<data::RuleSet, Problems> read) {
        if (read)
            workspace_.rules.push_back(std::move(*read));
        else
            add(read.error());
    }

    void readPilot() {
        if (!workspace_.routine.pilot_file.empty())
            readNamed(workspace_.routine.pilot_file, "pilot", data::readPilot, workspace_.pilot);
    }

    /// The picture lies beside the site file; only who draws it reads it.
    void placeAerial(const fs::path& site_path) {
        if (!workspace_.site.aerial) return;
        std::string& file = workspace_.site.aerial->file;
        noteOutside(file);
        file = (site_path.parent_path() / file).string();
    }

    /// The map outlines that a site file names beside itself.
    void readOutlines(const fs::path& site_path, const FileSource& files) {
        const std::string& outlines = workspace_.site.outlines_file;
        if (outlines.empty()) return;
        noteOutside(outlines);
        const fs::path path = site_path.parent_path() / outlines;
        const system::ReadFile file = read(path, files, workspace_.around);
        if (file.bytes)
            add(data::readSiteOutlines(*file.bytes, path.generic_string(), workspace_.site));
        else
            addUnreadable({site_path.generic_string(), 0, 0},
                          "outlines file \"" + path.generic_string() + "\"", file.reason);
    }

    void readWeather() {
        if (overrides_.weather) {
            const system::ReadFile file =
                read(*overrides_.weather, override_files_, workspace_.around);
            if (!file.bytes) workspace_.around.add(*overrides_.weather);
            if (file.bytes)
                take(data::readWeather(*file.bytes, *overrides_.weather), workspace_.weather);
            else if (isMetar(*overrides_.weather))
                take(data::readMetar(*overrides_.weather, {"--weather", 1, 1}), workspace_.weather);
            else
                addUnreadable({*overrides_.weather, 0, 0}, "this weather file", file.reason);
            return;
        }
        const std::string& weather = workspace_.routine.weather_file;
        if (weather.empty()) {
            workspace_.weather.name = "standard day, calm";
        } else if (isMetar(weather)) {
            take(data::readMetar(weather,
                                 positionOfKey(workspace_.routine_text, routine_name_, "weather")),
                 workspace_.weather);
        } else {
            readNamed(weather, "weather", data::readWeather, workspace_.weather);
        }
    }

    /// A METAR is of several groups; a file's name that has blanks ends in .toml all the same.
    static bool isMetar(const std::string& text) {
        const std::string_view view(text);
        const bool is_toml = view.size() > 5 && view.substr(view.size() - 5) == ".toml";
        return !is_toml && view.find(' ') != std::string_view::npos;
    }

    /// Read all the same: a folder of aircraft beside one of routines is a fine thing.
    void noteOutside(const std::string& name) {
        std::vector<std::string>& outside = workspace_.outside;
        if (!system::staysInside(name) &&
            std::find(outside.begin(), outside.end(), name) == outside.end())
            outside.push_back(name);
    }

    template <class T>
    void readNamed(const std::string& name, std::string_view key,
                   Expected<T, Problems> (*reader)(std::string_view, const std::string&), T& into) {
        noteOutside(name);
        const fs::path path = workspace_.routine_path.parent_path() / name;
        const system::ReadFile file = read(path, files_, workspace_.around);
        if (file.bytes)
            take(reader(*file.bytes, path.generic_string()), into);
        else
            addUnreadable(positionOfKey(workspace_.routine_text, routine_name_, key),
                          std::string(key) + " file \"" + path.generic_string() + "\"",
                          file.reason);
    }

    template <class T>
    void take(Expected<T, Problems> read, T& into) {
        if (read)
            into = std::move(*read);
        else
            add(read.error());
    }

    void add(const Problems& problems) {
        problems_.insert(problems_.end(), problems.begin(), problems.end());
    }

    void addUnreadable(TextPosition where, const std::string& thing, const std::string& reason) {
        problems_.push_back(unreadable(std::move(where), thing, reason));
    }

    static Problem unreadable(TextPosition where, const std::string& thing,
                              const std::string& reason) {
        Problem problem;
        problem.where = std::move(where);
        problem.what = thing + " cannot be read: " + reason;
        problem.remedy = "check the name and the folder";
        return problem;
    }

    std::string routine_name_;
    const Overrides& overrides_;
    const FileSource& files_;
    const FileSource& override_files_;
    Workspace workspace_;
    Problems problems_;
};

system::ReadFile builtInFile(const fs::path& path) {
    const auto bytes = embeddedAsset(path.lexically_normal().generic_string());
    if (!bytes) return {std::nullopt, "it is not built in"};
    return {std::string(*bytes), ""};
}

/// One name a line.
std::vector<std::string_view> namesIn(std::string_view asset) {
    std::vector<std::string_view> names;
    std::string_view rest = embeddedAsset(asset).value_or("");
    for (std::size_t end = rest.find('\n'); end != std::string_view::npos; end = rest.find('\n')) {
        names.push_back(rest.substr(0, end));
        rest.remove_prefix(end + 1);
    }
    return names;
}

}  // namespace

std::string Workspace::revision() const {
    Fingerprint both = written;
    both.add(around.words());
    return both.words();
}

std::vector<std::string_view> shelfNames() { return namesIn("figures/names.txt"); }

std::vector<std::string_view> builtInRules() { return namesIn("rules/names.txt"); }

std::optional<std::string_view> shelfFigure(std::string_view name) {
    return embeddedAsset("figures/" + std::string(name) + ".figure.toml");
}

FileSource diskFiles() {
    return [](const fs::path& path) { return system::readWholeFile(path); };
}

Expected<Workspace, Problems> loadWorkspace(const fs::path& routine_file,
                                            const Overrides& overrides, const FileSource& files,
                                            const FileSource& override_files) {
    return Loader(routine_file, overrides, files, override_files).load();
}

std::optional<Expected<Workspace, Problems>> loadAgain(const Workspace& before,
                                                       const FileSource& files) {
    const Overrides none;
    return Loader(before.routine_path, none, files, files).loadAgain(before);
}

FileSource builtInFiles() { return builtInFile; }

Expected<Workspace, Problems> loadDemo(const Overrides& overrides,
                                       const FileSource& override_files) {
    return loadWorkspace(kDemoRoutine, overrides, builtInFile, override_files);
}

Expected<data::Site, Problems> loadSite(const fs::path& site_file) {
    Overrides only_site;
    only_site.site_file = site_file.generic_string();
    const FileSource disk = diskFiles();
    return Loader({}, only_site, disk, disk).loadSite();
}

}  // namespace plumbline::load
