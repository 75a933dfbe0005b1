#include "engine/system/whole_file.h"

#include <cerrno>
#include <chrono>
#include <fstream>
#include <system_error>
#include <utility>

#include "engine/system/cut_off_note.h"
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

constexpr std::string_view kPart = ".part";

/// A name beside the target that no other run uses at the same moment.
fs::path besides(const fs::path& path) {
    const auto now = std::chrono::steady_clock::now().time_since_epoch().count();
    fs::path beside = path;
    beside += std::string(kPart) + std::to_string(now);
    return beside;
}

/// What a run that was killed has left beside files of these names.
void removeLeftovers(const fs::path& folder, const std::vector<fs::path>& names) {
    constexpr auto kLongest = std::chrono::minutes(10);  // chosen: the slowest stick has flushed
    const auto isLeftOf = [](const std::string& name, const std::string& target) {
        if (name.compare(0, target.size(), target) != 0) return false;
        std::string_view rest = std::string_view(name).substr(target.size());
        if (rest.substr(0, kPart.size()) != kPart) return false;
        rest.remove_prefix(kPart.size());
        return !rest.empty() && rest.find_first_not_of("0123456789") == std::string_view::npos;
    };
    std::error_code failed;
    std::vector<fs::path> old;
    for (fs::directory_iterator at(folder.empty() ? "." : folder, failed), end;
         !failed && at != end; at.increment(failed)) {
        const std::string name = at->path().filename().generic_string();
        if (name.find(kPart) == std::string::npos) continue;
        for (const fs::path& target : names) {
            std::error_code ignored;
            if (isLeftOf(name, target.generic_string()) && at->is_regular_file(ignored) &&
                fs::file_time_type::clock::now() - at->last_write_time(ignored) > kLongest)
                old.push_back(at->path());
        }
    }
    for (const fs::path& path : old) fs::remove(path, failed);
}

/// Tells who finds files of two versions that they are; gone once all are new.
class CutOffNote {
public:
    explicit CutOffNote(const fs::path& folder) : file_(folder / kCutOffNote) {}
    std::error_code write() const {
        std::error_code ignored;
        fs::remove(file_, ignored);
        std::string_view left =
            "The files in this folder were being written together, and that was cut off.\n"
            "Some may be new and some old: write them again, and this note goes.\n";
        return writeNewFile(file_, [&left] { return std::exchange(left, std::string_view()); });
    }
    bool stands() const {
        std::error_code ignored;
        return fs::exists(file_, ignored);
    }
    void remove() const {
        std::error_code ignored;
        fs::remove(file_, ignored);
    }

private:
    fs::path file_;
};

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
    removeLeftovers(target.parent_path(), {target.filename()});
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
    std::vector<fs::path> names, besides_of;
    for (const NamedContent& file : files) names.emplace_back(file.name);
    removeLeftovers(folder, names);
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
    const CutOffNote note(folder);
    const bool was_cut_off = note.stands();
    if (reason.empty() && files.size() > 1) {
        error = note.write();
        if (error) reason = std::string(kCutOffNote) + ": " + lowered(error.message());
    }
    std::size_t named = 0;
    for (; reason.empty() && named < files.size(); ++named) {
        error = renameOver(besides_of[named], folder / files[named].name);
        if (error) reason = files[named].name + ": " + lowered(error.message());
        if (error) break;
    }
    if (files.size() > 1 && (reason.empty() || (named == 0 && !was_cut_off))) note.remove();
    if (reason.empty()) return "";
    for (const fs::path& beside : besides_of) fs::remove(beside, ignored);
    if (made && named == 0) fs::remove(folder, ignored);
    return named == 0 ? reason : reason + " (the files before it are new: write them all again)";
}

}  // namespace plumbline::system
