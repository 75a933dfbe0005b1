#pragma once
// Runs the program as a user does, without a shell.

#include <string>
#include <vector>

namespace plumbline {

struct ProgramRun {
    int exit_code = -1;  ///< -1: it did not end by itself
    std::string out;
    std::string err;
};

/// Runs the program with these arguments in a folder.
ProgramRun runProgram(const std::string& folder, const std::vector<std::string>& arguments);

}  // namespace plumbline
