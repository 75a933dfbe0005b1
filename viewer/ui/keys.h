#pragma once
// The key codes that panels ask for.

#include "viewer/model/key_codes.h"

namespace plumbline::ui {

using model::kKeyBackspace;
using model::kKeyDelete;
using model::kKeyDown;
using model::kKeyEnd;
using model::kKeyEnter;
using model::kKeyEscape;
using model::kKeyF1;
using model::kKeyF11;
using model::kKeyF5;
using model::kKeyF6;
using model::kKeyF8;
using model::kKeyHome;
using model::kKeyLeft;
using model::kKeypadEnter;
using model::kKeyPageDown;
using model::kKeyPageUp;
using model::kKeyRight;
using model::kKeyTab;
using model::kKeyUp;

}  // namespace plumbline::ui
