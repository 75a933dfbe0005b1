#include "engine/variant/shelf.h"

#include <utility>

#include "engine/fly/solve.h"
#include "engine/load/load.h"
#include "engine/routine/figure_file.h"

namespace plumbline::variant {

std::vector<ShelfFigure> flyShelf(double rate_hz) {
    std::vector<ShelfFigure> out;
    auto demo = load::loadDemo();
    if (!demo) return out;
    data::Weather calm;
    for (const std::string_view name : load::shelfNames()) {
        const auto file = load::shelfFigure(name);
        const routine::FigureFile read =
            routine::readFigureFile(file.value_or(""), std::string(name)).figure;
        routine::Routine routine;
        routine.name = read.name;
        routine.start.x_m = -800;
        routine.start.height_m = read.entry.height_m;
        routine.start.speed_mps = read.entry.speed_mps;
        routine.start.fuel_l = 40;
        routine::RoutineFigure figure;
        figure.name = read.name;
        figure.elements = read.elements;
        routine.figures.push_back(std::move(figure));
        ShelfFigure shelf;
        shelf.name = std::string(name);
        shelf.title = read.name;
        shelf.about = read.about;
        constexpr const char* kSkills[] = {"simple", "practised", "expert"};
        shelf.skill = kSkills[static_cast<std::size_t>(read.skill)];
        shelf.path = fly::solve(demo->aircraft, demo->site, calm, routine).samplePath(rate_hz);
        if (!shelf.path.samples.empty()) out.push_back(std::move(shelf));
    }
    return out;
}

}  // namespace plumbline::variant
