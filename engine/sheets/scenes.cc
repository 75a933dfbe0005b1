#include "engine/sheets/scenes.h"

#include <algorithm>
#include <cmath>

#include "engine/review/alone.h"
#include "engine/review/doubts.h"
#include "engine/sheets/furniture.h"
#include "engine/sheets/look.h"
#include "engine/sheets/wording.h"

namespace plumbline::sheets {

using page::Align;
using page::Box;
using page::Document;
using page::Point;
using page::Stroke;

namespace {

constexpr double kStep_s = 0.1;
constexpr double kWingsWide = 2;  // chosen: the band can be told at a few hundred metres
constexpr double kMargin = 5;

const BandInk kFlownInk{page::kPaper, page::kFlownDoubt, page::kFlown, 0.5};

struct Scene {
    Band flown, planned;
    double flown_start_s, flown_stop_s, planned_start_s, planned_stop_s;
};

Scene sceneOf(const Sortie& sortie, const review::FigureReview& figure, const Look& look) {
    const double span_m = sortie.workspace->aircraft.geometry.span_m * kWingsWide;
    const auto steps = [](double length_s) {
        return std::clamp(static_cast<int>(length_s / kStep_s), 8, 1200);
    };
    Scene scene;
    scene.flown_start_s = figure.start_s;
    scene.flown_stop_s = figure.stop_s;
    scene.planned_start_s = figure.planned_start_s;
    scene.planned_stop_s = plannedStop_s(sortie, figure);
    scene.flown = bandOf(*sortie.flight, figure.start_s, figure.stop_s,
                         steps(figure.stop_s - figure.start_s), span_m, look);
    scene.planned = bandOf(*sortie.plan, scene.planned_start_s, scene.planned_stop_s,
                           steps(scene.planned_stop_s - scene.planned_start_s), span_m, look);
    return scene;
}

void drawLadder(Document& document, const Band& band, double length_s, const Fit& fit) {
    const Stroke thin{0.45, page::kQuiet, 0, true};
    std::vector<Point> left, right;
    for (const Band::Rung& rung : band.rungs) {
        left.push_back(fit(rung.left));
        right.push_back(fit(rung.right));
    }
    document.path(left, thin);
    document.path(right, thin);
    const int seconds = static_cast<int>(length_s);
    for (int s = 0; s <= seconds; ++s) {
        const auto i = static_cast<std::size_t>(
            std::lround(s / std::max(length_s, 1e-3) * static_cast<double>(band.rungs.size() - 1)));
        document.line(left[i], right[i], thin);
    }
}

/// From flown to planned, each second from the figure's start.
void drawTies(Document& document, const Sortie& sortie, const Scene& scene, const Look& look,
              const Fit& fit) {
    const double length_s = std::min(scene.flown_stop_s - scene.flown_start_s,
                                     scene.planned_stop_s - scene.planned_start_s);
    for (double t = 1; t < length_s; t += 1) {
        const Vec3 a = path::sampleAt(*sortie.flight, scene.flown_start_s + t).position_S_m;
        const Vec3 b = path::sampleAt(*sortie.plan, scene.planned_start_s + t).position_S_m;
        document.line(fit(look.spotOf(a)), fit(look.spotOf(b)), {0.3, page::kHairline});
    }
}

void drawScene(Document& document, const Sortie& sortie, const Scene& scene, const Look& look,
               const Fit& fit) {
    drawTies(document, sortie, scene, look, fit);
    drawLadder(document, scene.planned, scene.planned_stop_s - scene.planned_start_s, fit);
    drawBand(document, scene.flown, fit, kFlownInk);
    // Where it comes in: three dots, as on the small pictures.
    const Point first = fit(scene.flown.rungs[0].middle), next = fit(scene.flown.rungs[3].middle);
    const double dx = next.x_mm - first.x_mm, dy = next.y_mm - first.y_mm;
    const double length = std::max(1e-6, std::hypot(dx, dy));
    for (int i = 1; i <= 3; ++i)
        document.disc({first.x_mm - dx / length * (0.6 + 1.2 * i),
                       first.y_mm - dy / length * (0.6 + 1.2 * i)},
                      0.48 - 0.09 * i, page::kFlown);
}

void frame(Document& document, const Box& box) {
    const Point corners[] = {{box.x_mm, box.y_mm},
                             {box.right_mm(), box.y_mm},
                             {box.right_mm(), box.bottom_mm()},
                             {box.x_mm, box.bottom_mm()}};
    document.path(corners, {0.4, page::kHairline}, true);
}

/// Words with paper behind them, so that lines do not run through.
void label(Document& document, Point at, const std::string& words, Align align,
           page::Colour colour = page::kInk) {
    const page::Text text = {{words, {7.2, page::Weight::SemiBold, colour}}};
    const double width = document.widthOf_mm(text);
    const double left = align == Align::Right    ? at.x_mm - width
                        : align == Align::Centre ? at.x_mm - 0.5 * width
                                                 : at.x_mm;
    document.fill(Box{left - 0.5, at.y_mm - 2.3, width + 1, 3}, page::kPaper);
    document.words(at, text, align);
}

/// Highest and lowest of a path between two times.
std::pair<path::Sample, path::Sample> heightsOf(const path::Path& path, double from_s,
                                                double to_s) {
    path::Sample low = path::sampleAt(path, from_s), high = low;
    for (double t = from_s; t <= to_s; t += kStep_s) {
        const path::Sample s = path::sampleAt(path, t);
        if (s.position_S_m.z < low.position_S_m.z) low = s;
        if (s.position_S_m.z > high.position_S_m.z) high = s;
    }
    return {low, high};
}

}  // namespace

int numberInPlan(const Sortie& sortie, const std::string& figure) {
    const auto& figures = sortie.plan->figures;
    for (std::size_t i = 0; i < figures.size(); ++i)
        if (figures[i].name == figure) return static_cast<int>(i) + 1;
    return 0;
}

double plannedStop_s(const Sortie& sortie, const review::FigureReview& figure) {
    const int number = numberInPlan(sortie, figure.name);
    const double flown_s = figure.stop_s - figure.start_s;
    if (number == 0) return figure.planned_start_s + flown_s;
    return std::max(sortie.plan->figures[static_cast<std::size_t>(number - 1)].stop_s,
                    figure.planned_start_s + 0.5);
}

void drawFromCrowd(Document& document, const Box& box, const Sortie& sortie,
                   const review::FigureReview& figure) {
    const Vec3 eye = review::judgesEye(sortie.workspace->site);
    Vec3 middle(0);
    int count = 0;
    for (double t = figure.start_s; t <= figure.stop_s; t += 4 * kStep_s, ++count)
        middle += path::sampleAt(*sortie.flight, t).position_S_m;
    middle /= std::max(count, 1);
    // The head turns, it does not tilt: the horizon lies level and verticals stay upright.
    const Look look = Look::from(eye, Vec3(middle.x, middle.y, eye.z));
    const Scene scene = sceneOf(sortie, figure, look);
    Fit fit(box, kMargin);
    fit.take(scene.flown);
    fit.take(scene.planned);
    const Vec3 ahead = eye + 1000.0 * look.forward_S();
    fit.take(look.spotOf(ahead));  // the horizon is in the picture
    fit.settle(0.1);
    document.within(box, [&] {
        const Look::Spot at_horizon = look.spotOf(ahead);
        const double horizon = fit(at_horizon).y_mm;
        document.line({box.x_mm, horizon}, {box.right_mm(), horizon}, {0.6, page::kInk});
        // The show line with a tick each hundred metres, taller at show centre.
        for (int i = -30; i <= 30; ++i) {
            const Vec3 foot(100.0 * i, 0, 0);
            if (look.spotOf(foot).depth < 20) continue;
            const Point from = fit(look.spotOf(foot));
            const Point to = fit(look.spotOf(foot + Vec3(0, 0, i == 0 ? 24 : 8)));
            document.line(from, to, {i == 0 ? 0.9 : 0.4, page::kQuiet});
            const Vec3 next(100.0 * (i + 1), 0, 0);
            if (i < 30 && look.spotOf(next).depth >= 20)
                document.line(from, fit(look.spotOf(next)), {0.4, page::kQuiet});
        }
        drawScene(document, sortie, scene, look, fit);
        const auto [low, high] = heightsOf(*sortie.flight, figure.start_s, figure.stop_s);
        const auto say = [&](const path::Sample& sample, const char* what, double down_mm) {
            const Point at = fit(look.spotOf(sample.position_S_m));
            const bool left_half = at.x_mm < box.x_mm + 0.5 * box.width_mm;
            const double doubt = 2 * review::placeSigma_m(sample);
            label(document, {at.x_mm + (left_half ? 3.2 : -3.2), at.y_mm + down_mm},
                  std::string(what) + " " + within(sample.position_S_m.z, doubt, 0) + " m",
                  left_half ? Align::Left : Align::Right, page::kFlown);
        };
        say(high, "top", 0.6);
        if (high.position_S_m.z - low.position_S_m.z > 30) say(low, "least", -1.6);
    });
    frame(document, box);
}

void drawFromAbove(Document& document, const Box& box, const Sortie& sortie,
                   const review::FigureReview& figure) {
    const Look look = Look::along(Vec3(0, 0, -1), Vec3(1, 0, 0));
    const Scene scene = sceneOf(sortie, figure, look);
    const data::Site& site = sortie.workspace->site;
    Fit fit(box, kMargin);
    fit.take(scene.flown);
    fit.take(scene.planned);
    const double x0 = path::sampleAt(*sortie.flight, figure.start_s).position_S_m.x;
    fit.take(look.spotOf(Vec3(x0, 0, 0)));
    fit.take(look.spotOf(Vec3(x0, site.crowd_line_y_m - 20, 0)));
    fit.settle(120);
    document.within(box, [&] {
        const auto lineAt = [&](double y_m, const Stroke& stroke) {
            const double y = fit(look.spotOf(Vec3(0, y_m, 0))).y_mm;
            document.line({box.x_mm, y}, {box.right_mm(), y}, stroke);
            return y;
        };
        const double show = lineAt(0, {0.6, page::kInk});
        const double crowd = lineAt(site.crowd_line_y_m, {0.6, page::kInk, 4});
        for (int i = -40; i <= 40; ++i) {
            const double x = fit(look.spotOf(Vec3(100.0 * i, 0, 0))).x_mm;
            const double half = i == 0 ? 2.2 : 0.8;
            document.line({x, show - half}, {x, show + half}, {i == 0 ? 0.9 : 0.4, page::kInk});
        }
        drawScene(document, sortie, scene, look, fit);
        label(document, {box.right_mm() - 1.5, show - 1}, "show line", Align::Right, page::kQuiet);
        label(document, {box.right_mm() - 1.5, crowd + 3}, "crowd line", Align::Right,
              page::kQuiet);
        const double bar = 100 * fit.perUnit_mm();
        document.line({box.x_mm + 2.5, box.bottom_mm() - 3},
                      {box.x_mm + 2.5 + bar, box.bottom_mm() - 3}, {1, page::kInk});
        label(document, {box.x_mm + 3.5 + bar, box.bottom_mm() - 2.1}, "100 m", Align::Left);
    });
    frame(document, box);
}

}  // namespace plumbline::sheets
