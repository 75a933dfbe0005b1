// The program without the viewer.

#include <cstdio>
#include <exception>

#include "engine/cli/command_line.h"
#include "engine/system/start.h"

int main(int argc, char** argv) {
    try {
        return plumbline::cli::runCommandLine(plumbline::system::startedWith(argc, argv), {});
    } catch (const std::exception& error) {  // of a library: memory, mostly
        std::fprintf(stderr, "plumbline: internal error: %s: please report it\n", error.what());
        return 70;
    }
}
