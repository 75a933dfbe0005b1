#pragma once
// The brief made in the background of what is shown: first with the plan's times, then with the
// windows of imperfect flights; begun anew when anything changes. A second worker paints the page
// that is looked at.

#include <array>
#include <atomic>
#include <cstdint>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "engine/system/worker.h"
#include "viewer/model/brief_view.h"
#include "viewer/model/document.h"

namespace plumbline::model {

struct Model;

/// Where the pages of a routine go: "evening.routine.toml" has "evening-brief" beside it; empty:
/// it has no file.
std::filesystem::path briefFolder(const Model& model);

class BriefDesk {
public:
    BriefDesk();
    ~BriefDesk();
    BriefDesk(const BriefDesk&) = delete;
    BriefDesk& operator=(const BriefDesk&) = delete;

    /// Once a frame: asks for what is wanted, takes what is there.
    /// @param room_px  that there is for the page; 0: none
    void frame(Model& model, double elapsed_s, double room_width_px, double room_height_px);
    /// Begins to write all pages and captions beside the routine; says so where that cannot be.
    void write(Model& model);
    /// Waits until what is wanted is made and painted (offscreen pictures).
    void finish(Model& model, double room_width_px, double room_height_px);

private:
    struct Wish {
        std::shared_ptr<const Shown> shown;
        bool letter = false;
        units::DisplayUnits units = units::DisplayUnits::Aviation;
        double words_per_min = 0;
        std::vector<std::string> fonts;
    };
    struct Job {
        std::uint64_t number = 0;
        Wish wish;
    };
    /// Pages to be painted, with what they are set in.
    struct Pages {
        std::uint64_t number = 0;
        std::shared_ptr<const page::Fonts> fonts;
        std::vector<page::Document> sheets;
    };
    struct Paint {
        std::shared_ptr<Pages> pages;
        int sheet = 0, page = 0;
        page::Painting how;
    };
    /// Cues' times that hold as long as nothing but words changes.
    struct Times {
        std::uint64_t of = 0;
        brief::CueTimes times;
    };
    struct Outcome {
        std::string words;
        bool wrong = false;
    };
    struct Known;

    std::optional<double> work();
    std::optional<double> paint();
    void make(const Job& job, Known& known);
    void publish(const Job& job, Known& known, brief::Content content);
    static void openFonts(Model& model);
    void take(Model& model);
    void askToPaint(const Brief& brief, double width_px, double height_px);
    static Wish wishOf(const Model& model);
    static bool same(const Wish& a, const Wish& b);

    std::mutex mutex_;
    std::optional<Job> job_;
    std::optional<Paint> paint_;
    std::shared_ptr<const BriefMade> made_;
    std::shared_ptr<Pages> pages_;
    std::shared_ptr<const PagePicture> picture_;
    std::string fonts_fault_;
    std::atomic<std::uint64_t> newest_{0};  ///< number of the job that is still wanted
    std::atomic<double> flown_share_{0};
    bool making_ = false, painting_ = false;
    std::uint64_t made_count_ = 0;

    // Of the frames.
    std::optional<Wish> asked_;
    std::optional<Wish> rests_;  ///< seen last
    double rest_s_ = 0;
    std::shared_ptr<Pages> shown_pages_;
    std::optional<Paint> painted_;  ///< asked for last
    system::Later<Outcome> writing_;

    std::unique_ptr<Known> known_;
    system::Worker maker_, painter_;  // last: gone before what they work on
};

}  // namespace plumbline::model
