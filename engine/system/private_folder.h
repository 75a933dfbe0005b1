#pragma once
// A folder for what is only needed for a moment, which nobody else can look into or foresee.

#include <filesystem>
#include <optional>
#include <utility>

namespace plumbline::system {

/// Gone with all that is in it when this ends.
class PrivateFolder {
public:
    /// A new one in the system's place for such things, of a name that cannot be guessed, for this
    /// person alone; nothing where that place cannot be written.
    static std::optional<PrivateFolder> make();

    PrivateFolder(PrivateFolder&& other) noexcept;
    PrivateFolder& operator=(PrivateFolder&& other) noexcept;
    ~PrivateFolder();

    const std::filesystem::path& path() const { return path_; }

private:
    explicit PrivateFolder(std::filesystem::path path) : path_(std::move(path)) {}
    std::filesystem::path path_;
};

}  // namespace plumbline::system
