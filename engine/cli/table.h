#pragma once
// Plain tables for a terminal.

#include <cstdio>
#include <string>
#include <vector>

namespace plumbline::cli {

/// Prints rows, the first as the heading, with columns two blanks apart; the first column to the
/// left, the others to the right. Widths count code points.
void printTable(std::FILE* to, const std::vector<std::vector<std::string>>& rows);

}  // namespace plumbline::cli
