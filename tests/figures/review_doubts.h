#pragma once
// What a review states that its numbers may be off by, held against what they are off by.

#include <map>
#include <string>

#include "engine/review/review.h"

namespace plumbline::figures {

class Doubts {
public:
    /// Every number of a review beside the same of the flight as it was.
    void add(const review::Review& found, const review::Review& truth);
    /// A line for each kind: error, what is stated, how many are within twice that.
    void print() const;

private:
    struct Kind {
        double count = 0, square = 0, stated = 0, within = 0, sum = 0;
    };
    void hold(const char* name, double miss, double sigma);
    std::map<std::string, Kind> kinds_;
};

}  // namespace plumbline::figures
