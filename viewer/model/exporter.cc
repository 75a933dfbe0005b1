#include "viewer/model/exporter.h"

#include <utility>

#include "engine/out/export.h"
#include "engine/system/whole_file.h"
#include "viewer/model/beside_frames.h"
#include "viewer/model/model.h"
#include "viewer/model/say.h"
#include "viewer/model/shown_routine.h"

namespace plumbline::model {
namespace {

/// Between sentences of a message.
std::string sentence(const Problem& problem) {
    return problem.where.file + ": " + problem.what + ": " + problem.remedy;
}

}  // namespace

out::Flight flightOf(const Shown& shown) {
    if (shown.workspace) {
        // What is being written may be sampled sparsely; what is exported is not.
        auto path =
            shown.solution.empty()
                ? shown.source.path
                : std::make_shared<const path::Path>(shown.solution.samplePath(kSampleRate_hz));
        out::Flight flight = out::flightOf(*shown.workspace, std::move(path));
        if (!shown.variant.empty()) flight.title += " (" + shown.variant + ")";
        return flight;
    }
    out::Flight flight;
    flight.path = shown.source.path;
    flight.title = shown.title;
    flight.origin = shown.origin;
    flight.start_utc_s = shown.start_utc_s;
    if (shown.atSite()) flight.site = shown.source.world->site;
    flight.model.span_m = shown.source.aircraft->geometry.span_m;
    flight.model.file = shown.source.aircraft->model_file;
    flight.model.nose = shown.source.aircraft->model_nose;
    flight.model.up = shown.source.aircraft->model_up;
    return flight;
}

void Exporter::begin(Model& model, const std::filesystem::path& file) {
    if (!model.shown) return;
    if (busy()) {
        say(model, "One export at a time: the one before is still being written", true);
        return;
    }
    const units::DisplayUnits units = displayUnits(model.session.units);
    work_ = system::Later<Outcome>::begin([shown = model.shown, file, units]() -> Outcome {
        const std::string name = file.filename().string();
        const Expected<out::Format, Problem> format = out::formatOf(name);
        if (!format) return {sentence(format.error()), true};
        const Expected<out::Exported, Problem> made =
            out::exported(flightOf(*shown), *format, name, units);
        if (!made) return {sentence(made.error()), true};
        const std::string failure = system::writeWholeFile(file, made->bytes);
        if (!failure.empty())
            return {name + " cannot be written (" + failure + "): choose another folder", true};
        std::string words = "Exported as " + name;
        for (const std::string& remark : made->remarks) words += "; " + remark;
        return {words, false};
    });
}

void Exporter::look(Model& model) {
    if (!work_.done()) return;
    Outcome outcome = work_.take();
    say(model, std::move(outcome.words), outcome.wrong);
}

}  // namespace plumbline::model
