#include "engine/system/whole_file.h"

#include <cerrno>
#include <chrono>
#include <fstream>
#include <system_error>
#include <utility>

#include "engine/system/safe_write.h"

namespace plumbline::system {

namespace {

namespace fs = std::filesystem;

// chosen: hours of the fastest logger stay far below; more would fill the memory of small machines.
constexpr std::size_t kLargest = std::size_t{1} << 30;
constexpr std::size_t kChunk = std::size_t{1} << 20;

/// The system's message, fit to stand within a sentence.
std::string lowered(std::string message) {
    if (!message.empty() && message[0] >= 'A' && message[0] <= 'Z')
        message[0] = static_cast<char>(message[0] - 'A' + 'a');
    return message;
}

std::string lastErrorText() {
    return lowered(std::generic_category().message(errno == 0 ? EIO : errno));
}

std::string writeDirectly(const fs::path& path, const NextPiece& next) {
    errno = 0;
    std::ofstream file(path, std::ios::binary | std::ios::trunc);
    if (!file) return lastErrorText();
    for (std::string_view piece = next(); file && !piece.empty(); piece = next())
        file.write(piece.data(), static_cast<std::streamsize>(piece.size()));
    file.close();
    return file ? std::string() : lastErrorText();
}

/// A name beside the target that no other run uses at the same moment.
fs::path besides(const fs::path& path) {
    const auto now = std::chrono::steady_clock::now().time_since_epoch().count();
    fs::path beside = path;
    beside += ".part" + std::to_string(now);
    return beside;
}

}  // namespace

ReadFile readWholeFile(const fs::path& path) {
    std::error_code ignored;
    if (fs::is_directory(path, ignored)) return {std::nullopt, "it is a folder"};
    errno = 0;
    std::ifstream file(path, std::ios::binary);
    if (!file) return {std::nullopt, lastErrorText()};
    std::string bytes;
    while (file) {
        const std::size_t size = bytes.size();
        bytes.resize(size + kChunk);
        file.read(bytes.data() + size, static_cast<std::streamsize>(kChunk));
        bytes.resize(size + static_cast<std::size_t>(file.gcount()));
        if (bytes.size() > kLargest) return {std::nullopt, "it is larger than a gigabyte"};
    }
    if (file.bad()) return {std::nullopt, lastErrorText()};
    return {std::move(bytes), ""};
}

bool staysInside(const fs::path& named) {
    if (named.has_root_path()) return false;
    const fs::path plain = named.lexically_normal();
    return plain.empty() || *plain.begin() != "..";
}

std::string writeWholeFile(const fs::path& path, std::string_view bytes) {
    return writeWholeFile(path, [&bytes] { return std::exchange(bytes, std::string_view()); });
}

std::string writeWholeFile(const fs::path& path, const NextPiece& next) {
    std::error_code error;
    const fs::file_status status = fs::status(path, error);
    if (fs::is_directory(status)) return "it is a folder";
    if (fs::exists(status) && !fs::is_regular_file(status)) return writeDirectly(path, next);
    // A link stays a link: what it points to is replaced.
    const fs::path target =
        fs::is_symlink(fs::symlink_status(path, error)) ? fs::weakly_canonical(path, error) : path;
    const fs::path beside = besides(target);
    error = writeNewFile(beside, next);
    if (!error && fs::exists(status)) fs::permissions(beside, status.permissions(), error);
    if (!error) error = renameOver(beside, target);
    if (!error) return "";
    std::error_code ignored;
    fs::remove(beside, ignored);
    return lowered(error.message());
}

std::string writeWholeFiles(const fs::path& folder, const std::vector<NamedContent>& files) {
    std::error_code error, ignored;
    const bool made = fs::create_directories(folder, error);
    if (error) return lowered(error.message());
    std::vector<fs::path> besides_of;
    std::string reason;
    for (const NamedContent& file : files) {
        const fs::path path = folder / file.name;
        if (fs::is_directory(path, ignored)) {
            reason = file.name + " is a folder";
            break;
        }
        besides_of.push_back(besides(path));
        std::string_view left = file.bytes;
        error = writeNewFile(besides_of.back(),
                             [&left] { return std::exchange(left, std::string_view()); });
        if (!error) continue;
        reason = file.name + ": " + lowered(error.message());
        break;
    }
    for (std::size_t i = 0; reason.empty() && i < files.size(); ++i) {
        error = renameOver(besides_of[i], folder / files[i].name);
        if (error) reason = files[i].name + ": " + lowered(error.message());
    }
    if (reason.empty()) return "";
    for (const fs::path& beside : besides_of) fs::remove(beside, ignored);
    if (made) fs::remove(folder, ignored);
    return reason;
}

}  // namespace plumbline::system
