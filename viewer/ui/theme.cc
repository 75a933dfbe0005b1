#include "viewer/ui/theme.h"

namespace plumbline::ui {
namespace {

Theme makeDark() {
    Theme t;
    t.under = colourOf(0x0d1315);
    t.surface = colourOf(0x141b1e);
    t.raised = colourOf(0x1c2528);
    t.line = colourOf(0x2d383c);
    t.edge = colourOf(0x6f7f80);
    t.ink = colourOf(0xefeadd);
    t.ink2 = colourOf(0xb3bdb9);
    t.ink3 = colourOf(0x8a9795);
    t.fill = colourOf(0xf5b335);
    t.on_fill = colourOf(0x141b1e);
    t.now = colourOf(0xf5b335);
    t.flight = colourOf(0x6db4ea);
    t.alarm = colourOf(0xff6b95);
    t.veil = colourOf(0x0d1315, 0.86);
    t.wheel_side = colourOf(0x8c93c4);  // lifted from the print's indigo: 3:1 on `surface`
    return t;
}

Theme makeLight() {
    Theme t;
    t.light = true;
    t.under = colourOf(0xe2dccb);
    t.surface = colourOf(0xf6f2e7);
    t.raised = colourOf(0xfffdf6);
    t.line = colourOf(0xcfc8b4);
    t.edge = colourOf(0x7d7a6a);
    t.ink = colourOf(0x131a1c);
    t.ink2 = colourOf(0x414a48);
    t.ink3 = colourOf(0x5d6561);
    t.fill = colourOf(0xf2a81d);
    t.on_fill = colourOf(0x131a1c);
    t.now = colourOf(0x8a4f00);
    t.flight = colourOf(0x0e5796);
    t.alarm = colourOf(0x9b0f50);
    t.veil = colourOf(0xf6f2e7, 0.93);
    t.wheel_side = colourOf(0x4a5596);
    t.hairline = 1.5F;
    return t;
}

}  // namespace

const Theme& themeOf(bool light) {
    static const Theme kDark = makeDark();
    static const Theme kLight = makeLight();
    return light ? kLight : kDark;
}

}  // namespace plumbline::ui
