#include "viewer/app/session_file.h"

#include <cstdio>

#include "engine/system/whole_file.h"
#include "viewer/platform/folders.h"

namespace plumbline::app {
namespace {

std::filesystem::path sessionFile() {
    const std::filesystem::path folder = platform::configFolder();
    return folder.empty() ? folder : folder / "session.toml";
}

}  // namespace

model::Session loadSession() {
    const std::filesystem::path file = sessionFile();
    if (file.empty()) return {};
    const system::ReadFile read = system::readWholeFile(file);
    return read.bytes ? model::sessionFromText(*read.bytes) : model::Session();
}

void saveSession(const model::Session& session) {
    const std::filesystem::path file = sessionFile();
    if (file.empty()) return;
    std::error_code ignored;
    std::filesystem::create_directories(file.parent_path(), ignored);
    const std::string failure = system::writeWholeFile(file, model::sessionText(session));
    if (!failure.empty()) {
        std::fprintf(stderr, "plumbline: settings not kept in %s: %s\n", file.string().c_str(),
                     failure.c_str());
    }
}

std::filesystem::path unsavedFolder() {
    const std::filesystem::path folder = platform::configFolder();
    return folder.empty() ? folder : folder / "unsaved";
}

}  // namespace plumbline::app
