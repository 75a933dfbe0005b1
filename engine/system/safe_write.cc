#include "engine/system/safe_write.h"

#if defined(_WIN32)
#define WIN32_LEAN_AND_MEAN
#include <windows.h>
#else
#include <cerrno>
#include <string>

#include <fcntl.h>
#include <unistd.h>
#endif

namespace plumbline::system {

namespace fs = std::filesystem;

#if defined(_WIN32)

namespace {

std::error_code lastError() { return {static_cast<int>(GetLastError()), std::system_category()}; }

}  // namespace

std::error_code writeNewFile(const fs::path& path, const NextPiece& next) {
    const HANDLE file = CreateFileW(path.c_str(), GENERIC_WRITE, 0, nullptr, CREATE_NEW,
                                    FILE_ATTRIBUTE_NORMAL, nullptr);
    if (file == INVALID_HANDLE_VALUE) return lastError();
    std::error_code error;
    std::string_view bytes = next();
    while (!bytes.empty() && !error) {
        constexpr std::size_t kMost = 1U << 30;
        const DWORD part = static_cast<DWORD>(bytes.size() < kMost ? bytes.size() : kMost);
        DWORD done = 0;
        if (WriteFile(file, bytes.data(), part, &done, nullptr))
            bytes.remove_prefix(done);
        else
            error = lastError();
        if (bytes.empty()) bytes = next();
    }
    if (!error && !FlushFileBuffers(file)) error = lastError();
    if (!CloseHandle(file) && !error) error = lastError();
    return error;
}

std::error_code flushFile(const fs::path& path) {
    const HANDLE file = CreateFileW(path.c_str(), GENERIC_WRITE, 0, nullptr, OPEN_EXISTING,
                                    FILE_ATTRIBUTE_NORMAL, nullptr);
    if (file == INVALID_HANDLE_VALUE) return lastError();
    const std::error_code error = FlushFileBuffers(file) ? std::error_code() : lastError();
    CloseHandle(file);
    return error;
}

std::error_code renameOver(const fs::path& from, const fs::path& to) {
    if (MoveFileExW(from.c_str(), to.c_str(), MOVEFILE_REPLACE_EXISTING | MOVEFILE_WRITE_THROUGH))
        return {};
    return lastError();
}

#else

namespace {

/// Where a process finds its open files by number.
constexpr const char* kOwnFiles = "/proc/self/fd/";

std::error_code lastError() { return {errno, std::generic_category()}; }

/// A file that has no name until it is whole, so that a kill leaves nothing; -1 where the system or
/// the drive has none.
int openNameless(const fs::path& path) {
#if defined(__linux__)
    if (::access(kOwnFiles, X_OK) != 0) return -1;
    const fs::path folder = path.has_parent_path() ? path.parent_path() : fs::path(".");
    return ::open(folder.c_str(), O_WRONLY | O_TMPFILE | O_CLOEXEC, 0666);
#else
    static_cast<void>(path);
    return -1;
#endif
}

std::error_code giveName(int file, const fs::path& path) {
    const std::string own = std::string(kOwnFiles) + std::to_string(file);
    const int failed = ::linkat(AT_FDCWD, own.c_str(), AT_FDCWD, path.c_str(), AT_SYMLINK_FOLLOW);
    return failed != 0 ? lastError() : std::error_code();
}

}  // namespace

std::error_code writeNewFile(const fs::path& path, const NextPiece& next) {
    int file = openNameless(path);
    const bool nameless = file >= 0;
    if (!nameless) file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (file < 0) return lastError();
    std::error_code error;
    std::string_view bytes = next();
    while (!bytes.empty() && !error) {
        const ssize_t done = ::write(file, bytes.data(), bytes.size());
        if (done >= 0)
            bytes.remove_prefix(static_cast<std::size_t>(done));
        else if (errno != EINTR)
            error = lastError();
        if (bytes.empty()) bytes = next();
    }
    if (!error && ::fsync(file) != 0) error = lastError();
    if (!error && nameless) error = giveName(file, path);
    if (::close(file) != 0 && !error) error = lastError();
    return error;
}

std::error_code flushFile(const fs::path& path) {
    const int file = ::open(path.c_str(), O_WRONLY | O_CLOEXEC);
    if (file < 0) return lastError();
    const std::error_code error = ::fsync(file) == 0 ? std::error_code() : lastError();
    ::close(file);
    return error;
}

std::error_code renameOver(const fs::path& from, const fs::path& to) {
    if (::rename(from.c_str(), to.c_str()) != 0) return lastError();
    // The new name is safe once the folder is flushed; some network drives cannot, and the file
    // itself is safe there already.
    const fs::path folder = to.has_parent_path() ? to.parent_path() : fs::path(".");
    const int opened = ::open(folder.c_str(), O_RDONLY | O_CLOEXEC);
    if (opened >= 0) {
        ::fsync(opened);
        ::close(opened);
    }
    return {};
}

#endif

}  // namespace plumbline::system
