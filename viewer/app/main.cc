// The program with the viewer.

#include <cstdio>
#include <exception>

#include "engine/cli/command_line.h"
#include "engine/system/start.h"
#include "viewer/app/commands.h"

int main(int argc, char** argv) {
    try {
        return plumbline::cli::runCommandLine(plumbline::system::startedWith(argc, argv),
                                              plumbline::app::drawingCommands());
    } catch (const std::exception& error) {  // of a library: memory, mostly
        std::fprintf(stderr, "plumbline: internal error: %s: please report it\n", error.what());
        return 70;
    }
}
