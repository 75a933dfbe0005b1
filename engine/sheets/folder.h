#pragma once
// Everything that is written of a sortie, and writing it: all or nothing.

#include <filesystem>

#include "engine/base/problem.h"
#include "engine/sheets/sortie.h"

namespace plumbline::sheets {

/// debrief.pdf, crew.pdf, review.json and the tables.
/// @param sortie  with flight, plan, workspace and review
/// @errors a page that could not be made, named by its file
Expected<std::vector<File>, Problems> sortieFiles(const Sortie& sortie, const Print& print);

/// Writes files into a folder, which is made where there is none: all or none.
/// @return what is in the way; empty when all are there
Problems writeFiles(const std::filesystem::path& folder, const std::vector<File>& files);

}  // namespace plumbline::sheets
