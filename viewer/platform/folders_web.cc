#include "viewer/platform/folders.h"

namespace plumbline::platform {

/// The folder that start.js keeps in the browser's own store.
std::filesystem::path configFolder() { return "/kept"; }

}  // namespace plumbline::platform
