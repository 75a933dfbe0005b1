#include "viewer/model/brief_desk.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <thread>
#include <utility>

#include "engine/base/fingerprint.h"
#include "engine/page/font_files.h"
#include "viewer/model/beside_frames.h"
#include "viewer/model/model.h"
#include "viewer/model/say.h"

namespace plumbline::model {
namespace {

constexpr double kPauseInTyping_s =
    0.25;  // chosen: the pages follow while one writes, not each letter

/// Of all that the times of the cues follow from.
std::uint64_t timesMark(const Shown& shown) {
    Fingerprint mark;
    const auto add = [&mark](const auto& value) {
        mark.add({reinterpret_cast<const char*>(&value), sizeof(value)});
    };
    add(shown.workspace->around.value());
    add(shown.raised_m);
    for (const path::Sample& sample : shown.path().samples) {
        add(sample.time_s);
        add(sample.position_S_m);
        add(sample.velocity_S_mps);
    }
    for (const path::Cue& cue : shown.path().cues) {
        add(cue.time_s);
        mark.add(cue.words);
    }
    for (const routine::RoutineFigure& figure : shown.workspace->routine.figures)
        mark.add(figure.name + (figure.narration.empty() ? ";" : "!"));
    return mark.value();
}

bool sameBox(const page::Box& a, const page::Box& b) {
    return a.x_mm == b.x_mm && a.y_mm == b.y_mm && a.width_mm == b.width_mm &&
           a.height_mm == b.height_mm;
}

}  // namespace

/// Of the maker: what need not be made again.
struct BriefDesk::Known {
    std::shared_ptr<const page::Fonts> fonts;
    std::optional<Times> flown;
};

BriefDesk::BriefDesk()
    : known_(std::make_unique<Known>()),
      maker_([this] { return work(); }, true),
      painter_([this] { return paint(); }) {}

BriefDesk::~BriefDesk() { ++newest_; }  // what is being made is given up

BriefDesk::Wish BriefDesk::wishOf(const Model& model) {
    const Session& session = model.session;
    return {model.shown, session.letter_paper, displayUnits(session.units), session.words_per_min,
            session.fonts};
}

bool BriefDesk::same(const Wish& a, const Wish& b) {
    return a.shown->revision == b.shown->revision && a.letter == b.letter && a.units == b.units &&
           a.words_per_min == b.words_per_min && a.fonts == b.fonts;
}

void BriefDesk::frame(Model& model, double elapsed_s, double room_width_px, double room_height_px) {
    if (writing_.done()) {
        Outcome outcome = writing_.take();
        say(model, std::move(outcome.words), outcome.wrong);
    }
    take(model);
    Brief& brief = model.brief;
    if (brief.on && (!model.shown || !model.shown->workspace)) brief.on = false;
    if (!brief.on) {
        if (asked_) ++newest_;
        asked_ = rests_ = std::nullopt;
        return;
    }
    openFonts(model);
    if (!model.editor.stand_in.empty()) {  // what is shown is another routine
        brief.made = nullptr;
        brief.picture = nullptr;
        shown_pages_ = nullptr;
        ++newest_;
        asked_ = rests_ = std::nullopt;
        return;
    }
    Wish wish = wishOf(model);
    if (!rests_ || !same(*rests_, wish)) {
        const bool first = !rests_;
        rests_ = wish;
        rest_s_ = first ? kPauseInTyping_s : 0;
        brief.waits_s = 0;
    }
    rest_s_ += elapsed_s;
    brief.flown_share = flown_share_;
    const bool old = !asked_ || !same(*asked_, wish);
    if (old || !brief.made || brief.made->content.narration.flights == 0) {
        brief.waits_s += elapsed_s;
    } else {
        brief.waits_s = 0;
    }
    if (old && !model.shown->draft && rest_s_ >= kPauseInTyping_s) {
        asked_ = wish;
        const std::lock_guard<std::mutex> lock(mutex_);
        job_ = Job{++newest_, std::move(wish)};
        maker_.wake();
    }
    if (room_width_px >= 1 && room_height_px >= 1) askToPaint(brief, room_width_px, room_height_px);
}

/// Those of the pages belong to the worker that sets them.
void BriefDesk::openFonts(Model& model) {
    Brief& brief = model.brief;
    if (brief.fonts && brief.font_files == model.session.fonts) return;
    brief.font_files = model.session.fonts;
    Expected<page::Fonts, Problems> fonts = page::openFonts(brief.font_files);
    if (!fonts) fonts = page::openFonts({});
    brief.fonts = std::make_shared<const page::Fonts>(std::move(fonts).value());
}

void BriefDesk::take(Model& model) {
    const std::lock_guard<std::mutex> lock(mutex_);
    if (made_) {
        model.brief.made = std::exchange(made_, nullptr);
        shown_pages_ = pages_;
    }
    if (picture_) model.brief.picture = std::exchange(picture_, nullptr);
    model.brief.fonts_fault = fonts_fault_;
}

void BriefDesk::askToPaint(const Brief& brief, double width_px, double height_px) {
    if (!shown_pages_ || !brief.made) return;
    const auto sheet = static_cast<std::size_t>(sheetShown(brief));
    const PagePlace place = placeOf(brief, brief.made->sizes[sheet], width_px, height_px);
    Paint paint{shown_pages_,
                sheetShown(brief),
                pageShown(brief),
                {.dots_per_mm = place.dots_per_mm, .part = place.part}};
    if (painted_ && painted_->pages == paint.pages && painted_->sheet == paint.sheet &&
        painted_->page == paint.page && painted_->how.dots_per_mm == paint.how.dots_per_mm &&
        sameBox(*painted_->how.part, *paint.how.part)) {
        return;
    }
    painted_ = paint;
    const std::lock_guard<std::mutex> lock(mutex_);
    paint_ = std::move(paint);
    painter_.wake();
}

void BriefDesk::finish(Model& model, double room_width_px, double room_height_px) {
    constexpr double kStep_s = 0.05;
    bool idle = false;
    while (!idle) {
        frame(model, kStep_s, room_width_px, room_height_px);
        if (!model.brief.on || !model.editor.stand_in.empty()) return;
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
        const bool asked = asked_ && same(*asked_, wishOf(model));
        const std::lock_guard<std::mutex> lock(mutex_);
        idle = asked && !job_ && !making_ && !made_ && !paint_ && !painting_ && !picture_;
    }
}

void BriefDesk::publish(const Job& job, Known& known, brief::Content content) {
    const variant::Flown flown = flownOf(*job.wish.shown);
    brief::Wishes wishes;
    wishes.letter = job.wish.letter;
    wishes.units = job.wish.units;
    auto pages = std::make_shared<Pages>();
    auto made = std::make_shared<BriefMade>();
    pages->fonts = known.fonts;
    for (const brief::SheetKind kind : brief::kSheetKinds) {
        pages->sheets.push_back(brief::pagesOf(kind, flown, content, *known.fonts, wishes));
        const auto i = static_cast<std::size_t>(kind);
        made->sizes[i] = pages->sheets.back().size();
        made->pages[i] = pages->sheets.back().pages();
    }
    made->missing = known.fonts->missing();
    made->revision = job.wish.shown->revision;
    made->content = std::move(content);
    const std::lock_guard<std::mutex> lock(mutex_);
    if (newest_ != job.number) return;
    made->number = pages->number = ++made_count_;
    made_ = std::move(made);
    pages_ = std::move(pages);
}

void BriefDesk::make(const Job& job, Known& known) {
    // Fonts tell what they lacked since they were opened: opened anew they tell it of this brief.
    known.fonts = nullptr;
    std::string fault;
    Expected<page::Fonts, Problems> fonts = page::openFonts(job.wish.fonts);
    if (!fonts) {
        fault = describe(fonts.error().front());
        fonts = page::openFonts({});
    }
    known.fonts = std::make_shared<const page::Fonts>(std::move(fonts).value());
    {
        const std::lock_guard<std::mutex> lock(mutex_);
        fonts_fault_ = fault;
    }
    const variant::Flown flown = flownOf(*job.wish.shown);
    brief::Wishes wishes;
    wishes.words_per_min = job.wish.words_per_min;
    wishes.units = job.wish.units;
    wishes.executor = halfTheCores();
    wishes.give_up = [&] { return newest_ != job.number; };
    const std::uint64_t all = wishes.flights;
    wishes.progress = [&](std::uint64_t done) {
        flown_share_ = static_cast<double>(done) / static_cast<double>(all);
        return newest_ == job.number;
    };
    brief::Content content;
    content.outline = brief::outlineOf(flown, wishes.units);
    const std::uint64_t mark = timesMark(*job.wish.shown);
    const bool known_times = known.flown && known.flown->of == mark;
    brief::CueTimes times;
    if (known_times) {
        times = known.flown->times;
    } else {
        wishes.flights = 0;
        times = brief::timeCues(flown, wishes);
    }
    content.narration = brief::narrate(flown, content.outline, times, wishes);
    if (newest_ != job.number) return;
    publish(job, known, content);
    if (known_times || times.cues.empty()) return;
    flown_share_ = 0;
    wishes.flights = all;
    times = brief::timeCues(flown, wishes);
    if (newest_ != job.number || times.flights < all) return;
    known.flown = Times{mark, times};
    content.narration = brief::narrate(flown, content.outline, times, wishes);
    publish(job, known, std::move(content));
}

std::optional<double> BriefDesk::work() {
    std::unique_lock<std::mutex> lock(mutex_);
    if (!job_) return std::nullopt;
    const Job job = *std::exchange(job_, std::nullopt);
    making_ = true;
    lock.unlock();
    make(job, *known_);
    lock.lock();
    making_ = false;
    return job_ ? std::optional<double>(0) : std::nullopt;
}

std::optional<double> BriefDesk::paint() {
    std::unique_lock<std::mutex> lock(mutex_);
    if (!paint_) return std::nullopt;
    const Paint paint = *std::exchange(paint_, std::nullopt);
    painting_ = true;
    lock.unlock();
    auto picture = std::make_shared<PagePicture>();
    picture->number = paint.pages->number;
    picture->sheet = paint.sheet;
    picture->page = paint.page;
    picture->part = *paint.how.part;
    picture->dots_per_mm = paint.how.dots_per_mm;
    picture->picture =
        paint.pages->sheets[static_cast<std::size_t>(paint.sheet)].pictureOf(paint.page, paint.how);
    lock.lock();
    painting_ = false;
    picture_ = std::move(picture);
    return paint_ ? std::optional<double>(0) : std::nullopt;
}

}  // namespace plumbline::model
