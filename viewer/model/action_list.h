#pragma once
// Everything that can be done by a key or found by its words, once: the keys, the list of anything
// and the log take it from here.

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "viewer/model/actions.h"

namespace plumbline::model {

struct Model;

struct ActionEntry {
    ActionKind kind;
    const char* words;  ///< for people, a clause that begins with a verb
    int key = 0;        ///< as the toolkit's code, see ui/keys.h; 0: none
    unsigned modifiers = 0;
    int index = 0;
    double value = 0;
    bool repeats = false;
    const char* key_words = "";
};
inline constexpr unsigned kShift = 1, kControl = 2, kAlt = 4;

std::span<const ActionEntry> actionList();

/// True where it makes sense now.
bool offered(const Model& model, const ActionEntry& entry);

/// "WriteFigure index 3": one line of the log.
std::string actionText(const Action& action);

/// What such a line says; files are left out. Nothing for another line.
std::optional<Action> actionFromText(std::string_view line);

}  // namespace plumbline::model
