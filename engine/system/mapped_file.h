#pragma once
// A file's bytes without reading it into memory first, where the system can do that.

#include <filesystem>
#include <string>
#include <string_view>

namespace plumbline::system {

/// Bytes of a file for as long as the object lives. A pipe, a device or a system without mapping is
/// read as a whole instead. The file must not be cut short by others meanwhile.
class MappedFile {
public:
    MappedFile() = default;
    ~MappedFile();
    MappedFile(MappedFile&& other) noexcept;
    MappedFile& operator=(MappedFile&& other) noexcept;
    MappedFile(const MappedFile&) = delete;
    MappedFile& operator=(const MappedFile&) = delete;

    /// @return why it failed; empty when it worked
    std::string open(const std::filesystem::path& path);
    std::string_view bytes() const { return mapped_ ? view_ : std::string_view(read_); }

private:
    void close();

    bool mapped_ = false;
    std::string_view view_;
    std::string read_;
};

}  // namespace plumbline::system
