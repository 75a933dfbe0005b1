#pragma once
// Sorties made up for the books.

#include <string>

#include "engine/season/sorties.h"

namespace plumbline::test {

inline season::Sortie madeSortie(const std::string& key, std::int64_t flown_utc_s) {
    season::Sortie s;
    s.key = key;
    s.name = key + ".csv";
    s.flown_utc_s = flown_utc_s;
    s.added_utc_s = flown_utc_s + 600;
    s.site = "Field";
    s.airframe = "X-AAA";
    s.flown_s = 600;
    s.full_power_s = 120.5;
    s.fuel_kg = 20;
    s.loads.emplace();
    s.loads->most_g = 6.5;
    s.loads->least_g = -3;
    s.loads->levels = {{-1, 2.5, 3}, {4, 10, 7}};
    s.loads->cycles = {{2, 1.5, 4}, {9, 2, 1.5}};
    s.loads->push_pulls = {{30, -2, 5}};
    season::FlownFigure loop;
    loop.name = "Loop";
    loop.start_s = 10;
    loop.stop_s = 20;
    loop.measures = {{"", "lowest", 100, 2.0, 110.0}};
    s.figures = {loop, loop};
    s.figures[1].again = true;
    return s;
}

inline season::Routine madeRoutine(const std::string& name, const std::string& revision) {
    season::Routine r;
    r.name = name;
    r.revision = revision;
    r.text = "name = \"" + name + "\"\n";
    return r;
}

}  // namespace plumbline::test
