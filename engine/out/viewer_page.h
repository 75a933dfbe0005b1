#pragma once
// The page to send by mail: the viewer for a browser with a routine, how it is flown, and flights.

#include <filesystem>
#include <string>
#include <vector>

#include "engine/load/load.h"
#include "engine/variant/variant.h"

namespace plumbline::out {

/// What such a page is called among the sheets.
inline constexpr const char* kPageName = "page.html";

// chosen: with the viewer's 2 MB and a third more as text it still passes as an attachment of 20 MB
inline constexpr std::size_t kGreatestLoad_bytes = 12U << 20U;

struct PageWish {
    std::filesystem::path routine;  ///< empty: the demo
    load::Overrides overrides;
    variant::Wish variant;
    std::vector<std::filesystem::path> logs;     ///< of one flight, over the routine
    load::FileSource files = load::diskFiles();  ///< of the routine
};

struct ViewerPage {
    std::string html;
    std::size_t files = 0;              ///< that it carries
    std::vector<std::string> left_out;  ///< what stays behind and why, one clause each
};

/// The viewer made for a browser: what the variable PLUMBLINE_PAGE of the environment names, else
/// beside the program, in its share folder, or where the sources' build puts it.
/// @errors where it was looked for and how to get it
Expected<std::string, Problems> viewerForBrowsers();

/// @param viewer  of viewerForBrowsers()
/// @errors those of load::filesToCarry, logs that cannot be read, more than can be mailed
Expected<ViewerPage, Problems> makeViewerPage(std::string_view viewer, const PageWish& wish);

}  // namespace plumbline::out
