#pragma once
// What is shown, written for other programs while the window goes on.

#include <filesystem>
#include <string>

#include "engine/out/flight.h"
#include "engine/system/worker.h"
#include "viewer/model/document.h"

namespace plumbline::model {

struct Model;

/// The flight that is shown, as exports take it.
out::Flight flightOf(const Shown& shown);

class Exporter {
public:
    /// Begins to write what is shown; the name's ending tells the format. One at a time: a wish
    /// while one is being written is told so.
    void begin(Model& model, const std::filesystem::path& file);
    /// Says in the model's message how it went, once it is through.
    void look(Model& model);
    bool busy() const { return work_.busy(); }

private:
    struct Outcome {
        std::string words;
        bool wrong = false;
    };
    system::Later<Outcome> work_;
};

}  // namespace plumbline::model
