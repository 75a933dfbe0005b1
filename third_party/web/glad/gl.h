#pragma once
// Under the name of the GL loader that other systems need: a browser's GL, whose functions are simply there.

#include <GLES3/gl3.h>

/* The name that a browser gives is its own; this is its driver's (WEBGL_debug_renderer_info, which the window asks for). */
#undef GL_RENDERER
#define GL_RENDERER 0x9246

typedef void (*GLADapiproc)(void);
#define GLAD_MAKE_VERSION(major, minor) ((major)*10000 + (minor))
#define GLAD_VERSION_MAJOR(version) ((version) / 10000)
#define GLAD_VERSION_MINOR(version) ((version) % 10000)

/// OpenGL ES 3.0, which has all of 3.3 that the picture uses.
static inline int gladLoadGLUserPtr(GLADapiproc (*load)(void*, const char*), void* user) {
    (void)load;
    (void)user;
    return GLAD_MAKE_VERSION(3, 3);
}
