#pragma once
// The book as tables for other programs.

#include <string>
#include <vector>

#include "engine/season/book.h"

namespace plumbline::season {

struct NamedTable {
    std::string name;   ///< "sorties.csv"
    std::string bytes;  ///< RFC 4180, names of columns first, lines end with a carriage return too
};
/// sorties, figures, measures, load levels, load cycles, routines, remarks, overhauls; times as
/// ISO 8601 UTC, numbers in SI. All of one moment.
Expected<std::vector<NamedTable>, Problems> exportTables(Book& book);

}  // namespace plumbline::season
