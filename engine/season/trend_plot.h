#pragma once
// Trends as pictures, on paper or for the screen.

#include <span>
#include <string>

#include "engine/page/fonts.h"
#include "engine/page/paper.h"
#include "engine/season/trends.h"

namespace plumbline::season {

/// What a course is called: "better", "no change to be seen".
const char* courseWords(Course course);

/// Two columns of plots, ten to a page: a disc for each flight with a bar of twice its sigma, the
/// plan dashed, the straight line where a course is said; below, from when to when.
/// @errors what the page layer says
Expected<std::string, std::string> trendsPdf(std::span<const Trend> trends,
                                             units::DisplayUnits units, page::Paper paper,
                                             const page::Fonts& fonts);
/// The same plots, all in one picture (SVG 1.1), in whatever font without serifs there is.
std::string trendsSvg(std::span<const Trend> trends, units::DisplayUnits units);

}  // namespace plumbline::season
