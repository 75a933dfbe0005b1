// By the XDG Base Directory Specification 0.8: XDG_CONFIG_HOME if set and absolute, else ~/.config.

#include <cstdlib>

#include "viewer/platform/folders.h"

namespace plumbline::platform {

std::filesystem::path configFolder() {
    const char* config = std::getenv("XDG_CONFIG_HOME");
    if (config != nullptr && config[0] == '/') return std::filesystem::path(config) / "plumbline";
    const char* home = std::getenv("HOME");
    if (home == nullptr || home[0] == '\0') return {};
    return std::filesystem::path(home) / ".config" / "plumbline";
}

}  // namespace plumbline::platform
