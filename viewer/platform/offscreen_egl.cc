// Offscreen context through EGL: first Mesa's surfaceless platform (no display, no device node
// needed), then the EGL devices (a GPU's own driver), then the default display.

#include <array>
#include <cstdint>

#include <glad/egl.h>

#include "viewer/platform/surface.h"

namespace plumbline::platform {
namespace {

void* loadGl(const char* name) { return reinterpret_cast<void*>(eglGetProcAddress(name)); }

/// Unbinds and frees what was made of a display so far.
class EglOffscreen final : public Offscreen {
public:
    EglOffscreen(EGLDisplay display, EGLContext context) : display_(display), context_(context) {}
    EglOffscreen(const EglOffscreen&) = delete;
    EglOffscreen& operator=(const EglOffscreen&) = delete;
    ~EglOffscreen() override {
        eglMakeCurrent(display_, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
        eglDestroyContext(display_, context_);
        eglTerminate(display_);
    }
    GlLoader loader() const override { return &loadGl; }

private:
    EGLDisplay display_;
    EGLContext context_;
};

EGLContext createContext(EGLDisplay display) {
    const std::array<EGLint, 5> config_wish{EGL_RENDERABLE_TYPE, EGL_OPENGL_BIT, EGL_SURFACE_TYPE,
                                            0, EGL_NONE};
    EGLConfig config = nullptr;
    EGLint count = 0;
    if (eglChooseConfig(display, config_wish.data(), &config, 1, &count) == EGL_FALSE ||
        count < 1) {
        return EGL_NO_CONTEXT;
    }
    const std::array<EGLint, 7> context_wish{EGL_CONTEXT_MAJOR_VERSION,
                                             3,
                                             EGL_CONTEXT_MINOR_VERSION,
                                             3,
                                             EGL_CONTEXT_OPENGL_PROFILE_MASK,
                                             EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT,
                                             EGL_NONE};
    return eglCreateContext(display, config, EGL_NO_CONTEXT, context_wish.data());
}

/// A current context on this display, or null and the display let go.
std::unique_ptr<Offscreen> openOn(EGLDisplay display) {
    if (display == EGL_NO_DISPLAY) return nullptr;
    if (eglInitialize(display, nullptr, nullptr) == EGL_FALSE) return nullptr;
    gladLoaderLoadEGL(display);
    if (eglBindAPI(EGL_OPENGL_API) != EGL_FALSE) {
        const EGLContext context = createContext(display);
        if (context != EGL_NO_CONTEXT) {
            if (eglMakeCurrent(display, EGL_NO_SURFACE, EGL_NO_SURFACE, context) != EGL_FALSE) {
                return std::make_unique<EglOffscreen>(display, context);
            }
            eglDestroyContext(display, context);
        }
    }
    eglTerminate(display);
    return nullptr;
}

}  // namespace

Expected<std::unique_ptr<Offscreen>, std::string> Offscreen::create() {
    if (gladLoaderLoadEGL(EGL_NO_DISPLAY) == 0) {
        return Unexpected<std::string>(
            "no EGL library found: install libegl1 and libgl1-mesa-dri to draw without a display");
    }
    if (eglGetPlatformDisplayEXT != nullptr) {
        if (auto made = openOn(eglGetPlatformDisplayEXT(EGL_PLATFORM_SURFACELESS_MESA,
                                                        EGL_DEFAULT_DISPLAY, nullptr))) {
            return made;
        }
        if (eglQueryDevicesEXT != nullptr) {
            std::array<EGLDeviceEXT, 8> devices{};
            EGLint count = 0;
            eglQueryDevicesEXT(static_cast<EGLint>(devices.size()), devices.data(), &count);
            for (EGLint i = 0; i < count; ++i) {
                if (auto made = openOn(eglGetPlatformDisplayEXT(
                        EGL_PLATFORM_DEVICE_EXT, devices[static_cast<std::size_t>(i)], nullptr))) {
                    return made;
                }
            }
        }
    }
    if (auto made = openOn(eglGetDisplay(EGL_DEFAULT_DISPLAY))) return made;
    return Unexpected<std::string>(
        "no OpenGL 3.3 context without a display: install libgl1-mesa-dri (software driver) or the "
        "graphics card's driver");
}

}  // namespace plumbline::platform
