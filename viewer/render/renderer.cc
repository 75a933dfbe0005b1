#include "viewer/render/renderer.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstring>

#include <glad/gl.h>

#include "viewer/render/aircraft.h"
#include "viewer/render/airfield.h"
#include "viewer/render/bands.h"
#include "viewer/render/crowd.h"
#include "viewer/render/enlarged.h"
#include "viewer/render/frame.h"
#include "viewer/render/gl_objects.h"
#include "viewer/render/ground.h"
#include "viewer/render/landscape.h"
#include "viewer/render/lines.h"
#include "viewer/render/sky.h"
#include "viewer/render/smoke.h"
#include "viewer/render/trees.h"

namespace plumbline::render {
namespace {

/// True for a driver that draws on the processor: multisampling there costs more than it gives.
bool isSoftwareDriver() {
    const char* renderer = reinterpret_cast<const char*>(glGetString(GL_RENDERER));
    if (renderer == nullptr) return true;
    for (const char* name : {"llvmpipe", "softpipe", "SwiftShader", "Software", "GDI Generic"}) {
        if (std::strstr(renderer, name) != nullptr) return true;
    }
    return false;
}

class GlRenderer final : public Renderer {
public:
    explicit GlRenderer(std::string& problem)
        : block_(sizeof(FrameBlock)),
          software_(isSoftwareDriver()),
          sky_(problem),
          ground_(problem),
          airfield_(problem),
          trees_(problem),
          crowd_(problem),
          aircraft_(problem),
          bands_(problem),
          smoke_(problem),
          lines_(problem),
          smaller_(problem) {}

    void prepare() override {}

    void draw(const scene::DrawList& list, int x, int y, int width_px, int height_px) override {
        if (width_px < 1 || height_px < 1) return;
        GLint bound = 0;
        glGetIntegerv(GL_DRAW_FRAMEBUFFER_BINDING, &bound);
        const int samples = samplesFor(list.quality);
        if (samples > 0) {
            if (multisampled_.width() != width_px || multisampled_.height() != height_px) {
                multisampled_ = Target(width_px, height_px, samples);
            }
            drawInto(list, multisampled_.name(), 0, 0, width_px, height_px);
            std::uint32_t from = multisampled_.name();
            if (es_) from = resolved(width_px, height_px);
            glBindFramebuffer(GL_READ_FRAMEBUFFER, from);
            glBindFramebuffer(GL_DRAW_FRAMEBUFFER, static_cast<std::uint32_t>(bound));
            glBlitFramebuffer(0, 0, width_px, height_px, x, y, x + width_px, y + height_px,
                              GL_COLOR_BUFFER_BIT, GL_NEAREST);
        } else if (list.render_scale < 0.99F) {
            const int small_width = std::max(
                1, static_cast<int>(std::lround(static_cast<float>(width_px) * list.render_scale)));
            const int small_height = std::max(
                1,
                static_cast<int>(std::lround(static_cast<float>(height_px) * list.render_scale)));
            const std::uint32_t smaller = smaller_.target(small_width, small_height).name();
            drawInto(list, smaller, 0, 0, small_width, small_height);
            smaller_.show(static_cast<std::uint32_t>(bound), x, y, width_px, height_px);
        } else {
            drawInto(list, static_cast<std::uint32_t>(bound), x, y, width_px, height_px);
        }
        glBindFramebuffer(GL_FRAMEBUFFER, static_cast<std::uint32_t>(bound));
        glBindVertexArray(0);
        glUseProgram(0);
        glActiveTexture(GL_TEXTURE0);
    }

    Image drawImage(const scene::DrawList& list, int width_px, int height_px) override {
        Image image;
        if (width_px < 1 || height_px < 1) return image;
        GLint bound = 0;
        glGetIntegerv(GL_DRAW_FRAMEBUFFER_BINDING, &bound);
        if (offscreen_.width() != width_px || offscreen_.height() != height_px) {
            offscreen_ = Target(width_px, height_px, 0);
        }
        offscreen_.bind();
        draw(list, 0, 0, width_px, height_px);
        glBindFramebuffer(GL_READ_FRAMEBUFFER, offscreen_.name());
        const std::size_t row = static_cast<std::size_t>(width_px) * 4;
        std::vector<std::uint8_t> bottom_up(row * static_cast<std::size_t>(height_px));
        glPixelStorei(GL_PACK_ALIGNMENT, 1);
        glReadPixels(0, 0, width_px, height_px, GL_RGBA, GL_UNSIGNED_BYTE, bottom_up.data());
        glBindFramebuffer(GL_FRAMEBUFFER, static_cast<std::uint32_t>(bound));
        image.width_px = width_px;
        image.height_px = height_px;
        image.rgba.resize(bottom_up.size());
        for (int r = 0; r < height_px; ++r) {
            const auto from = static_cast<std::size_t>(height_px - 1 - r) * row;
            std::copy_n(bottom_up.begin() + static_cast<std::ptrdiff_t>(from), row,
                        image.rgba.begin() +
                            static_cast<std::ptrdiff_t>(static_cast<std::size_t>(r) * row));
        }
        for (std::size_t i = 3; i < image.rgba.size(); i += 4) image.rgba[i] = 255;
        return image;
    }

