#pragma once
// One window's worth of program: model, scene, panels. The same frame() serves the window's loop
// and pictures without a window.

#include <cstdio>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/base/expected.h"
#include "viewer/app/music_desk.h"
#include "viewer/app/panel_lists.h"
#include "viewer/app/word_pictures.h"
#include "viewer/model/brief_desk.h"
#include "viewer/model/debrief_desk.h"
#include "viewer/model/exporter.h"
#include "viewer/model/keeper.h"
#include "viewer/model/model.h"
#include "viewer/model/prompter_desk.h"
#include "viewer/model/quality_steps.h"
#include "viewer/model/remark_desk.h"
#include "viewer/model/trends_desk.h"
#include "viewer/platform/surface.h"
#include "viewer/render/renderer.h"
#include "viewer/render/shared_picture.h"
#include "viewer/render/ui_surface.h"
#include "viewer/ui/ui.h"

namespace plumbline::app {

/// Needs a current GL context for all of its life.
class Stage {
public:
    /// @errors those of the renderer
    static Expected<std::unique_ptr<Stage>, std::string> create(platform::GlLoader load);
    ~Stage();
    Stage(const Stage&) = delete;
    Stage& operator=(const Stage&) = delete;

    model::Model& model() { return model_; }
    const ui::UiState& uiState() const { return ui_state_; }
    render::Renderer& renderer() { return *renderer_; }
    MusicDesk& music() { return music_; }

    /// Begins to open; the frame goes on meanwhile.
    void open(model::OpenWish wish);
    /// Opens and waits for it. @return false when it could not be opened (see model().problems)
    bool openAndWait(const model::OpenWish& wish);

    /// Draws one frame into the bound framebuffer and lets time pass.
    /// @param elapsed_s  wall time since the frame before
    void frame(int width_px, int height_px, double pixel_ratio, double elapsed_s);
    /// Draws the moment into the bound framebuffer, without panels.
    void drawShot(int width_px, int height_px, const ui::BurntIn& burnt, scene::Quality quality);
    /// The prompter's words alone into a picture that other windows can show.
    /// @return its texture
    std::uint32_t drawPrompterWords(int width_px, int height_px, double pixel_ratio);
    /// Bakes what is still rough in the picture (offscreen pictures).
    void finishWork();

    /// Texts can be written, and are put aside in the folder while they are not saved.
    /// @param log  every action applied goes there, a line each; null: nowhere
    void beginWriting(const std::filesystem::path& folder, std::FILE* log);
    /// The last frame was drawn.
    void finishWriting();
    /// While the solver works, frames go on.
    bool busy() const { return (live_ && live_->busy()) || (trends_desk_ && trends_desk_->busy()); }
    /// Text for the clipboard, once; what was pasted.
    std::string takeCopied() { return std::exchange(model_.copied, {}); }

    /// Actions pushed from outside the panels, such as files dropped on the window.
    model::Actions& actions() { return actions_; }

private:
    Stage();
    void begins(const model::OpenWish& wish);
    void takeOpened();
    void mend(const model::StandIn& stand_in, Problems problems);
    void takeAircraftModel();
    void applyActions();
    bool applyToFiles(const model::Action& action);
    bool asksFirst(const model::Action& anyway, const char* words);
    void openGuarded(const model::Action& action);
    bool openOverPlan(const std::vector<std::filesystem::path>& files);
    void toggleReview();
    void newGuarded(const model::Action& action);
    void quitGuarded();
    void begin(const std::filesystem::path& file, std::string text, bool built_in);
    void fly();
    void logAction(const model::Action& action, bool follows);
    void finishUi();
    void showBrief(const ui::Layout& layout, double elapsed_s, ui::PictureInfo& info);
    model::BriefDesk& briefDesk();
    void drawScene(const ui::Layout& layout, const scene::DrawList& list,
                   const scene::DrawList& second, const ui::PictureInfo& info, int height_px);

    std::unique_ptr<render::Renderer> renderer_;
    std::unique_ptr<ui::Glyphs> glyphs_;
    std::unique_ptr<render::GlyphTexture> texture_;
    std::unique_ptr<PanelLists> panels_;
    std::unique_ptr<render::PictureTexture> page_texture_;  ///< null: no page was looked at yet
    std::shared_ptr<const model::PagePicture> page_shown_;  ///< that it holds
    std::unique_ptr<WordPictures> words_;
    std::unique_ptr<render::SharedPicture> prompter_picture_;  ///< null: not drawn yet
    model::Model model_;
    model::Opener opener_;
    model::Actions actions_;
    ui::UiState ui_state_;
    model::QualitySteps quality_;
    MusicDesk music_;
    std::unique_ptr<model::LiveSolver> live_;  ///< null: nothing is written (pictures)
    std::unique_ptr<model::Keeper> keeper_;
    std::unique_ptr<model::MarginsDesk> margins_;  ///< null: as above
    model::Exporter exporter_;
    model::DebriefDesk debrief_desk_;
    std::unique_ptr<model::BriefDesk> brief_desk_;  ///< null: never looked at
    model::PrompterDesk prompter_desk_;
    model::WalkDesk walk_desk_;
    std::unique_ptr<model::RemarkDesk> remark_desk_;
    std::unique_ptr<model::TrendsDesk> trends_desk_;
    model::OpenWish wish_;       ///< opened last
    model::OpenWish plan_wish_;  ///< that the plan of a reviewed flight was opened by
    bool plan_is_new_ = false;   ///< it was never saved
    /// Where to look once the flight or its plan is there.
    struct {
        bool wanted = false;
        std::string figure;
        double in_it_s = 0;
    } return_to_;
    std::uint64_t asked_for_ = 0;  ///< state of the texts that the solver has
    variant::Wish asked_variant_;
    std::FILE* log_ = nullptr;
    double log_s_ = 0;
    bool quit_when_saved_ = false;
    int empty_frames_ = 0;              ///< drawn before there was anything to show
    std::uint64_t model_revision_ = 0;  ///< of the shown thing whose aircraft is loaded
    std::string model_file_;            ///< the aircraft's model now; empty: the built-in one
};

}  // namespace plumbline::app
