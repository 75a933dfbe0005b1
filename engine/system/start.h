#pragma once
// What a program does first, so that text is UTF-8 everywhere.

#include <string>
#include <vector>

namespace plumbline::system {

/// All words of the command line, the program's name first, in UTF-8. Also lets what is printed
/// be read as UTF-8 where the system would take it for something else.
std::vector<std::string> startedWith(int argc, char** argv);

}  // namespace plumbline::system
