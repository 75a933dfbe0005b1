#pragma once
// Fingers are wide: what each frame offers to be pressed, so that a tap beside a small thing still
// means it, and what a finger scrolls.

#include <vector>

#include "viewer/ui/layout.h"

namespace plumbline::ui {

struct Targets {
    std::vector<Rect> pressed;   ///< in the order in which they take a press
    std::vector<Rect> scrolled;  ///< by a wheel
};

/// Of the frame drawn last, or as far as the one being drawn has come.
Targets& targets();

struct Place {
    float x = 0;
    float y = 0;
    bool operator==(const Place&) const = default;
};

/// Where a finger that came down there is meant to be: inside the nearest small thing that, at
/// least `least_px` wide and high, holds it; there, where nothing small is.
Place meantBy(const Targets& targets, Place finger, float least_px);

/// A finger that moves up or down there scrolls.
bool scrolls(const Targets& targets, Place finger);

}  // namespace plumbline::ui
