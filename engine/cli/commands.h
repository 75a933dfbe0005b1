#pragma once
// The commands that need no picture.

#include "engine/cli/command_line.h"

namespace plumbline::cli {

int runSolve(const Arguments& arguments);
int runCheck(const Arguments& arguments);
int runMargins(const Arguments& arguments);
int runSighting(const Arguments& arguments);
int runBrief(const Arguments& arguments);
int runImport(const Arguments& arguments);
int runReview(const Arguments& arguments);
int runExport(const Arguments& arguments);
int runSeason(const Arguments& arguments);
int runWalk(const Arguments& arguments);

}  // namespace plumbline::cli
