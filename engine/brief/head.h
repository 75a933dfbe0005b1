#pragma once
// What every sheet of a brief has at its head and foot, and the styles of its words.

#include <string>

#include "engine/brief/outline.h"
#include "engine/page/document.h"

namespace plumbline::brief {

inline page::Style plain(double size_pt) { return {size_pt, page::Weight::Regular, page::kInk}; }
inline page::Style quiet(double size_pt) { return {size_pt, page::Weight::Regular, page::kQuiet}; }
inline page::Style strong(double size_pt) { return {size_pt, page::Weight::SemiBold, page::kInk}; }
inline page::Style heavy(double size_pt) { return {size_pt, page::Weight::Bold, page::kInk}; }

/// Least size of anything printed.
inline constexpr double kLeast_pt = 7;

/// Space left free round a sheet: 12.5 mm, 8 mm on the small ones.
double marginOf(const page::Document& document);
/// Between the margins.
double widthOf(const page::Document& document);

/// The bob, the routine's name, what the sheet is and for which day.
/// @param kind  "Cue sheet for the narrator"
/// @param last  a last line on the right, large sheets only; may be empty
/// @param page  "page 1 of 2"; small sheets have it here, with the revision
/// @return where what follows may begin
double drawHead(page::Document& document, const Outline& outline, const std::string& kind,
                const std::string& last, const std::string& page);

/// What has to be above what drawFoot draws with the same words.
double footTop(const page::Document& document, const Outline& outline, const std::string& words);
/// What is wrong with the routine, the sheet's own words and the caution; on large sheets the
/// revision and the page.
void drawFoot(page::Document& document, const Outline& outline, const std::string& words,
              const std::string& page);

/// "page 1 of 2".
std::string pageWords(int page, int pages);

/// Text that was shortened, with an ellipsis, until it fits.
std::string fitted(const page::Document& document, std::string words, const page::Style& style,
                   double width_mm);

/// The bob on its thread, as everywhere in the program.
/// @param thread_mm, top_mm  where the thread begins and where the bob does
/// @param unit_mm            a seventeenth of the bob's height
void drawBob(page::Document& document, double x_mm, double thread_mm, double top_mm,
             double unit_mm);

/// An arrow the way a figure begins, as seen from the crowd: left, right, up the page for away.
/// @param most_mm  its length up or down the page, where rows are low
void drawWay(page::Document& document, const Act& act, page::Point middle, double length_mm,
             double most_mm);

/// A word in a frame; @return its width.
double drawTag(page::Document& document, page::Point base, const std::string& words);

}  // namespace plumbline::brief
