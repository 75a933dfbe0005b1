#include "engine/system/file_claim.h"

#include <utility>

#if defined(_WIN32)
#define WIN32_LEAN_AND_MEAN
#include <windows.h>
#elif !defined(__EMSCRIPTEN__)
#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>
#endif

namespace plumbline::system {

FileClaim::FileClaim(FileClaim&& other) noexcept : handle_(std::exchange(other.handle_, kNone)) {}

FileClaim& FileClaim::operator=(FileClaim&& other) noexcept {
    std::swap(handle_, other.handle_);
    return *this;
}

bool FileClaim::take(const std::filesystem::path& file) {
    letGo();
#if defined(_WIN32)
    const HANDLE handle = CreateFileW(file.c_str(), GENERIC_WRITE, 0, nullptr, OPEN_ALWAYS,
                                      FILE_ATTRIBUTE_NORMAL, nullptr);
    if (handle == INVALID_HANDLE_VALUE) return false;
    handle_ = static_cast<long long>(reinterpret_cast<std::intptr_t>(handle));
#elif defined(__EMSCRIPTEN__)
    static_cast<void>(file);
    handle_ = 0;  // a page is alone with its files
#else
    const int descriptor = ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
    if (descriptor < 0) return false;
    if (::flock(descriptor, LOCK_EX | LOCK_NB) != 0) {
        ::close(descriptor);
        return false;
    }
    handle_ = descriptor;
#endif
    return true;
}

void FileClaim::letGo() {
    if (!held()) return;
#if defined(_WIN32)
    CloseHandle(reinterpret_cast<HANDLE>(static_cast<std::intptr_t>(handle_)));
#elif !defined(__EMSCRIPTEN__)
    ::close(static_cast<int>(handle_));
#endif
    handle_ = kNone;
}

}  // namespace plumbline::system
