#pragma once
// DrawList -> framebuffer, with what OpenGL 3.3 core and OpenGL ES 3.0 share. The only folder that
// includes glad/gl.h.

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "engine/base/expected.h"
#include "viewer/render/aircraft_model.h"
#include "viewer/scene/draw_list.h"

namespace plumbline::render {

/// RGBA, rows top to bottom.
struct Image {
    int width_px = 0;
    int height_px = 0;
    std::vector<std::uint8_t> rgba;
};

/// Draws scenes in the current GL context. One per context; not copyable.
class Renderer {
public:
    /// @param load  GL function loader of the current context (platform::Surface::loader)
    /// @errors a GL older than 3.3; says what to do. A shader that does not compile is said on
    /// stderr at the first picture, which stays empty.
    static Expected<std::unique_ptr<Renderer>, std::string> create(void* (*load)(const char*));
    virtual ~Renderer() = default;

    /// Makes now what the first picture would make: shaders and small pictures.
    virtual void prepare() = 0;

    /// Draws into the framebuffer bound by the caller's context (0) in the given rectangle, origin
    /// bottom left, pixels.
    virtual void draw(const scene::DrawList& list, int x, int y, int width_px, int height_px) = 0;

    /// Draws into an offscreen target of this size and reads it back.
    virtual Image drawImage(const scene::DrawList& list, int width_px, int height_px) = 0;

    /// Frames still needed until every texture of the world is at its best (baked over several
    /// frames); 0: done.
    virtual int pendingWork() const = 0;
    /// Finishes all pending work now (offscreen pictures).
    virtual void finishWork(const scene::DrawList& list) = 0;

    /// Aircraft model: bytes of a .glb or .gltf; on failure the old one stays. @errors a sentence
    /// with the remedy (aircraft_model.h)
    virtual Expected<bool, std::string> setAircraftModel(const std::uint8_t* bytes,
                                                         std::size_t size,
                                                         const std::string& folder = "",
                                                         const ModelAxes& axes = {}) = 0;
};

}  // namespace plumbline::render
