#pragma once
// The debrief of the flight that is shown, written while the window goes on.

#include <filesystem>
#include <string>
#include <utility>

#include "engine/system/worker.h"
#include "viewer/model/document.h"

namespace plumbline::model {

struct Model;

class DebriefDesk {
public:
    /// Begins to write the flight's pages and tables into a folder beside its logs; says so where
    /// there is no flight over a plan, or while one is being written.
    void begin(Model& model);
    /// Says in the model's message how it went, once it is through.
    void look(Model& model);
    bool busy() const { return work_.busy(); }
    /// The season's book, which tells how the routine went before; none at first.
    void setBook(std::filesystem::path book) { book_ = std::move(book); }

private:
    struct Outcome {
        std::string words;
        bool wrong = false;
    };
    std::filesystem::path book_;
    system::Later<Outcome> work_;
};

/// Where the pages of a flight go: "sortie.csv" has "sortie-debrief" beside it.
std::filesystem::path debriefFolder(const Shown& shown);

}  // namespace plumbline::model
