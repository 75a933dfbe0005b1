#pragma once
// Key codes as the app feeds them: characters of a US layout, then names. The app checks that they
// are those of the window.

namespace plumbline::ui {

inline constexpr int kKeyEscape = 128;
inline constexpr int kKeyEnter = 129;
inline constexpr int kKeyRight = 134;
inline constexpr int kKeyLeft = 135;
inline constexpr int kKeyDown = 136;
inline constexpr int kKeyUp = 137;
inline constexpr int kKeyPageUp = 138;
inline constexpr int kKeyPageDown = 139;
inline constexpr int kKeyHome = 140;
inline constexpr int kKeyF1 = 160;
inline constexpr int kKeyF8 = 167;
inline constexpr int kKeyF11 = 170;

}  // namespace plumbline::ui
