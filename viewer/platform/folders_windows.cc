// Settings go with the person from machine to machine: the roaming folder.

#include <cstdlib>

#include "viewer/platform/folders.h"

namespace plumbline::platform {

std::filesystem::path configFolder() {
    const wchar_t* roaming = _wgetenv(L"APPDATA");
    return roaming == nullptr || roaming[0] == L'\0'
               ? std::filesystem::path()
               : std::filesystem::path(roaming) / L"plumbline";
}

}  // namespace plumbline::platform
