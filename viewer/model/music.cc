#include "viewer/model/music.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include <sndfile.h>

#include "engine/load/load.h"
#include "engine/score/score.h"
#include "engine/system/whole_file.h"

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

void makePeaks(Music& music) {
    const auto each = static_cast<std::size_t>(std::max(1.0, std::round(music.rate_hz * kPeak_s)));
    music.peaks.reserve(music.stereo.size() / 2 / each + 1);
    for (std::size_t at = 0; at < music.stereo.size(); at += 2 * each) {
        int most = 0;
        const std::size_t end = std::min(music.stereo.size(), at + 2 * each);
        for (std::size_t i = at; i < end; ++i) most = std::max(most, std::abs(music.stereo[i] + 0));
        music.peaks.push_back(static_cast<float>(most) / 32768.0F);
        music.greatest = std::max(music.greatest, music.peaks.back());
    }
}

Expected<std::shared_ptr<const Music>, std::string> playScore(const std::filesystem::path& file) {
    std::string text;
    if (const auto built_in = load::embeddedAsset(file.lexically_normal().generic_string())) {
        text = *built_in;
    } else {
        const system::ReadFile read = system::readWholeFile(file);
        if (!read.bytes) return Unexpected(read.reason);
        text = *read.bytes;
    }
    const auto score = score::readScore(text, file.filename().generic_string());
    if (!score) return Unexpected(describe(score.error().front()));
    auto music = std::make_shared<Music>();
    music->rate_hz = score::kRate_hz;
    music->stereo = score::samplesOf(*score);
    makePeaks(*music);
    return std::shared_ptr<const Music>(std::move(music));
}

}  // namespace

bool isScore(const std::filesystem::path& file) {
    return file.filename().generic_string().ends_with(".score.toml");
}

float peakWithin(const Music& music, double from_s, double to_s) {
    const auto count = static_cast<double>(music.peaks.size());
    const double first = std::clamp(std::floor(from_s / kPeak_s), 0.0, count);
    const double last = std::clamp(std::ceil(to_s / kPeak_s), 0.0, count);
    if (first >= last) return 0;
    const auto begin = music.peaks.begin();
    return *std::max_element(begin + static_cast<std::ptrdiff_t>(first),
                             begin + static_cast<std::ptrdiff_t>(last));
}

Expected<std::shared_ptr<const Music>, std::string> readMusic(const std::filesystem::path& file) {
    if (isScore(file)) return playScore(file);
    SF_INFO info{};
    const std::unique_ptr<SNDFILE, Closer> opened(sf_open(file.string().c_str(), SFM_READ, &info));
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
    constexpr sf_count_t kBlock = 8192;
    std::vector<std::int16_t> block(static_cast<std::size_t>(kBlock) * channels);
    for (;;) {
        const sf_count_t frames = sf_readf_short(opened.get(), block.data(), kBlock);
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

void MusicReader::wait() const { result_.wait(); }

void MusicReader::want(const std::filesystem::path& file) {
    if (file == wanted_) return;
    wanted_ = file;
    music_ = nullptr;
    failure_.clear();
}

bool MusicReader::done() {
    if (result_.busy()) {
        if (!result_.done()) return false;
        const Result result = result_.take();
        if (reading_ == wanted_) {
            if (result) {
                music_ = *result;
            } else {
                failure_ = result.error();
            }
            return true;
        }
        reading_.clear();
    }
    if (wanted_.empty() || reading_ == wanted_) {
        if (wanted_.empty()) reading_.clear();
        return false;
    }
    reading_ = wanted_;
    result_ = system::Later<Result>::begin([file = wanted_] { return readMusic(file); });
    return false;
}

}  // namespace plumbline::model