    int pendingWork() const override { return sky_.pendingWork() + ground_.pendingWork(); }

    void finishWork(const scene::DrawList& list) override {
        GLint bound = 0;
        glGetIntegerv(GL_DRAW_FRAMEBUFFER_BINDING, &bound);
        takeWorld(list);
        const Frame frame = makeFrame(list, 64, 64);
        block_.upload(&frame.block, sizeof(FrameBlock));
        while (pendingWork() > 0) workOnce();
        glBindFramebuffer(GL_FRAMEBUFFER, static_cast<std::uint32_t>(bound));
    }

    Expected<bool, std::string> setAircraftModel(const std::uint8_t* bytes, std::size_t size,
                                                 const std::string& folder,
                                                 const ModelAxes& axes) override {
        auto model = readAircraftModel(bytes, size, folder, axes);
        if (!model) return Unexpected<std::string>(model.error());
        aircraft_.setModel(std::move(model).value());
        return true;
    }

private:
    int samplesFor(scene::Quality quality) const {
        // On the processor four samples double the cost of a frame: for still pictures only.
        if (software_) return quality == scene::Quality::High ? 4 : 0;
        if (quality == scene::Quality::Low) return 0;
        return quality == scene::Quality::High ? 8 : 4;
    }

    /// OpenGL ES 3.0 (4.3.2) brings samples together only in a buffer of the same form and place.
    std::uint32_t resolved(int width_px, int height_px) {
        if (resolved_.width() != width_px || resolved_.height() != height_px) {
            resolved_ = Target(width_px, height_px, 0);
        }
        glBindFramebuffer(GL_READ_FRAMEBUFFER, multisampled_.name());
        glBindFramebuffer(GL_DRAW_FRAMEBUFFER, resolved_.name());
        glBlitFramebuffer(0, 0, width_px, height_px, 0, 0, width_px, height_px, GL_COLOR_BUFFER_BIT,
                          GL_NEAREST);
        return resolved_.name();
    }

    void takeWorld(const scene::DrawList& list) {
        if (!list.world || (has_world_ && list.world->revision == world_revision_)) return;
        world_revision_ = list.world->revision;
        has_world_ = true;
        const Landscape landscape = makeLandscape(*list.world);
        // A browser without a graphics card would bake the large ones for half a minute.
        const bool low = list.quality == scene::Quality::Low || (software_ && es_);
        ground_.setLandscape(landscape, *list.world, low ? 1024 : 2048);
        airfield_.setLandscape(landscape, *list.world);
        trees_.setLandscape(landscape);
        crowd_.setLandscape(landscape);
        sky_.setWorld(*list.world, low ? 512 : 1024);
    }

    void workOnce() {
        if (ground_.pendingWork() > 0) {
            ground_.work();
        } else {
            sky_.work();
        }
    }

    void drawInto(const scene::DrawList& list, std::uint32_t framebuffer, int x, int y,
                  int width_px, int height_px) {
        takeWorld(list);
        Frame frame = makeFrame(list, width_px, height_px);
        frame.framebuffer = framebuffer;
        frame.x_px = x;
        frame.y_px = y;
        block_.upload(&frame.block, sizeof(FrameBlock));
        if (pendingWork() > 0) workOnce();
        const bool outside = list.show_aircraft && !list.aircraft.hidden && !list.aircraft.cockpit;
        if (outside) aircraft_.prepare(frame, list.aircraft);

        glBindFramebuffer(GL_FRAMEBUFFER, framebuffer);
        glViewport(x, y, width_px, height_px);
        glEnable(GL_SCISSOR_TEST);
        glScissor(x, y, width_px, height_px);
        glClearColor(frame.light.horizon.r, frame.light.horizon.g, frame.light.horizon.b, 1);
        glDepthMask(GL_TRUE);
        glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
        glDisable(GL_SCISSOR_TEST);
        if (!frame.orthographic) sky_.draw(frame);
        ground_.draw(frame);
        airfield_.drawPavements(frame);
        lines_.begin(frame);
        for (const scene::Polyline& line : list.lines) {
            if (line.on_ground) lines_.addPolyline(line);
        }
        lines_.flush(false);
        if (outside) aircraft_.drawShadow(frame, list.aircraft);

        airfield_.drawStanding(frame);
        trees_.draw(frame);
        bands_.drawFills(frame);
        if (outside) aircraft_.draw(frame, list.aircraft);
        if (list.show_crowd) crowd_.draw(frame);
        if (list.show_ghost && !list.ghost.hidden) drawGhost(frame, list.ghost);
        smoke_.draw(frame);
        drawAirLines(frame);
        if (list.show_aircraft && !list.aircraft.hidden && list.aircraft.cockpit) {
            aircraft_.drawCockpit(frame, list.aircraft);
            for (const scene::Polyline& line : list.lines) {
                if (line.inside) lines_.addPolyline(line);
            }
            lines_.flush(false);
        }
    }

