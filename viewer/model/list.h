#pragma once
// A list over the picture to choose from: anything that can be done, figures of the shelf, files.
// Words typed narrow it.

#include <filesystem>
#include <string>
#include <vector>

#include "viewer/model/actions.h"

namespace plumbline::model {

struct Model;

struct List {
    ListKind kind = ListKind::None;
    std::string words;  ///< typed so far
    int chosen = 0;
    std::filesystem::path folder;  ///< of a list of files
};

struct ListRow {
    std::string title;
    std::string detail;
    std::string key;   ///< that does the same; empty: none
    int picture = -1;  ///< of the shelf's figures
    Action action;
    bool stays = false;  ///< the list stays open behind it
};

/// What is typed is the name of a file to write, not words to narrow the list.
inline bool asksName(ListKind kind) {
    return kind == ListKind::SaveFile || kind == ListKind::ExportFile;
}

/// In the order shown; empty words: everything.
std::vector<ListRow> listRows(const Model& model);

/// What the list asks for: "Find anything to do".
std::string listTitle(const Model& model);

/// Applies what opens, narrows and closes lists. What a row does is pushed on.
/// @return false: not an action of lists
bool applyToList(Model& model, const Action& action, Actions& more);

}  // namespace plumbline::model
