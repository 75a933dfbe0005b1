#pragma once
// A claim on a name that ends with the program, however it ends.

#include <filesystem>

namespace plumbline::system {

/// Held until it is let go or the process is gone, also when it was killed.
class FileClaim {
public:
    FileClaim() = default;
    ~FileClaim() { letGo(); }
    FileClaim(FileClaim&& other) noexcept;
    FileClaim& operator=(FileClaim&& other) noexcept;
    FileClaim(const FileClaim&) = delete;
    FileClaim& operator=(const FileClaim&) = delete;

    /// Makes the file if it is not there. @return false: another window holds it, or it cannot be
    /// made
    bool take(const std::filesystem::path& file);
    bool held() const { return handle_ != kNone; }
    void letGo();

private:
    static constexpr long long kNone = -1;
    long long handle_ = kNone;
};

}  // namespace plumbline::system
