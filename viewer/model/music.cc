#include "viewer/model/music.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "engine/load/load.h"
#include "engine/score/score.h"
#include "engine/system/whole_file.h"

namespace plumbline::model {

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

namespace {

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

Expected<std::shared_ptr<const Music>, std::string> readMusic(const std::filesystem::path& file) {
    return isScore(file) ? playScore(file) : readMusicFile(file);
}

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
