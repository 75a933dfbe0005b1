#include "engine/system/private_folder.h"

#include <string>
#include <system_error>
#include <utility>

#if defined(_WIN32)
#include <random>
#else
#include <cstdlib>
#endif

namespace plumbline::system {

namespace fs = std::filesystem;

namespace {

std::optional<fs::path> makeFolder(const fs::path& place) {
#if defined(_WIN32)
    // The place is the person's own there, and what is in it inherits its rights.
    std::random_device draw;
    const fs::path made = place / ("plumbline-" + std::to_string(draw()) + std::to_string(draw()));
    std::error_code failed;
    if (!fs::create_directory(made, failed)) return std::nullopt;
    return made;
#else
    std::string name = (place / "plumbline-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) return std::nullopt;
    return fs::path(name);
#endif
}

}  // namespace

std::optional<PrivateFolder> PrivateFolder::make() {
    std::error_code failed;
    const fs::path place = fs::temp_directory_path(failed);
    if (failed) return std::nullopt;
    std::optional<fs::path> made = makeFolder(place);
    if (!made) return std::nullopt;
    return PrivateFolder(std::move(*made));
}

PrivateFolder::PrivateFolder(PrivateFolder&& other) noexcept
    : path_(std::exchange(other.path_, fs::path())) {}

PrivateFolder& PrivateFolder::operator=(PrivateFolder&& other) noexcept {
    std::swap(path_, other.path_);
    return *this;
}

PrivateFolder::~PrivateFolder() {
    std::error_code ignored;
    if (!path_.empty()) fs::remove_all(path_, ignored);
}

}  // namespace plumbline::system
