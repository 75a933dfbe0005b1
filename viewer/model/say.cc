#include "viewer/model/say.h"

#include <utility>

#include "viewer/model/model.h"

namespace plumbline::model {

void say(Model& model, std::string text, bool wrong) {
    model.message = {std::move(text), wrong, kMessage_s};
}

}  // namespace plumbline::model
