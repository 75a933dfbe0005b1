#include "viewer/model/list.h"

#include <algorithm>
#include <array>

#include "engine/out/export.h"
#include "engine/units/units.h"
#include "viewer/model/action_list.h"
#include "viewer/model/model.h"
#include "viewer/model/remark_rows.h"

namespace plumbline::model {
namespace {

namespace fs = std::filesystem;

std::string lower(std::string text) {
    for (char& c : text) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    return text;
}

/// Every word typed stands somewhere in it.
bool matches(const std::string& in, const std::string& words) {
    const std::string text = lower(in);
    std::string rest = lower(words);
    while (!rest.empty()) {
        const std::size_t end = std::min(rest.find(' '), rest.size());
        if (text.find(rest.substr(0, end)) == std::string::npos) return false;
        rest.erase(0, end + 1);
    }
    return true;
}

int rankOf(const std::string& title, const std::string& words) {
    const std::string name = lower(title);
    if (name == words) return 0;
    return name.compare(0, words.size(), words) == 0 ? 1 : 2;
}

void addActions(const Model& model, std::vector<ListRow>& rows) {
    for (const ActionEntry& entry : actionList()) {
        const bool doubled = entry.key != 0 && entry.key_words[0] == '\0';
        if (doubled || !offered(model, entry)) continue;
        if (entry.kind == ActionKind::ShowList &&
            entry.index == static_cast<int>(ListKind::Anything)) {
            continue;
        }
        ListRow row;
        row.title = entry.words;
        row.key = entry.key_words;
        row.action.kind = entry.kind;
        row.action.index = entry.index;
        row.action.value = entry.value;
        rows.push_back(std::move(row));
    }
    for (std::size_t i = 0; i < model.rows.size(); ++i) {
        ListRow row;
        row.title = "Go to " + model.rows[i].figure.name;
        row.action.kind = ActionKind::GoToFigure;
        row.action.index = static_cast<int>(i);
        rows.push_back(std::move(row));
    }
}

void addShelf(const Model& model, std::vector<ListRow>& rows) {
    if (!model.shelf) return;
    for (std::size_t i = 0; i < model.shelf->size(); ++i) {
        const ShelfFigure& figure = (*model.shelf)[i];
        ListRow row;
        row.title = figure.title;
        row.detail = figure.about;
        row.key = figure.skill;
        row.picture = static_cast<int>(i);
        row.action.kind = ActionKind::AddFigure;
        row.action.text = figure.name;
        rows.push_back(std::move(row));
    }
}

bool canOpen(const fs::path& file) {
    const std::string ending = lower(file.extension().string());
    for (const char* known : {".csv", ".igc", ".gpx", ".nmea", ".ulg", ".gz", ".txt"}) {
        if (ending == known) return true;
    }
    const std::string name = lower(file.filename().string());
    return name.size() > 13 && name.substr(name.size() - 13) == ".routine.toml";
}

bool isFont(const fs::path& file) {
    const std::string ending = lower(file.extension().string());
    return ending == ".ttf" || ending == ".otf" || ending == ".ttc";
}

/// Under the name typed, else that of what is shown; a name without an ending is offered with each.
void addExports(const Model& model, std::vector<ListRow>& rows) {
    if (!model.shown) return;
    std::string name = model.list.words;
    if (name.empty()) {
        for (const char c : model.shown->title) name += c == '/' || c == '\\' || c == ':' ? '-' : c;
    }
    const bool ended = out::formatOf(name).has_value();
    struct Offer {
        const char *ending, *about;
    };
    for (const auto& [ending, about] :
         {Offer{".glb", "glTF: the aircraft flying its path in 3-D"},
          Offer{".kml", "lines on a globe, with times"}, Offer{".gpx", "a track"},
          Offer{".csv", "every number, for tables"}}) {
        const std::string file = ended ? name : name + ending;
        if (out::formatOf(file).has_value() &&
            *out::formatOf(file) != *out::formatOf(std::string("a") + ending)) {
            continue;
        }
        ListRow row;
        row.title = "Export as " + file;
        std::error_code ignored;
        const fs::path path = model.list.folder / fs::u8path(file);
        row.detail = about;
        if (fs::exists(path, ignored)) row.detail += "; takes its place";
        row.action.kind = ActionKind::Export;
        row.action.files = {path};
        rows.push_back(std::move(row));
    }
}

ListRow folderRow(const fs::path& folder, const std::string& title, ListKind kind) {
    ListRow row;
    row.title = title;
    row.detail = "folder";
    row.action.kind = ActionKind::ShowList;
    row.action.index = static_cast<int>(kind);
    row.action.files = {folder};
    return row;
}

void addFiles(const Model& model, std::vector<ListRow>& rows) {
    const List& list = model.list;
    const bool exports = list.kind == ListKind::ExportFile;
    const bool saves = list.kind == ListKind::SaveFile || exports;
    const bool fonts = list.kind == ListKind::FontFile;
    if (exports) addExports(model, rows);
    if (saves && !exports && !list.words.empty()) {
        std::string name = list.words;
        constexpr std::string_view kEnding = ".routine.toml";
        if (name.size() < kEnding.size() || name.substr(name.size() - kEnding.size()) != kEnding) {
            name += kEnding;
        }
        ListRow row;
        row.title = "Save as " + name;
        std::error_code ignored;
        if (fs::exists(list.folder / fs::u8path(name), ignored)) row.detail = "takes its place";
        row.action.kind = ActionKind::SaveAs;
        row.action.files = {list.folder / fs::u8path(name)};
        rows.push_back(std::move(row));
    }
    if (!saves && !fonts && list.words.empty()) {
        for (const std::string& file : model.session.recent) {
            const fs::path path = fs::u8path(file);
            ListRow row;
            row.title = path.filename().string();
            row.detail = path.parent_path().string();
            row.key = "recent";
            row.action.kind = ActionKind::Open;
            row.action.files = {path};
            rows.push_back(std::move(row));
        }
    }
    if (list.folder.has_parent_path() && list.folder.parent_path() != list.folder) {
        rows.push_back(folderRow(list.folder.parent_path(), "..", list.kind));
    }
    std::vector<ListRow> folders, files;
    std::error_code failed;
    for (fs::directory_iterator it(list.folder, failed), end; !failed && it != end;
         it.increment(failed)) {
        const std::string name = it->path().filename().string();
        if (name.empty() || name[0] == '.') continue;
        std::error_code ignored;
        if (it->is_directory(ignored)) {
            folders.push_back(folderRow(it->path(), name, list.kind));
        } else if (fonts ? isFont(it->path()) : canOpen(it->path()) && !saves) {
            ListRow row;
            row.title = name;
            row.action.kind = fonts ? ActionKind::AddFont : ActionKind::Open;
            row.action.files = {it->path()};
            files.push_back(std::move(row));
        }
    }
    for (std::vector<ListRow>* part : {&files, &folders}) {
        std::sort(part->begin(), part->end(),
                  [](const ListRow& a, const ListRow& b) { return a.title < b.title; });
        rows.insert(rows.end(), part->begin(), part->end());
    }
}

void addShows(const Model& model, std::vector<ListRow>& rows) {
    ListRow whole;
    whole.title = "The whole routine as written";
    whole.action.kind = ActionKind::FlyAs;
    rows.push_back(whole);
    if (model.shown && model.shown->workspace) {
        for (const routine::Show& show : model.shown->workspace->routine.shows) {
            ListRow row;
            row.title = "Show " + show.name;
            row.detail = show.about;
            row.action.kind = ActionKind::FlyAs;
            row.action.text = show.name;
            rows.push_back(std::move(row));
        }
    }
    const bool feet = model.session.units == UnitChoice::Feet;
    const double unit_m = feet ? units::kFoot_m : 1;
    const auto words = [feet](double height) {
        return std::to_string(static_cast<int>(height)) + (feet ? " ft" : " m");
    };
    // chosen: heights that ceilings and practice areas often have
    const std::array ceilings =
        feet ? std::array{1000.0, 1500.0, 2000.0, 3000.0} : std::array{300.0, 450.0, 600.0, 900.0};
    const std::array floors =
        feet ? std::array{1000.0, 2000.0, 3000.0} : std::array{300.0, 600.0, 900.0};
    for (const double ceiling : ceilings) {
        ListRow row;
        row.title = "The fullest show below " + words(ceiling);
        row.action.kind = ActionKind::FlyAs;
        row.action.value = ceiling * unit_m;
        rows.push_back(std::move(row));
    }
    for (const double floor : floors) {
        ListRow row;
        row.title = "Practised high: nothing below " + words(floor);
        row.action.kind = ActionKind::FlyAs;
        row.action.x = floor * unit_m;
        rows.push_back(std::move(row));
    }
}

void addLanes(const Model& model, std::vector<ListRow>& rows) {
    const LaneSituation situation = laneSituation(model);
    const LaneSet shown = shownLanes(model.session.lane_wishes, situation);
    for (int i = 0; i < kLaneCount; ++i) {
        const auto lane = static_cast<Lane>(i);
        if (!laneOffered(lane, situation)) continue;
        ListRow row;
        row.title = laneName(lane);
        row.detail = laneAbout(lane);
        row.key = shown[static_cast<std::size_t>(i)] ? "shown" : "left out";
        row.action.kind = ActionKind::TurnLane;
        row.action.index = i;
        row.stays = true;
        rows.push_back(std::move(row));
    }
    ListRow reset;
    reset.title = "The lanes as at first";
    reset.action.kind = ActionKind::ResetLanes;
    rows.push_back(std::move(reset));
}

void addWorst(const Model& model, std::vector<ListRow>& rows) {
    if (!model.margins.on || !model.margins.report) return;
    for (const margins::WorstFlight& worst : model.margins.report->worst) {
        ListRow row;
        row.title = wrongWords(worst);
        row.key = std::to_string(worst.unsafe) + " unsafe";
        row.action.kind = ActionKind::LookAtFlight;
        row.action.value = static_cast<double>(worst.flight);
        rows.push_back(std::move(row));
    }
}

fs::path firstFolder(const Model& model) {
    if (model.editor.open() && !model.editor.built_in) {
        return fs::absolute(model.editor.files.front().file).parent_path();
    }
    if (!model.session.recent.empty()) {
        const fs::path folder = fs::u8path(model.session.recent.front()).parent_path();
        std::error_code ignored;
        if (fs::is_directory(folder, ignored)) return folder;
    }
    std::error_code failed;
    const fs::path folder = fs::current_path(failed);
    return failed ? fs::path("/") : folder;
}

/// Where fonts usually lie, if it is there.
fs::path fontFolder(const Model& model) {
    if (!model.session.fonts.empty()) return fs::u8path(model.session.fonts.back()).parent_path();
    for (const char* folder : {"/usr/share/fonts/truetype", "/usr/share/fonts", "C:/Windows/Fonts",
                               "/System/Library/Fonts"}) {
        std::error_code ignored;
        if (fs::is_directory(folder, ignored)) return folder;
    }
    return firstFolder(model);
}

void show(Model& model, const Action& action) {
    const bool deeper = !action.files.empty();
    List list;
    list.kind = static_cast<ListKind>(action.index);
    list.folder = deeper                            ? action.files.front()
                  : list.kind == ListKind::FontFile ? fontFolder(model)
                                                    : firstFolder(model);
    if (deeper && asksName(list.kind)) list.words = model.list.words;
    model.list = std::move(list);
}

}  // namespace

std::vector<ListRow> listRows(const Model& model) {
    std::vector<ListRow> rows;
    switch (model.list.kind) {
        case ListKind::Anything:
            addActions(model, rows);
            break;
        case ListKind::Shelf:
            addShelf(model, rows);
            break;
        case ListKind::OpenFile:
        case ListKind::SaveFile:
        case ListKind::ExportFile:
        case ListKind::FontFile:
            addFiles(model, rows);
            break;
        case ListKind::Shows:
            addShows(model, rows);
            break;
        case ListKind::Lanes:
            addLanes(model, rows);
            break;
        case ListKind::Worst:
            addWorst(model, rows);
            break;
        case ListKind::Remark:
            addRemarkRows(model, rows);
            return rows;  // its words are the remark's
        case ListKind::Remarks:
            addSaidRows(model, rows);
            break;
        case ListKind::None:
            break;
    }
    if (model.list.words.empty() || asksName(model.list.kind)) return rows;
    std::vector<ListRow> kept;
    for (ListRow& row : rows) {
        if (matches(row.title + ' ' + row.detail + ' ' + row.key, model.list.words)) {
            kept.push_back(std::move(row));
        }
    }
    // What is called so comes before what only speaks of it.
    const std::string words = lower(model.list.words);
    std::stable_sort(kept.begin(), kept.end(), [&words](const ListRow& a, const ListRow& b) {
        return rankOf(a.title, words) < rankOf(b.title, words);
    });
    return kept;
}

std::string listTitle(const Model& model) {
    switch (model.list.kind) {
        case ListKind::Anything:
            return "Find anything to do";
        case ListKind::Shelf:
            return "Figure to add below the open one";
        case ListKind::OpenFile:
            return "Open from " + model.list.folder.string();
        case ListKind::SaveFile:
            return "Name to save under in " + model.list.folder.string();
        case ListKind::ExportFile:
            return "Name to export under in " + model.list.folder.string();
        case ListKind::FontFile:
            return "Font (TrueType, OpenType) for other scripts, from " +
                   model.list.folder.string();
        case ListKind::Shows:
            return "What is flown of the routine";
        case ListKind::Lanes:
            return "Lanes of the timeline: Enter shows one or leaves it out, Esc ends";
        case ListKind::Worst:
            return "The worst flights, those that meet the ground first: Enter flies one beside "
                   "the plan";
        case ListKind::Remark:
            return remarkTitle(model);
        case ListKind::Remarks:
            return "What was said: Enter changes it";
        case ListKind::None:
            break;
    }
    return {};
}

bool applyToList(Model& model, const Action& action, Actions& more) {
    List& list = model.list;
    switch (action.kind) {
        case ActionKind::ShowList:
            show(model, action);
            return true;
        case ActionKind::WriteRemark:
            writeRemark(model, action.index);
            return true;
        case ActionKind::ListType:
            list.words += action.text;
            list.chosen = 0;
            return true;
        case ActionKind::ListTakeOut:
            list.words.resize(codePointBefore(list.words, list.words.size()));
            list.chosen = 0;
            return true;
        case ActionKind::ListMove:
        case ActionKind::ListTake: {
            const std::vector<ListRow> rows = listRows(model);
            if (rows.empty()) return true;
            const int last = static_cast<int>(rows.size()) - 1;
            if (action.kind == ActionKind::ListMove) {
                list.chosen = std::clamp(list.chosen + action.index, 0, last);
                return true;
            }
            const int row = std::clamp(action.index < 0 ? list.chosen : action.index, 0, last);
            const Action chosen = rows[static_cast<std::size_t>(row)].action;
            if (rows[static_cast<std::size_t>(row)].stays) {
                list.chosen = row;
            } else if (chosen.kind != ActionKind::ShowList &&
                       chosen.kind != ActionKind::WriteRemark) {
                list = List();
            }
            more.push(chosen);
            return true;
        }
        case ActionKind::CloseList:
            list = List();
            return true;
        default:
            return false;
    }
}

}  // namespace plumbline::model
