#include "engine/system/program_file.h"

#include <cstdlib>
#include <string>

#ifdef _WIN32
#include <windows.h>
#endif

namespace plumbline::system {

namespace fs = std::filesystem;

#ifdef _WIN32

fs::path programFile() {
    std::wstring name(32768, L'\0');  // the longest that the system knows
    const DWORD length = GetModuleFileNameW(nullptr, name.data(), static_cast<DWORD>(name.size()));
    name.resize(length < name.size() ? length : 0);
    return name;
}

fs::path fileFromEnvironment(const char* name) {
    const std::string narrow(name);
    const wchar_t* value = _wgetenv(std::wstring(narrow.begin(), narrow.end()).c_str());
    return value == nullptr ? fs::path() : fs::path(value);
}

#else

fs::path programFile() {
    std::error_code failed;
    const fs::path file = fs::read_symlink("/proc/self/exe", failed);
    return failed ? fs::path() : file;
}

fs::path fileFromEnvironment(const char* name) {
    const char* value = std::getenv(name);
    return value == nullptr ? fs::path() : fs::path(value);
}

#endif

}  // namespace plumbline::system
