#include "viewer/model/music.h"

#include <cmath>
#include <fstream>

#include <gtest/gtest.h>

#include "engine/base/constants.h"
#include "viewer/model/music_player.h"

namespace plumbline::model {
namespace {

namespace fs = std::filesystem;

/// A WAV file by the RIFF layout (Microsoft and IBM, Multimedia Programming Interface 1.0, 1991).
std::string wav(int rate_hz, int channels, const std::vector<std::int16_t>& samples) {
    std::string out;
    const auto number = [&out](std::uint32_t value, int bytes) {
        for (int i = 0; i < bytes; ++i) out += static_cast<char>(value >> (8 * i));
    };
    const auto size = static_cast<std::uint32_t>(samples.size() * 2);
    const auto rate = static_cast<std::uint32_t>(rate_hz),
               ways = static_cast<std::uint32_t>(channels);
    out += "RIFF";
    number(36 + size, 4);
    out += "WAVEfmt ";
    number(16, 4);
    number(1, 2);
    number(ways, 2);
    number(rate, 4);
    number(rate * ways * 2, 4);
    number(ways * 2, 2);
    number(16, 2);
    out += "data";
    number(size, 4);
    for (const std::int16_t s : samples) number(static_cast<std::uint16_t>(s), 2);
    return out;
}

class MusicFile : public ::testing::Test {
protected:
    fs::path write(const std::string& bytes) const {
        const fs::path file = fs::temp_directory_path() / "plumbline_music_test.wav";
        std::ofstream(file, std::ios::binary) << bytes;
        return file;
    }
    void TearDown() override { fs::remove(fs::temp_directory_path() / "plumbline_music_test.wav"); }
};

TEST_F(MusicFile, IsReadWithItsPeaks) {
    // A second of silence, then one at half of full scale, in one channel.
    std::vector<std::int16_t> samples(8000, 0);
    samples.insert(samples.end(), 8000, 16384);
    const auto music = readMusic(write(wav(8000, 1, samples)));
    ASSERT_TRUE(music);
    EXPECT_EQ((*music)->rate_hz, 8000);
    EXPECT_DOUBLE_EQ((*music)->duration_s(), 2);
    EXPECT_EQ((*music)->stereo[2 * 8000], 16384);
    EXPECT_EQ((*music)->stereo[2 * 8000 + 1], 16384);
    EXPECT_FLOAT_EQ(peakWithin(**music, 0, 0.99), 0);
    EXPECT_FLOAT_EQ(peakWithin(**music, 0.5, 1.5), 0.5);
    EXPECT_FLOAT_EQ((*music)->greatest, 0.5);
    EXPECT_FLOAT_EQ(peakWithin(**music, -3, -1), 0);
    EXPECT_FLOAT_EQ(peakWithin(**music, 2.1, 9), 0);
}

TEST_F(MusicFile, ThatIsNoneIsRefused) {
    EXPECT_FALSE(readMusic(write("no sound")));
    EXPECT_FALSE(readMusic(write(wav(8000, 2, {}))));
    EXPECT_FALSE(readMusic(fs::path("no such file.ogg")));
}

/// A tone whose phase tells the place in the track.
std::shared_ptr<const Music> tone(double hz, double seconds) {
    auto music = std::make_shared<Music>();
    music->rate_hz = 48000;
    for (int i = 0; i < static_cast<int>(seconds * 48000); ++i) {
        const double value = 16000 * std::sin(2 * kPi * hz * i / 48000);
        music->stereo.insert(music->stereo.end(), 2, static_cast<std::int16_t>(value));
    }
    return music;
}

int crossings(const std::vector<float>& stereo) {
    int count = 0;
    for (std::size_t i = 2; i < stereo.size(); i += 2) count += stereo[i - 2] < 0 && stereo[i] >= 0;
    return count;
}

TEST(MusicPlayer, PlaysTheTrackAtTheSpeedOfTheReplay) {
    MusicPlayer player;
    player.take(tone(440, 8));
    std::vector<float> second(2 * 44100);
    player.follow(1, 1, true);
    player.fill(second, 44100);  // another rate than the track's
    EXPECT_NEAR(crossings(second), 440, 2);
    EXPECT_NEAR(player.position_s(), 2, 1e-3);
    player.follow(3, 0.5, true);
    player.fill(second, 44100);
    EXPECT_NEAR(crossings(second), 440, 2);  // the pitch is kept
    EXPECT_NEAR(player.position_s(), 3.5, 0.01);
}

/// Two seconds of one note, then another: how long each lasts, how high it is.
TEST(MusicPlayer, AnotherSpeedScalesTheTimeAndKeepsThePitch) {
    const std::shared_ptr<const Music> low = tone(330, 2), high = tone(660, 6);
    auto both = std::make_shared<Music>(*low);
    both->stereo.insert(both->stereo.end(), high->stereo.begin(), high->stereo.end());
    constexpr int kRate = 44100;
    for (const double speed : {0.125, 0.5, 0.75, 1.25, 2.0, 8.0}) {
        MusicPlayer player;
        player.take(both);
        player.follow(0, speed, true);
        std::vector<float> heard(2 * static_cast<std::size_t>(4 / speed * kRate));
        player.fill(heard, kRate);
        const auto between = [&](double from_s, double to_s) {
            const auto at = [](double s) { return static_cast<std::ptrdiff_t>(s * kRate) * 2; };
            return crossings({heard.begin() + at(from_s), heard.begin() + at(to_s)});
        };
        const double change_s = 2 / speed, margin_s = 0.05;
        // A wave that is cut by an end may count or not. Very slow, where the same waves come again
        // and again, a quarter of a semitone may be off.
        const double off_hz = speed < 0.5 ? (std::exp2(1 / 48.0) - 1) * 330
                                          : std::max(2.5, 1.5 / (change_s - 2 * margin_s));
        EXPECT_NEAR(between(margin_s, change_s - margin_s) / (change_s - 2 * margin_s), 330, off_hz)
            << speed;
        EXPECT_NEAR(between(change_s + margin_s, 2 * change_s) / (change_s - margin_s), 660, off_hz)
            << speed;
        // Joints do not click: no step is greater than that of the higher tone itself, with a
        // tenth for what two waves laid over each other may add. The start is faded in.
        const double most = 1.1 * 16000 / 32768.0 * 2 * kPi * 660 / kRate;
        float greatest = 0, loudest = 0;
        for (std::size_t i = 2; i < heard.size(); i += 2) {
            greatest = std::max(greatest, std::abs(heard[i] - heard[i - 2]));
            loudest = std::max(loudest, std::abs(heard[i]));
        }
        EXPECT_LT(static_cast<double>(greatest), most) << speed;
        EXPECT_NEAR(static_cast<double>(loudest), 16000 / 32768.0, 0.03) << speed;
    }
}

TEST(MusicPlayer, IsSilentWhenNothingIsToBeHeard) {
    MusicPlayer player;
    std::vector<float> block(2 * 2048);
    const auto loudest = [&block] {
        float most = 0;
        for (const float v : block) most = std::max(most, std::abs(v));
        return most;
    };
    player.follow(0, 1, true);
    player.fill(block, 48000);  // no music
    EXPECT_EQ(loudest(), 0);
    player.take(tone(440, 8));
    player.fill(block, 48000);
    EXPECT_GT(loudest(), 0.4F);
    player.follow(1, 1, false);  // paused: fades at once, then nothing
    player.fill(block, 48000);
    player.fill(block, 48000);
    EXPECT_EQ(loudest(), 0);
    player.follow(-5, 1, true);  // before it begins
    player.fill(block, 48000);
    EXPECT_EQ(loudest(), 0);
    player.follow(9, 1, true);  // behind its end
    player.fill(block, 48000);
    player.fill(block, 48000);
    EXPECT_EQ(loudest(), 0);
}

TEST(MusicPlayer, StaysInStepWithTheClockAndJumpsWithIt) {
    MusicPlayer player;
    player.take(tone(440, 60));
    std::vector<float> block(2 * 1024);
    const double each_s = 1024.0 / 48000;
    // The picture's clock runs a third of a percent fast, which frames tell now and then.
    double clock_s = 2;
    for (int i = 0; i < 600; ++i) {
        player.follow(clock_s, 1, true);
        player.fill(block, 48000);
        clock_s += each_s * 1.003;
        EXPECT_NEAR(player.position_s(), clock_s, 0.03) << i;
    }
    // A seek is followed within the fade.
    player.follow(40, 1, true);
    player.fill(block, 48000);
    EXPECT_NEAR(player.position_s(), 40 + each_s, 0.02);
    // No click: neighbours never differ by more than the tone and the fade make.
    const float steepest = 0.5F * 2 * 3.15F * 440 / 48000 + 1 / (0.008F * 48000);
    for (std::size_t i = 2; i < block.size(); i += 2) {
        EXPECT_LT(std::abs(block[i] - block[i - 2]), steepest);
    }
}

}  // namespace
}  // namespace plumbline::model
