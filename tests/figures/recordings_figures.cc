// What each file of a folder is taken for: opened as a recording, or refused and why.
// usage: recordings_figures FOLDER...     files that go together (imu.csv, gnss.csv) are told alone

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>

#include "engine/record/read_recording.h"
#include "engine/system/mapped_file.h"

using namespace plumbline;

namespace {

std::string knownWords(const path::Known& known) {
    std::string words = known.place ? "place" : "no place";
    if (known.attitude) words += ", attitude";
    if (known.load) words += ", load";
    return words;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc < 2) {
        std::fprintf(stderr, "usage: recordings_figures FOLDER...\n");
        return 2;
    }
    std::size_t opened = 0, refused = 0;
    for (int a = 1; a < argc; ++a) {
        std::vector<std::filesystem::path> files;
        for (const auto& entry : std::filesystem::recursive_directory_iterator(argv[a]))
            if (entry.is_regular_file()) files.push_back(entry.path());
        std::sort(files.begin(), files.end());
        for (const auto& path : files) {
            const std::string name = std::filesystem::relative(path, argv[a]).string();
            system::MappedFile file;
            if (const std::string reason = file.open(path); !reason.empty()) {
                std::printf("%-58s unreadable: %s\n", name.c_str(), reason.c_str());
                continue;
            }
            const auto start = std::chrono::steady_clock::now();
            const auto track = record::readRecording(file.bytes(), path.filename().string());
            const double took =
                std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
            if (!track) {
                ++refused;
                std::printf("%-58s refused: %s\n", name.c_str(),
                            describe(track.error().front()).c_str());
                continue;
            }
            ++opened;
            std::printf("%-58s %s, %zu samples, %.1f s long, known: %s%s%s (%.2f s)\n",
                        name.c_str(), track->kind.c_str(), track->path.samples.size(),
                        track->path.duration_s(), knownWords(track->path.known).c_str(),
                        track->start_utc.empty() ? "" : ", from ", track->start_utc.c_str(), took);
            for (const Problem& warning : track->warnings)
                std::printf("    %s\n", describe(warning).c_str());
        }
    }
    std::printf("%zu opened, %zu refused\n", opened, refused);
    return 0;
}
