#pragma once
// Fonts with files that the user names.

#include <string>
#include <vector>

#include "engine/base/expected.h"
#include "engine/base/problem.h"
#include "engine/page/fonts.h"

namespace plumbline::page {

/// The built-in fonts and those files, in their order.
/// @errors every file that cannot be read or is no font
Expected<Fonts, Problems> openFonts(const std::vector<std::string>& files);

}  // namespace plumbline::page
