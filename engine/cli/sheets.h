#pragma once
// Options of the commands that print, and writing what they print.

#include <string>
#include <string_view>
#include <vector>

#include "engine/base/fingerprint.h"
#include "engine/cli/options.h"
#include "engine/page/paper.h"
#include "engine/record/track.h"
#include "engine/review/review.h"

namespace plumbline::cli {

struct SheetOptions {
    std::string folder, paper = "a4";
    std::string book;  ///< the season's; empty: the usual one
    std::vector<std::string> fonts;
};
/// `-o DIR` and those of the paper.
void addSheetOptions(CLI::App& app, SheetOptions& options);
/// `--paper NAME`, `--font FILE`.
void addPaperOptions(CLI::App& app, SheetOptions& options);
/// `--font FILE`, several times.
void addFontOption(CLI::App& app, std::vector<std::string>& files);
page::Paper paperOf(const SheetOptions& options);

/// What a sortie's sheets need beside its options.
struct Reviewed {
    const path::Path& flight;
    const path::Path& plan;
    const variant::Flown& flown;
    const review::Review& review;
    std::string start_utc;
    Fingerprint log;
    std::vector<std::string> notes;
    units::DisplayUnits units;
    std::vector<std::string_view> files;  ///< bytes of the recordings
};
/// Writes all of a sortie's files or none and names them on stdout.
/// @return kDone, or kBadInput after saying why not on stderr
int writeSortie(const SheetOptions& options, const Reviewed& reviewed);

}  // namespace plumbline::cli