    /// The painter's tile serves one pose at a time.
    void drawGhost(const Frame& frame, const scene::AircraftPose& ghost) {
        aircraft_.prepare(frame, ghost);
        glBindFramebuffer(GL_FRAMEBUFFER, frame.framebuffer);
        glViewport(frame.x_px, frame.y_px, frame.width_px, frame.height_px);
        aircraft_.draw(frame, ghost);
    }

    void drawAirLines(const Frame& frame) {
        BandPainter::addLines(frame, lines_);
        for (const scene::Polyline& line : frame.list->lines) {
            if (!line.on_ground && line.depth_test && !line.inside) lines_.addPolyline(line);
        }
        lines_.flush(true);
        for (const scene::Polyline& line : frame.list->lines) {
            if (!line.on_ground && !line.depth_test && !line.inside) lines_.addPolyline(line);
        }
        for (const scene::Bob& bob : frame.list->bobs) lines_.addBob(bob);
        lines_.flush(false);
    }

    UniformBlock block_;
    bool software_;
    bool es_ = isEs();
    Sky sky_;
    Ground ground_;
    AirfieldPainter airfield_;
    TreePainter trees_;
    CrowdPainter crowd_;
    AircraftPainter aircraft_;
    BandPainter bands_;
    SmokePainter smoke_;
    LinePainter lines_;
    Target multisampled_;
    Target resolved_;
    Enlarged smaller_;
    Target offscreen_;
    std::uint64_t world_revision_ = 0;
    bool has_world_ = false;
};

/// Makes the whole renderer when it is first needed: its shaders and small pictures take longer
/// than a window takes to open, and that shows nothing of them at first.
class LateRenderer final : public Renderer {
public:
    void prepare() override { ready(); }
    void draw(const scene::DrawList& list, int x, int y, int width_px, int height_px) override {
        if (ready()) made_->draw(list, x, y, width_px, height_px);
    }
    Image drawImage(const scene::DrawList& list, int width_px, int height_px) override {
        return ready() ? made_->drawImage(list, width_px, height_px) : Image();
    }
    int pendingWork() const override { return made_ ? made_->pendingWork() : 0; }
    void finishWork(const scene::DrawList& list) override {
        if (ready()) made_->finishWork(list);
    }
    Expected<bool, std::string> setAircraftModel(const std::uint8_t* bytes, std::size_t size,
                                                 const std::string& folder,
                                                 const ModelAxes& axes) override {
        if (!ready()) return Unexpected<std::string>(problem_);
        return made_->setAircraftModel(bytes, size, folder, axes);
    }

private:
    bool ready() {
        if (made_ || !problem_.empty()) return made_ != nullptr;
        GLint bound = 0;
        glGetIntegerv(GL_DRAW_FRAMEBUFFER_BINDING, &bound);
        auto made = std::make_unique<GlRenderer>(problem_);
        glBindFramebuffer(GL_FRAMEBUFFER, static_cast<std::uint32_t>(bound));
        if (problem_.empty()) {
            made_ = std::move(made);
        } else {
            std::fprintf(stderr, "plumbline: %s\n", problem_.c_str());
        }
        return made_ != nullptr;
    }

    std::unique_ptr<GlRenderer> made_;
    std::string problem_;
};

GLADapiproc loadThrough(void* user, const char* name) {
    using Load = void* (*)(const char*);
    return reinterpret_cast<GLADapiproc>((*static_cast<Load*>(user))(name));
}

}  // namespace

Expected<std::unique_ptr<Renderer>, std::string> Renderer::create(void* (*load)(const char*)) {
    const int version = gladLoadGLUserPtr(&loadThrough, &load);
    if (version == 0 || GLAD_VERSION_MAJOR(version) * 10 + GLAD_VERSION_MINOR(version) < 33) {
        return Unexpected<std::string>(
            "this graphics driver has no OpenGL 3.3: update it, or set LIBGL_ALWAYS_SOFTWARE=1 for "
            "the software driver");
    }
    return std::unique_ptr<Renderer>(std::make_unique<LateRenderer>());
}

}  // namespace plumbline::render
