#include "engine/system/mapped_file.h"

#include <utility>

#include "engine/system/whole_file.h"

#if defined(_WIN32)
#define WIN32_LEAN_AND_MEAN
#include <windows.h>
#elif !defined(__EMSCRIPTEN__)
#include <fcntl.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>
#endif

namespace plumbline::system {

namespace {

/// The bytes, or nothing when this file cannot be mapped; an empty one cannot.
std::string_view map(const std::filesystem::path& path) {
#if defined(_WIN32)
    const HANDLE file = CreateFileW(path.c_str(), GENERIC_READ, FILE_SHARE_READ, nullptr,
                                    OPEN_EXISTING, FILE_FLAG_SEQUENTIAL_SCAN, nullptr);
    if (file == INVALID_HANDLE_VALUE) return {};
    LARGE_INTEGER size{};
    std::string_view view;
    if (GetFileSizeEx(file, &size) && size.QuadPart > 0) {
        const HANDLE mapping = CreateFileMappingW(file, nullptr, PAGE_READONLY, 0, 0, nullptr);
        if (mapping != nullptr) {
            const void* const at = MapViewOfFile(mapping, FILE_MAP_READ, 0, 0, 0);
            if (at != nullptr)
                view = {static_cast<const char*>(at), static_cast<std::size_t>(size.QuadPart)};
            CloseHandle(mapping);
        }
    }
    CloseHandle(file);
    return view;
#elif defined(__EMSCRIPTEN__)
    static_cast<void>(path);
    return {};
#else
    const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
    if (file < 0) return {};
    struct stat status {};
    std::string_view view;
    if (::fstat(file, &status) == 0 && S_ISREG(status.st_mode) && status.st_size > 0) {
        const auto size = static_cast<std::size_t>(status.st_size);
        void* const at = ::mmap(nullptr, size, PROT_READ, MAP_PRIVATE, file, 0);
        if (at != MAP_FAILED) view = {static_cast<const char*>(at), size};
    }
    ::close(file);
    return view;
#endif
}

void unmap(std::string_view view) {
#if defined(_WIN32)
    UnmapViewOfFile(view.data());
#elif defined(__EMSCRIPTEN__)
    static_cast<void>(view);
#else
    ::munmap(const_cast<char*>(view.data()), view.size());
#endif
}

}  // namespace

MappedFile::~MappedFile() { close(); }

MappedFile::MappedFile(MappedFile&& other) noexcept { *this = std::move(other); }

MappedFile& MappedFile::operator=(MappedFile&& other) noexcept {
    if (this == &other) return *this;
    close();
    mapped_ = std::exchange(other.mapped_, false);
    view_ = std::exchange(other.view_, {});
    read_ = std::move(other.read_);
    return *this;
}

void MappedFile::close() {
    if (mapped_) unmap(view_);
    mapped_ = false;
}

std::string MappedFile::open(const std::filesystem::path& path) {
    close();
    view_ = map(path);
    mapped_ = !view_.empty();
    if (mapped_) return "";
    ReadFile file = readWholeFile(path);
    if (!file.bytes) return file.reason;
    read_ = std::move(*file.bytes);
    return "";
}

}  // namespace plumbline::system
