#pragma once
// What a window keeps from one day to the next.

#include <filesystem>

#include "viewer/model/session.h"

namespace plumbline::app {

/// As it was when the last window closed; as new where nothing is kept or can be read.
model::Session loadSession();
/// Failing it says so on stderr: settings are no reason to bother anyone on the way out.
void saveSession(const model::Session& session);
/// Where texts that are not saved are put aside; empty: nowhere.
std::filesystem::path unsavedFolder();

}  // namespace plumbline::app
