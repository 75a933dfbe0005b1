#include "viewer/ui/fingers.h"

#include <algorithm>
#include <cmath>

namespace plumbline::ui {

Targets& targets() {
    static Targets of_frame;  // the toolkit has one frame at a time, too
    return of_frame;
}

Place meantBy(const Targets& targets, Place finger, float least_px) {
    Place best = finger;
    float nearest = least_px;  // farther than any that holds it
    for (const Rect& rect : targets.pressed) {
        const bool wide = rect.width >= least_px && rect.height >= least_px;
        if (rect.contains(finger.x, finger.y)) {
            // It would take the press: what comes behind it cannot be meant.
            return wide ? best : finger;
        }
        if (wide) continue;
        const float grow_x = std::max(0.0F, (least_px - rect.width) / 2);
        const float grow_y = std::max(0.0F, (least_px - rect.height) / 2);
        const Rect grown{rect.x - grow_x, rect.y - grow_y, rect.width + 2 * grow_x,
                         rect.height + 2 * grow_y};
        if (!grown.contains(finger.x, finger.y)) continue;
        const float inset = std::min({1.0F, rect.width / 2, rect.height / 2});
        const Place inside{std::clamp(finger.x, rect.x + inset, rect.right() - inset),
                           std::clamp(finger.y, rect.y + inset, rect.bottom() - inset)};
        const float distance = std::hypot(inside.x - finger.x, inside.y - finger.y);
        if (distance >= nearest) continue;
        nearest = distance;
        best = inside;
    }
    return best;
}

bool scrolls(const Targets& targets, Place finger) {
    return std::any_of(targets.scrolled.begin(), targets.scrolled.end(),
                       [&](const Rect& rect) { return rect.contains(finger.x, finger.y); });
}

}  // namespace plumbline::ui
