// Music from a file.

#include <algorithm>
#include <cstdlib>

#include <sndfile.h>

#include "viewer/model/music.h"

namespace plumbline::model {
namespace {

struct Closer {
    void operator()(SNDFILE* file) const { sf_close(file); }
};

/// Frame by frame to two channels; of more than two the first two are taken.
void takeFrames(const std::vector<std::int16_t>& block, std::size_t frames, std::size_t channels,
                std::vector<std::int16_t>& stereo) {
    for (std::size_t i = 0; i < frames; ++i) {
        stereo.push_back(block[i * channels]);
        stereo.push_back(block[i * channels + (channels > 1 ? 1 : 0)]);
    }
}

}  // namespace

Expected<std::shared_ptr<const Music>, std::string> readMusicFile(
    const std::filesystem::path& file) {
    SF_INFO info{};
#if defined(_WIN32)
    SNDFILE* const handle = sf_wchar_open(file.c_str(), SFM_READ, &info);
#else
    SNDFILE* const handle = sf_open(file.c_str(), SFM_READ, &info);
#endif
    const std::unique_ptr<SNDFILE, Closer> opened(handle);
    if (!opened) return Unexpected(std::string(sf_strerror(nullptr)));
    if (info.samplerate < 1 || info.channels < 1) return Unexpected(std::string("no sound in it"));
    auto music = std::make_shared<Music>();
    music->rate_hz = info.samplerate;
    const auto channels = static_cast<std::size_t>(info.channels);
    const double most = kLongestMusic_s * music->rate_hz;
    if (static_cast<double>(info.frames) > most)
        return Unexpected(std::string("over an hour long"));
    music->stereo.reserve(static_cast<std::size_t>(std::max<sf_count_t>(info.frames, 0)) * 2);
    // What floating-point files have beyond full scale is cut off, not turned round.
    sf_command(opened.get(), SFC_SET_CLIPPING, nullptr, SF_TRUE);
    constexpr sf_count_t kAtOnce = 8192;
    std::vector<std::int16_t> block(static_cast<std::size_t>(kAtOnce) * channels);
    for (;;) {
        const sf_count_t frames = sf_readf_short(opened.get(), block.data(), kAtOnce);
        if (frames <= 0) break;
        takeFrames(block, static_cast<std::size_t>(frames), channels, music->stereo);
        if (static_cast<double>(music->stereo.size()) > 2 * most) {
            return Unexpected(std::string("over an hour long"));
        }
    }
    if (music->stereo.empty()) return Unexpected(std::string("no sound in it"));
    makePeaks(*music);
    return std::shared_ptr<const Music>(std::move(music));
}

}  // namespace plumbline::model
