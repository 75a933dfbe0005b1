#include "viewer/scene/strokes.h"

namespace plumbline::scene {

namespace {

constexpr float kAdvance = 0.72F, kGrid = 4, kWide = 4.4F;

/// Points on a grid 2 wide and 4 high, "x y" pairs as digits; a comma lifts the pen. Rows below the
/// line are written with a letter: a is -1.
const char* shapeOf(char c) {
    switch (c) {
        case '0':
            return "00202404 00";
        case '1':
            return "031410";
        case '2':
            return "042422020020";
        case '3':
            return "04242000,0222";
        case '4':
            return "140222,2420";
        case '5':
            return "240402222000";
        case '6':
            return "240400202202";
        case '7':
            return "042410";
        case '8':
            return "0020240400,0222";
        case '9':
            return "002024040222";
        case '-':
            return "0222";
        case ':':
            return "1112,1314";
        case '/':
            return "0024";
        case '%':
            return "0024,0304,2021";
        case 'C':
            return "24040020";
        case 'f':
            return "241410,0222";
        case 'g':
            return "23030020232a0a";
        case 'h':
            return "0400,022220";
        case 'k':
            return "0400,230120";
        case 'l':
            return "1410";
        case 'm':
            return "00031310,132320";
        case 's':
            return "230302222000";
        case 't':
            return "141020,0323";
        default:
            return "";
    }
}

}  // namespace

std::vector<Stroke2> strokesOf(std::string_view text) {
    std::vector<Stroke2> strokes;
    float left = 0;
    for (const char c : text) {
        Stroke2 stroke;
        const auto lift = [&] {
            if (stroke.size() > 1) strokes.push_back(stroke);
            stroke.clear();
        };
        float x = -1;
        for (const char* p = shapeOf(c); *p != '\0'; ++p) {
            if (*p == ' ') continue;
            if (*p == ',') {
                lift();
                continue;
            }
            const float value = *p >= 'a' ? -1 : static_cast<float>(*p - '0');
            if (x < 0) {
                x = value;
            } else {
                stroke.emplace_back(left + x / kWide, value / kGrid);
                x = -1;
            }
        }
        lift();
        left += kAdvance;
    }
    return strokes;
}

float strokesWidth(std::string_view text) {
    return text.empty() ? 0 : static_cast<float>(text.size()) * kAdvance - (kAdvance - 2 / kWide);
}

}  // namespace plumbline::scene
