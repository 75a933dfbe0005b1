#pragma once
// The commands that draw, as the command line knows them.

#include <span>

#include "engine/cli/command_line.h"

namespace plumbline::app {

/// `show`, `picture` and `film`.
std::span<const cli::Command> drawingCommands();

}  // namespace plumbline::app
