#pragma once
// Key codes as the app feeds them: characters of a US layout, then names. The app checks that they
// are those of the window.

namespace plumbline::model {

inline constexpr int kKeyEscape = 128;
inline constexpr int kKeyEnter = 129;
inline constexpr int kKeyTab = 130;
inline constexpr int kKeyBackspace = 131;
inline constexpr int kKeyInsert = 132;
inline constexpr int kKeyDelete = 133;
inline constexpr int kKeyRight = 134;
inline constexpr int kKeyLeft = 135;
inline constexpr int kKeyDown = 136;
inline constexpr int kKeyUp = 137;
inline constexpr int kKeyPageUp = 138;
inline constexpr int kKeyPageDown = 139;
inline constexpr int kKeyHome = 140;
inline constexpr int kKeyEnd = 141;
inline constexpr int kKeypadEnter = 142;
inline constexpr int kKeyF1 = 160;
inline constexpr int kKeyF2 = 161;
inline constexpr int kKeyF3 = 162;
inline constexpr int kKeyF4 = 163;
inline constexpr int kKeyF5 = 164;
inline constexpr int kKeyF6 = 165;
inline constexpr int kKeyF7 = 166;
inline constexpr int kKeyF8 = 167;
inline constexpr int kKeyF9 = 168;
inline constexpr int kKeyF11 = 170;

}  // namespace plumbline::model
