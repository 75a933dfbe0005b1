#include "engine/system/start.h"

#if defined(_WIN32)
#define WIN32_LEAN_AND_MEAN
#include <windows.h>
// After it.
#include <shellapi.h>
#endif

namespace plumbline::system {

#if defined(_WIN32)

namespace {

std::string utf8(const wchar_t* text) {
    const int size = WideCharToMultiByte(CP_UTF8, 0, text, -1, nullptr, 0, nullptr, nullptr);
    std::string out(size > 0 ? static_cast<std::size_t>(size) : 1, '\0');
    WideCharToMultiByte(CP_UTF8, 0, text, -1, out.data(), size, nullptr, nullptr);
    out.pop_back();
    return out;
}

}  // namespace

std::vector<std::string> startedWith(int argc, char** argv) {
    SetConsoleOutputCP(CP_UTF8);
    // What main() is given has been through the person's code page, which lacks most scripts.
    int count = 0;
    wchar_t** const words = CommandLineToArgvW(GetCommandLineW(), &count);
    if (words == nullptr) return {argv, argv + argc};
    std::vector<std::string> out;
    for (int i = 0; i < count; ++i) out.push_back(utf8(words[i]));
    LocalFree(words);
    return out;
}

#else

std::vector<std::string> startedWith(int argc, char** argv) { return {argv, argv + argc}; }

#endif

}  // namespace plumbline::system
