#include "viewer/app/film.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <functional>

#include "engine/base/number_text.h"
#include "engine/cli/options.h"
#include "engine/cli/pace.h"
#include "engine/system/feed.h"
#include "engine/system/interrupt.h"
#include "engine/system/safe_write.h"
#include "engine/system/whole_file.h"
#include "engine/walk/track.h"
#include "viewer/app/frame_pipe.h"
#include "viewer/app/worked_again.h"
#include "viewer/model/music.h"
#include "viewer/platform/surface.h"
#include "viewer/render/ui_surface.h"
#include "viewer/ui/quantity_text.h"

namespace plumbline::app {
namespace {

using Clock = std::chrono::steady_clock;

/// What a score sounds like during the film, in a file of its own. @return empty: nothing to be
/// heard
std::filesystem::path playedScore(const FilmWish& wish, double lasts_s, const model::Shown& shown) {
    const auto music = model::readMusic(shown.music_file);
    if (!music) return {};
    const auto count = static_cast<double>((*music)->stereo.size() / 2);
    const double rate_hz = (*music)->rate_hz, into_s = wish.start_s - shown.music_start_s;
    const auto frame = [&](double time_s) {
        return 2 * static_cast<std::ptrdiff_t>(std::clamp(time_s * rate_hz, 0.0, count));
    };
    const auto begin = (*music)->stereo.begin();
    std::vector<std::int16_t> part(
        static_cast<std::size_t>(2 * std::llround(std::max(0.0, -into_s) * rate_hz)), 0);
    part.insert(part.end(), begin + frame(into_s), begin + frame(into_s + lasts_s));
    if (part.empty()) return {};
    std::filesystem::path file = wish.output;
    file += ".music.part";
    const std::string bytes = walk::waveFile(part, static_cast<int>(rate_hz), 2);
    return system::writeWholeFile(file, bytes).empty() ? file : std::filesystem::path();
}

/// The routine's music beneath a film that plays as fast as it was flown. @return true when there
/// is any
bool soundOf(const FilmWish& wish, const model::Shown& shown, const std::filesystem::path& played,
             std::vector<std::string>& list) {
    if (!played.empty()) {
        list.insert(list.end(), {"-f", "wav", "-i", played.string(), "-map", "0:v", "-map", "1:a"});
        return true;
    }
    std::error_code ignored;
    if (wish.speed != 1 || !std::filesystem::exists(shown.music_file, ignored) ||
        model::isScore(shown.music_file)) {
        return false;
    }
    const double into_s = wish.start_s - shown.music_start_s;
    list.insert(list.end(), {into_s < 0 ? "-itsoffset" : "-ss", formatFixed(std::abs(into_s), 3),
                             // Music that is a list of other files or addresses is none.
                             "-protocol_whitelist", "file", "-i", shown.music_file.string(), "-map",
                             "0:v", "-map", "1:a"});
    return true;
}

/// Gone when the film is made, or is not.
struct PartFile {
    PartFile() = default;
    PartFile(const PartFile&) = delete;
    PartFile& operator=(const PartFile&) = delete;
    ~PartFile() {
        std::error_code ignored;
        if (!file.empty()) std::filesystem::remove(file, ignored);
    }
    std::filesystem::path file;
};

/// What ffmpeg is told. chosen: settings that look clean and are made about as fast as the
/// pictures.
std::vector<std::string> arguments(const FilmWish& wish, int frames, const model::Shown& shown,
                                   const std::filesystem::path& played,
                                   const std::filesystem::path& output) {
    const std::string size =
        std::to_string(wish.shot.width_px) + "x" + std::to_string(wish.shot.height_px);
    std::vector<std::string> list{"ffmpeg",
                                  "-hide_banner",
                                  "-loglevel",
                                  "error",
                                  "-nostdin",
                                  "-f",
                                  "rawvideo",
                                  "-pixel_format",
                                  "rgba",
                                  "-video_size",
                                  size,
                                  "-framerate",
                                  formatDouble(wish.frames_ps),
                                  "-i",
                                  "pipe:0"};
    const bool music = soundOf(wish, shown, played, list);
    list.insert(list.end(), {"-pix_fmt", "yuv420p"});
    const auto add = [&list](std::initializer_list<const char*> words) {
        list.insert(list.end(), words.begin(), words.end());
    };
    if (wish.output.extension() == ".webm") {
        add({"-c:v", "libvpx-vp9", "-crf", "30", "-b:v", "0", "-deadline", "realtime", "-cpu-used",
             "7", "-row-mt", "1", "-f", "webm"});
    } else {
        add({"-c:v", "libx264", "-crf", "19", "-preset", "veryfast", "-movflags", "+faststart",
             "-f", "mp4"});
    }
    if (music) {
        add({"-c:a", wish.output.extension() == ".webm" ? "libopus" : "aac", "-b:a", "160k", "-t"});
        list.push_back(formatFixed(frames / wish.frames_ps, 3));
    }
    list.emplace_back("-y");
    list.push_back(output.string());
    return list;
}

enum class Poured { All, NotTaken, Interrupted };

/// Draws the frames into the feed: one is drawn while the one before is read back and those before
/// that are encoded.
/// @param draw  frame number i into the framebuffer that is bound
Poured pour(Stage& stage, const FilmWish& wish, int frames, system::Feed& feed,
            const std::function<void(int)>& draw) {
    const render::OffscreenTarget target(wish.shot.width_px, wish.shot.height_px);
    render::ReadBack back(wish.shot.width_px, wish.shot.height_px);
    stage.finishWork();
    const system::InterruptWatch interrupt;
    cli::Pace pace(2);
    FramePipe pipe(feed);
    render::Image image;
    for (int i = 0; i < frames; ++i) {
        if (interrupt.asked()) return Poured::Interrupted;
        target.bind();
        draw(i);
        back.ask(target);
        while (back.onTheirWay() > (i + 1 < frames ? 1 : 0)) {
            back.take(image);
            if (!pipe.give(image)) {
                return interrupt.asked() ? Poured::Interrupted : Poured::NotTaken;
            }
        }
        if (i + 1 < frames && pace.due())
            std::fprintf(stderr, "film: %d of %d frames, %.0f s left\n", i + 1, frames,
                         std::ceil(pace.left_s(static_cast<double>(i + 1) / frames)));
    }
    if (!pipe.finish()) return interrupt.asked() ? Poured::Interrupted : Poured::NotTaken;
    const double took_s = pace.elapsed_s();
    std::fprintf(
        stderr, "film: %d frames in %.1f s, %.1f ms each, %.1f times as fast as it plays\n", frames,
        took_s, 1000 * took_s / frames, frames / wish.frames_ps / std::max(took_s, 1e-3));
    return Poured::All;
}

}  // namespace

int runFilm(const FilmWish& wish) {
    auto surface = platform::Offscreen::create();
    if (!surface) return fail(surface.error());
    auto made = Stage::create((*surface)->loader());
    if (!made) return fail(made.error());
    Stage& stage = **made;
    WorkedAgain worked;
    const bool window = !wish.log.empty();
    if (window) {
        if (const std::string wrong = worked.read(wish.log); !wrong.empty()) return fail(wrong);
        stage.model().session.theme = wish.shot.theme;
        stage.model().session.units = wish.shot.units;
        if (!worked.begin(stage, wish.shot.open)) {
            std::fprintf(stderr, "%s", describe(stage.model().problems).c_str());
            return cli::kBadInput;
        }
    } else if (const int wrong = prepare(stage, wish.shot)) {
        return wrong;
    }
    const double duration_s = window ? worked.duration_s() : stage.model().clock.duration_s();
    const double stop_s = wish.stop_s.value_or(duration_s);
    if (wish.start_s < 0 || stop_s > duration_s + 1e-9 || stop_s <= wish.start_s) {
        return fail("--start, --stop: not a stretch of what is flown: say two times from 0 s to " +
                    ui::wholeText(std::floor(duration_s)) + " s, the first before the second");
    }
    const double wanted = std::round((stop_s - wish.start_s) / wish.speed * wish.frames_ps);
    constexpr double kMostFrames = 1e6;  // chosen: nine hours at 30 a second
    if (wanted > kMostFrames) {
        return fail("over a million frames: take a shorter stretch or fewer frames a second");
    }
    const int frames = std::max(1, static_cast<int>(wanted));

    std::filesystem::path part = wish.output;
    part += ".part";
    const model::Shown& shown = *stage.model().shown;
    PartFile played;
    if (!window && wish.speed == 1 && model::isScore(shown.music_file))
        played.file = playedScore(wish, frames / wish.frames_ps, shown);
    std::string reason;
    auto feed = system::Feed::start(arguments(wish, frames, shown, played.file, part), reason);
    if (!feed) {
        return fail("films are made by ffmpeg, which cannot be started (" + reason +
                    "): install it: apt-get install ffmpeg");
    }
    const int width_px = wish.shot.width_px, height_px = wish.shot.height_px;
    const double step_s = wish.speed / wish.frames_ps;
    const Poured how = pour(stage, wish, frames, *feed, [&](int i) {
        const double time_s = wish.start_s + i * step_s;
        if (window) {
            worked.frame(stage, time_s, step_s, width_px, height_px, wish.shot.ui_scale);
            return;
        }
        stage.model().clock.seek(time_s);
        stage.drawShot(width_px, height_px, wish.shot.burnt, scene::Quality::Normal);
    });
    const bool poured = how == Poured::All;
    const bool ended_well = feed->finish() == 0;
    std::error_code error;
    if (poured && ended_well) error = system::flushFile(part);
    if (poured && ended_well && !error) error = system::renameOver(part, wish.output);
    if (poured && ended_well && !error) return cli::kDone;
    std::error_code ignored;
    std::filesystem::remove(part, ignored);
    if (how == Poured::Interrupted) return fail("stopped; no film is left behind");
    return fail(wish.output.string() + ": the film could not be made" +
                (error ? ": " + error.message() : ": ffmpeg stopped; its reason stands above"));
}

}  // namespace plumbline::app
