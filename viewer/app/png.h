#pragma once
// Pictures as PNG files.

#include <filesystem>
#include <string>

#include "viewer/render/renderer.h"

namespace plumbline::app {

/// Writes all of it or nothing. @return why it failed; empty when it worked
std::string writePng(const std::filesystem::path& file, const render::Image& image);

}  // namespace plumbline::app
