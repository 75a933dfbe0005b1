#include "engine/season/trend_plot.h"

namespace plumbline::season {

const char* courseWords(Course course) {
    switch (course) {
        case Course::TooFew:
            return "too few to say";
        case Course::NoChange:
            return "no change to be seen";
        case Course::Better:
            return "better";
        case Course::Worse:
            return "worse";
        case Course::Up:
            return "rising";
        case Course::Down:
            return "falling";
    }
    return "";
}

}  // namespace plumbline::season
