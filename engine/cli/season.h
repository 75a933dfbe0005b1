#pragma once
// What the words of `plumbline season` have in common.

#include <optional>
#include <string>

#include "engine/cli/command_line.h"
#include "engine/cli/options.h"
#include "engine/season/book.h"
#include "engine/season/remarks.h"

namespace plumbline::cli {

int runSeasonAdd(const Arguments& arguments);
int runSeasonList(const Arguments& arguments);
int runSeasonSortie(const Arguments& arguments);
int runSeasonRemove(const Arguments& arguments);
int runSeasonNote(const Arguments& arguments);
int runSeasonRemark(const Arguments& arguments);
int runSeasonRemarks(const Arguments& arguments);
int runSeasonTrends(const Arguments& arguments);
int runSeasonCurrency(const Arguments& arguments);
int runSeasonLoads(const Arguments& arguments);
int runSeasonOverhaul(const Arguments& arguments);
int runSeasonExport(const Arguments& arguments);

/// `--book FILE`, the usual book at first.
void addBookOption(CLI::App& app, std::string& file);
Expected<season::Book, Problems> openBook(const std::string& file, season::Book::Access access);

/// Seconds since 1970, now.
double now_utc_s();
/// "2026-05-14 10:30", or the day alone.
std::string momentWords(double utc_s);
/// "2026-05-14T10:30Z", "2026-05-14 10:30" (UTC), or a day.
/// @param option  named by the problem
Expected<double, Problems> parseMoment(const std::string& option, const std::string& text);

/// "3" is a sortie of the book; else a routine: a file, demo, or the name of one in the book.
Expected<season::Subject, Problems> subjectOf(season::Book& book, const std::string& about);

}  // namespace plumbline::cli
