// A page in a browser makes no pages to print.

#include "viewer/model/debrief_desk.h"
#include "viewer/model/model.h"

namespace plumbline::model {

std::filesystem::path debriefFolder(const Shown&) { return {}; }

void DebriefDesk::begin(Model& model) {
    model.message = Message();
    model.message.text =
        "The two pages are made by the program: open this flight over its plan there";
    model.message.wrong = true;
    model.message.left_s = kMessage_s;
}

void DebriefDesk::look(Model&) {}

}  // namespace plumbline::model
