// A page in a browser keeps no book of the season.

#include "viewer/model/trends_desk.h"

namespace plumbline::model {

TrendsDesk::Outcome TrendsDesk::read(const std::filesystem::path&) {
    Outcome outcome;
    outcome.problem =
        "A page in a browser keeps no book of the season: the program on a computer does";
    return outcome;
}

}  // namespace plumbline::model
