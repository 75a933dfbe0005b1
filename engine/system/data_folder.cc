#include "engine/system/data_folder.h"

#include <cstdlib>

namespace plumbline::system {

namespace fs = std::filesystem;

#if defined(_WIN32)

fs::path dataFolder() {
    const wchar_t* local = _wgetenv(L"LOCALAPPDATA");
    return local == nullptr || local[0] == L'\0' ? fs::path() : fs::path(local) / L"plumbline";
}

#else

// XDG Base Directory Specification 0.8: XDG_DATA_HOME if set and absolute, else ~/.local/share.
fs::path dataFolder() {
    const char* data = std::getenv("XDG_DATA_HOME");
    if (data != nullptr && data[0] == '/') return fs::path(data) / "plumbline";
    const char* home = std::getenv("HOME");
    if (home == nullptr || home[0] == '\0') return {};
    return fs::path(home) / ".local" / "share" / "plumbline";
}

#endif

}  // namespace plumbline::system
