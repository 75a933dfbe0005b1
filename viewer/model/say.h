#pragma once
// Messages to the person at the window.

#include <string>

namespace plumbline::model {

struct Model;

/// In place of the message that is shown, for as long as messages stay.
/// @param wrong  something could not be done
void say(Model& model, std::string text, bool wrong = false);

}  // namespace plumbline::model
