// The words spoken by a program of the system that is made for it.

#include <cmath>
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <utility>

#include "engine/system/feed.h"
#include "engine/system/private_folder.h"
#include "engine/system/whole_file.h"
#include "engine/walk/track.h"

namespace plumbline::walk {
namespace {

std::uint32_t numberAt(const std::string& bytes, std::size_t at, int count) {
    std::uint32_t out = 0;
    for (int i = count; i-- > 0;) {
        out = out << 8U | static_cast<unsigned char>(bytes[at + static_cast<std::size_t>(i)]);
    }
    return out;
}

/// 16 bit, one channel, kRate_hz: what the speech engine writes; nothing of anything else.
std::optional<std::vector<float>> samplesOfWave(const std::string& bytes) {
    if (bytes.size() < 12 || bytes.substr(0, 4) != "RIFF" || bytes.substr(8, 4) != "WAVE") {
        return std::nullopt;
    }
    bool fits = false;
    for (std::size_t at = 12; at + 8 <= bytes.size();) {
        const std::string name = bytes.substr(at, 4);
        const std::size_t length =
            std::min<std::size_t>(numberAt(bytes, at + 4, 4), bytes.size() - at - 8);
        at += 8;
        if (name == "fmt " && length >= 16) {
            fits = numberAt(bytes, at, 2) == 1 && numberAt(bytes, at + 2, 2) == 1 &&
                   numberAt(bytes, at + 4, 4) == kRate_hz && numberAt(bytes, at + 14, 2) == 16;
        } else if (name == "data" && fits) {
            std::vector<float> out(length / 2);
            for (std::size_t i = 0; i < out.size(); ++i) {
                const auto value = static_cast<std::int16_t>(numberAt(bytes, at + 2 * i, 2));
                out[i] = static_cast<float>(value) / 32768;
            }
            return out;
        }
        at += length + length % 2;
    }
    return std::nullopt;
}

}  // namespace

Voice systemVoice(const std::string& language, double words_a_minute) {
    std::optional<system::PrivateFolder> made = system::PrivateFolder::make();
    if (!made) return [](const std::string&) { return std::optional<std::vector<float>>(); };
    const auto folder = std::make_shared<const system::PrivateFolder>(std::move(*made));
    const std::filesystem::path spoken = folder->path() / "spoken.wav";
    const std::vector<std::string> arguments{
        "espeak-ng", "--stdin",      "-v",
        language,    "-s",           std::to_string(std::lround(words_a_minute)),
        "-w",        spoken.string()};
    return
        [arguments, folder, spoken](const std::string& words) -> std::optional<std::vector<float>> {
            std::string reason;
            std::optional<system::Feed> engine = system::Feed::start(arguments, reason);
            if (!engine) return std::nullopt;
            const std::string line = words + "\n";
            engine->write({reinterpret_cast<const std::uint8_t*>(line.data()), line.size()});
            const int code = engine->finish();
            const system::ReadFile read = system::readWholeFile(spoken);
            std::error_code ignored;
            std::filesystem::remove(spoken, ignored);
            if (code != 0 || !read.bytes) return std::nullopt;
            return samplesOfWave(*read.bytes);
        };
}

}  // namespace plumbline::walk
