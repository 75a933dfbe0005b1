#pragma once
// What the changes since a moment do to the flight: figure by figure and as a whole.

#include <string>
#include <vector>

namespace plumbline::model {

struct Shown;

struct EditEffect {
    struct Figure {
        std::string name;
        double speed_mps = 0, height_m = 0;  ///< at its entry, now less before
    };
    std::vector<Figure> figures;              ///< of both flights, those whose entry has changed
    double time_s = 0;                        ///< of the whole, now less before
    double fuel_kg = 0;                       ///< left at the end, now less before
    std::vector<std::string> appeared, gone;  ///< findings, in words

    bool nothing() const {
        return figures.empty() && appeared.empty() && gone.empty() && time_s == 0;
    }
    const Figure* of(const std::string& name) const;
};

EditEffect compare(const Shown& before, const Shown& now);

}  // namespace plumbline::model
