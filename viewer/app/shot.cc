#include "viewer/app/shot.h"

#include <cstdio>

#include "engine/cli/options.h"

namespace plumbline::app {

int fail(const std::string& what) {
    std::fprintf(stderr, "plumbline: %s\n", what.c_str());
    return cli::kBadInput;
}

int prepare(Stage& stage, const Shot& shot) {
    model::Model& model = stage.model();
    if (!stage.openAndWait(shot.open)) {
        std::fprintf(stderr, "%s", describe(model.problems).c_str());
        return cli::kBadInput;
    }
    cli::printRemarks(model.shown->title, model.shown->remarks);
    model.message = model::Message();
    scene::ViewSettings& view = model.session.view;
    view.view = shot.view;
    if (shot.lens_mm) view.lens_mm = *shot.lens_mm;
    if (shot.seat_x_m) view.seat_x_m = *shot.seat_x_m;
    if (shot.rows_back_m) view.rows_back_m = *shot.rows_back_m;
    if (shot.eye_height_m) view.eye_height_m = *shot.eye_height_m;
    view.head_right_rad = shot.head_right_rad;
    view.head_up_rad = shot.head_up_rad;
    model.session.theme = shot.theme;
    model.session.units = shot.units;
    model.session.ui_scale = shot.ui_scale;
    return cli::kDone;
}

}  // namespace plumbline::app
