// A page in a browser makes no pages to print.

#include "viewer/model/debrief_desk.h"
#include "viewer/model/model.h"
#include "viewer/model/say.h"

namespace plumbline::model {

std::filesystem::path debriefFolder(const Shown&) { return {}; }

void DebriefDesk::begin(Model& model) {
    say(model,
        "The program on a computer makes the two pages: open this flight over its plan there",
        true);
}

void DebriefDesk::look(Model&) {}

}  // namespace plumbline::model
