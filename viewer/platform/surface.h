#pragma once
// A GL context with or without a window, behind one interface. All that differs by system is in
// this folder.

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "engine/base/expected.h"

namespace plumbline::platform {

/// Gives the address of a GL function of the current context.
using GlLoader = void* (*)(const char*);

/// Offscreen context: EGL without any display. Makes itself current.
class Offscreen {
public:
    /// @errors no EGL device; says which package is missing
    static Expected<std::unique_ptr<Offscreen>, std::string> create();
    virtual ~Offscreen() = default;
    virtual GlLoader loader() const = 0;
};

/// True when a window can be opened (a display is there).
bool displayAvailable();

}  // namespace plumbline::platform
