#include "viewer/app/stage.h"

#include <algorithm>
#include <cmath>

#include <imgui.h>

#include "engine/out/flight.h"
#include "engine/system/whole_file.h"
#include "viewer/scene/build.h"
#include "viewer/ui/prompter_parts.h"
#include "viewer/ui/quantity_text.h"

namespace plumbline::app {
namespace {

/// What is shown, with the instruments in the person's units. Where time stands still, all of a
/// figure that is written or reviewed.
scene::Marks marksOf(const model::Model& model) {
    const model::Session& session = model.session;
    if (model.prompter.on) {  // as the crowd sees it
        scene::Marks plain;
        plain.band = plain.to_come = plain.thread = plain.lines = plain.floor = plain.gates =
            plain.sighting = false;
        return plain;
    }
    scene::Marks marks = session.marks;
    const bool still = !model.clock.playing() && model.shown;
    if (still && (model.editor.writing || model.shown->review)) {
        const std::int32_t row = model::rowAt(model.shown->outline, model.clock.time_s());
        if (row >= 0) {
            const model::OutlineRow& figure = model.shown->outline[static_cast<std::size_t>(row)];
            const double now_s = model.clock.time_s();
            marks.band_behind_s = std::max(marks.band_behind_s, now_s - figure.start_s);
            marks.to_come_s = std::max(marks.to_come_s, figure.stop_s - now_s);
        }
    }
    static_assert(static_cast<int>(model::UnitChoice::Feet) ==
                  static_cast<int>(scene::DialUnits::Feet));
    marks.dial_units = static_cast<scene::DialUnits>(session.units);
    return marks;
}

/// Below this the aircraft is a dot and the long lens opens by itself.
constexpr double kDot_px = 12;

double spanInPixels(const scene::Camera& camera, const scene::AircraftPose& pose,
                    double height_px) {
    const double distance_m = glm::length(pose.position_S_m - camera.eye_S_m);
    if (camera.orthographic) return pose.span_m / (2 * camera.half_height_m) * height_px;
    return scene::apparentAngle(pose.span_m, distance_m) /
           (2 * std::tan(camera.vertical_fov_rad / 2)) * height_px;
}

/// Which insets are shown, and where.
void placeInsets(const ui::Layout& layout, const model::Session& session,
                 const scene::DrawList& list, ui::PictureInfo& info) {
    const bool second_wanted = session.second_place != model::SecondPlace::None;
    if (layout.second.width > 0) {
        info.second = true;
        info.second_rect = layout.second;
        info.map = layout.inset_count > 0;
        info.map_rect = layout.insets[0];
        return;
    }
    const bool judge = session.reviewing && !session.second_chosen && second_wanted &&
                       session.view.view != scene::View::Judge && layout.left_inset.width > 0;
    if (judge) {
        info.second = true;
        info.second_rect = layout.left_inset;
        info.map = layout.inset_count > 0;
        info.map_rect = layout.insets[0];
        return;
    }
    if (layout.inset_count == 0) return;
    info.map_rect = layout.insets[0];
    if (layout.inset_count == 1) {
        // The one place goes to the second view when it was asked for, or when the aircraft is a
        // dot.
        const bool dot = spanInPixels(list.camera, list.aircraft,
                                      static_cast<double>(layout.picture.height)) < kDot_px;
        info.second = second_wanted && (dot || session.second_chosen);
        info.map = !info.second;
        info.second_rect = layout.insets[0];
        return;
    }
    info.map = true;
    info.second = second_wanted;
    info.second_rect = layout.insets[1];
}

/// What stands under a second view: short, as it is small.
std::string secondCaption(const scene::ViewSettings& view, const scene::ViewCaption& caption,
                          bool large) {
    if (large) return caption.where;
    std::string word = scene::viewWord(view.view);
    word[0] = static_cast<char>(word[0] - 'a' + 'A');
    const bool lens = view.view == scene::View::Crowd || view.view == scene::View::Judge;
    return lens ? word + ", " + ui::wholeText(view.lens_mm) + " mm" : word;
}

/// The crowd's own view, led by the aircraft.
scene::ViewSettings crowdViewOf(const model::Session& session) {
    scene::ViewSettings view = session.view;
    constexpr double kLens_mm = 135;  // chosen: small as the picture is, how it flies is seen
    view.view = scene::View::Crowd;
    view.follow = true;
    view.lens_mm = kLens_mm;
    return view;
}

/// The path is not that of the text: it stands back.
void fadeBands(scene::DrawList& list) {
    for (scene::Band& band : list.bands) {
        for (scene::BandVertex& vertex : band.vertices) vertex.colour.a *= 0.5F;
    }
}

}  // namespace

Stage::Stage() = default;

Stage::~Stage() { ImGui::DestroyContext(); }

Expected<std::unique_ptr<Stage>, std::string> Stage::create(platform::GlLoader load) {
    auto renderer = render::Renderer::create(load);
    if (!renderer) return Unexpected<std::string>(renderer.error());
    std::unique_ptr<Stage> stage(new Stage());
    stage->renderer_ = std::move(renderer).value();
    stage->model_file_ = "?";  // none yet, not even the built-in one

    ImGui::CreateContext();
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.LogFilename = nullptr;
    io.ConfigWindowsMoveFromTitleBarOnly = true;
#if IMGUI_VERSION_NUM >= 18700
    // Else it would guess that from the first key, and miss modifiers that came before.
    io.BackendUsingLegacyKeyArrays = 1;
#endif
    io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
    std::string problem;
    stage->panels_ = std::make_unique<PanelLists>(problem);
    if (!problem.empty()) return Unexpected<std::string>(problem);
    // The toolkit asks that its own font is there.
    unsigned char* unused = nullptr;
    int width = 0, height = 0;
    io.Fonts->GetTexDataAsAlpha8(&unused, &width, &height);
    // All marks, the toolkit's own as well, take their texels from our atlas.
    stage->glyphs_ = std::make_unique<ui::Glyphs>();
    stage->words_ = std::make_unique<WordPictures>();
    stage->texture_ = std::make_unique<render::GlyphTexture>(ui::Glyphs::kSize);
    io.Fonts->SetTexID(
        reinterpret_cast<ImTextureID>(static_cast<std::intptr_t>(stage->texture_->name())));
    io.Fonts->TexUvWhitePixel = ImVec2(2.0F / ui::Glyphs::kSize, 2.0F / ui::Glyphs::kSize);
    return stage;
}

void Stage::takeAircraftModel() {
    if (!model_.shown || model_revision_ == model_.shown->revision) return;
    model_revision_ = model_.shown->revision;
    const std::string wish = model_.shown->source.aircraft->model_file;
    const data::Aircraft& shown = *model_.shown->source.aircraft;
    const std::string with_axes = wish + " " + shown.model_nose + " " + shown.model_up;
    if (with_axes == model_file_) return;
    model_file_ = with_axes;
    std::string failure;
    if (!wish.empty()) {
        const system::ReadFile read = system::readWholeFile(wish);
        if (read.bytes) {
            auto taken = renderer_->setAircraftModel(
                reinterpret_cast<const std::uint8_t*>(read.bytes->data()), read.bytes->size(),
                std::filesystem::path(wish).parent_path().string(),
                {shown.model_nose, shown.model_up});
            if (taken) return;
            failure = taken.error();
        } else {
            failure = read.reason;
        }
        model_.message.text = "The aircraft's model " + wish + " cannot be used (" + failure +
                              "): the built-in aircraft is shown";
        model_.message.wrong = true;
        model_.message.left_s = model::kMessage_s;
    }
    const std::string_view bytes = *out::embeddedModel("aircraft.glb");
    const auto built_in = renderer_->setAircraftModel(
        reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
    if (!built_in) {
        model_.message.text = built_in.error();
        model_.message.wrong = true;
    }
}

void Stage::finishWork() {
    if (!model_.shown) return;
    takeAircraftModel();
    const scene::DrawList list =
        scene::buildDrawList(model_.shown->source, model_.session.view, marksOf(model_),
                             model_.clock.time_s(), 640, 360);
    renderer_->finishWork(list);
}

void Stage::finishUi() {
    ImGui::Render();
    const ui::Glyphs::Rows rows = glyphs_->takeChanged();
    texture_->upload(glyphs_->texels(), rows.first, rows.count);
}

void Stage::drawShot(int width_px, int height_px, const ui::BurntIn& burnt,
                     scene::Quality quality) {
    if (!model_.shown) return;
    scene::DrawList list =
        scene::buildDrawList(model_.shown->source, model_.session.view, marksOf(model_),
                             model_.clock.time_s(), width_px, height_px);
    list.quality = quality;
    renderer_->draw(list, 0, 0, width_px, height_px);
    if (!burnt.cues && !burnt.numbers) return;
    ImGuiIO& io = ImGui::GetIO();
    io.DisplaySize = ImVec2(static_cast<float>(width_px), static_cast<float>(height_px));
    io.DeltaTime = 0.04F;
    glyphs_->renewIfFull();
    ImGui::NewFrame();
    ui::drawBurntIn(model_, list, burnt, static_cast<float>(width_px),
                    static_cast<float>(height_px), *glyphs_, actions_);
    finishUi();
    panels_->drawFrame(width_px, height_px);
}

std::uint32_t Stage::drawPrompterWords(int width_px, int height_px, double pixel_ratio) {
    if (!prompter_picture_ || prompter_picture_->width() != width_px ||
        prompter_picture_->height() != height_px) {
        prompter_picture_ = std::make_unique<render::SharedPicture>(width_px, height_px);
    }
    const ui::Theme& theme = ui::themeOf(model_.session.theme == model::ThemeChoice::Light);
    const auto width = static_cast<float>(width_px), height = static_cast<float>(height_px);
    // A list of its own beside those of the frame that was just drawn.
    ImDrawList list(ImGui::GetDrawListSharedData());
    list._ResetForNewFrame();
    list.PushTextureID(ImGui::GetIO().Fonts->TexID);
    list.PushClipRect(ImVec2(0, 0), ImVec2(width, height));
    const ui::Canvas canvas(&list, theme, *glyphs_,
                            static_cast<float>(model_.session.ui_scale * pixel_ratio));
    if (model_.shown) {
        ui::drawPromptText(canvas, model_, ui::promptNow(model_), ui::Rect{0, 0, width, height},
                           true, words_.get());
    }
    const ui::Glyphs::Rows rows = glyphs_->takeChanged();
    texture_->upload(glyphs_->texels(), rows.first, rows.count);
    prompter_picture_->bind();
    const ImVec4 under = ImGui::ColorConvertU32ToFloat4(theme.under);
    render::clearPicture(width_px, height_px, under.x, under.y, under.z);
    panels_->drawOne(list, width_px, height_px);
    prompter_picture_->drawn();
    return prompter_picture_->name();
}

void Stage::drawScene(const ui::Layout& layout, const scene::DrawList& list,
                      const scene::DrawList& second, const ui::PictureInfo& info, int height_px) {
    const auto draw = [&](const scene::DrawList& what, const ui::Rect& rect) {
        const int bottom = height_px - static_cast<int>(rect.bottom());
        renderer_->draw(what, static_cast<int>(rect.x), bottom, static_cast<int>(rect.width),
                        static_cast<int>(rect.height));
    };
    draw(list, layout.picture);
    if (info.second) draw(second, info.second_rect);
}

model::BriefDesk& Stage::briefDesk() {
    if (!brief_desk_) brief_desk_ = std::make_unique<model::BriefDesk>();
    return *brief_desk_;
}

/// The page beside the picture: asked for, and into a texture when it is there.
void Stage::showBrief(const ui::Layout& layout, double elapsed_s, ui::PictureInfo& info) {
    if (!model_.brief.on && !brief_desk_) return;
    const ui::Rect room = ui::pageRoom(layout);
    briefDesk().frame(model_, elapsed_s, static_cast<double>(room.width),
                      static_cast<double>(room.height));
    // A picture of the window is made at once.
    if (elapsed_s <= 0 && model_.brief.on && layout.brief.width > 0) {
        briefDesk().finish(model_, static_cast<double>(room.width),
                           static_cast<double>(room.height));
    }
    const auto& picture = model_.brief.picture;
    if (!picture || picture->picture.width == 0) return;
    if (page_shown_ != picture) {
        if (!page_texture_) page_texture_ = std::make_unique<render::PictureTexture>();
        page_texture_->upload(picture->picture.width, picture->picture.height,
                              picture->picture.rgba.data());
        page_shown_ = picture;
    }
    info.page = reinterpret_cast<ImTextureID>(static_cast<std::intptr_t>(page_texture_->name()));
}

void Stage::frame(int width_px, int height_px, double pixel_ratio, double elapsed_s) {
    log_s_ += elapsed_s;
    takeOpened();
    applyActions();
    if (keeper_) keeper_->tick(model_, elapsed_s);
    if (remark_desk_) remark_desk_->look(model_);
    if (trends_desk_) trends_desk_->frame(model_);
    fly();
    if (margins_) margins_->frame(model_, elapsed_s);
    // The window is there; while the routine is still being flown, the pictures' part gets ready.
    if (!model_.shown && ++empty_frames_ == 2) renderer_->prepare();
    takeAircraftModel();
    prompter_desk_.frame(model_);
    walk_desk_.frame(model_);
    model::advance(model_, elapsed_s);
    music_.frame(model_);
    const bool prompter = model_.prompter.on && model_.shown;

    ui::LayoutWish wish;
    const model::Session& session = model_.session;
    wish.scale = static_cast<float>(session.ui_scale * pixel_ratio);
    wish.start_panel = model_.start_panel;
    wish.sheet_folded = session.sheet_folded || !model_.shown;
    wish.timeline_folded = session.timeline_folded;
    wish.picture_only = session.picture_only || !model_.shown;
    wish.mending = model_.shown && model_.shown->review && !session.mending_folded;
    wish.brief = model_.brief.on && model_.shown;
    wish.brief_note = wish.brief && !model::briefFault(model_).empty();
    wish.beside = session.second_place == model::SecondPlace::Beside && model_.shown != nullptr;
    wish.sheet_width = static_cast<float>(session.sheet_width);
    wish.timeline_height = static_cast<float>(session.timeline_height);
    wish.beside = wish.beside && !wish.brief;  // three columns are enough
    const bool low = ui::lowTimeline(static_cast<float>(height_px), wish);
    model_.session.low_timeline = low;
    wish.lanes_height = model::lanesHeight(
        model::shownLanes(session.lane_wishes, model::laneSituation(model_)), low);
    const auto width = static_cast<float>(width_px), height_of_all = static_cast<float>(height_px);
    const ui::Layout layout =
        prompter ? ui::layoutOf(ui::prompterLayoutOf(width, height_of_all, wish.scale))
                 : ui::layoutOf(width, height_of_all, wish);
    const scene::ViewSettings first_view = prompter ? crowdViewOf(session) : session.view;

    scene::DrawList list, second;
    ui::PictureInfo info;
    if (model_.shown) {
        scene::SceneSource source = model_.shown->source;
        const model::Margins& margins = model_.margins;
        if (margins.report && !margins.old(*model_.shown))
            source.fan = std::make_shared<const scene::Fan>(margins.report->ways);
        source.said = model_.remarks.notes;
        const double time_s = model_.clock.time_s();
        list = scene::buildDrawList(source, first_view, marksOf(model_), time_s,
                                    static_cast<int>(layout.picture.width),
                                    static_cast<int>(layout.picture.height));
        // What is baked once says nothing of the frames to come.
        const bool usual = renderer_->pendingWork() == 0;
        if (usual && model_.clock.playing() && elapsed_s > 0) quality_.frameTook(elapsed_s);
        quality_.applyTo(list);
        if (model_.editor.wrong_s > 0) fadeBands(list);
        info.list = &list;
        const auto height = [&session](double height_m) {
            return ui::heightText(height_m, session.units).joined();
        };
        info.caption = scene::captionAt(first_view, list.camera, *source.path, *source.aircraft,
                                        time_s, *source.world, height);
        if (!prompter) placeInsets(layout, session, list, info);
        const scene::ViewSettings view = model::secondViewOf(session);
        if (info.second) {
            second = scene::buildDrawList(source, view, marksOf(model_), time_s,
                                          static_cast<int>(info.second_rect.width),
                                          static_cast<int>(info.second_rect.height));
            quality_.applyTo(second);
            info.second_list = &second;
            const std::string seen = session.reviewing && view.view == scene::View::Judge
                                         ? model::judgeSees(*model_.shown->review, time_s)
                                         : std::string();
            info.second_caption =
                !seen.empty() ? seen
                              : secondCaption(view,
                                              scene::captionAt(view, second.camera, *source.path,
                                                               *source.aircraft, time_s,
                                                               *source.world, height),
                                              layout.second.width > 0);
        } else {
            info.second = false;
        }
    }

    showBrief(layout, elapsed_s, info);
    ImGuiIO& io = ImGui::GetIO();
    io.DisplaySize = ImVec2(static_cast<float>(width_px), static_cast<float>(height_px));
    io.DeltaTime = static_cast<float>(std::max(elapsed_s, 1e-4));
    glyphs_->renewIfFull();
    if (model_.brief.fonts) glyphs_->useFonts(model_.brief.fonts);
    info.setter = words_.get();
    words_->begin(session.fonts);
    ImGui::NewFrame();
    ui::drawUi(model_, layout, info, ui_state_, *glyphs_, actions_);
    finishUi();

    const ImVec4 under = ImGui::ColorConvertU32ToFloat4(
        ui::themeOf(session.theme == model::ThemeChoice::Light).under);
    render::clearPicture(width_px, height_px, under.x, under.y, under.z);
    if (model_.shown) drawScene(layout, list, second, info, height_px);
    panels_->drawFrame(width_px, height_px);
}

}  // namespace plumbline::app
