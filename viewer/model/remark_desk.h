#pragma once
// What coach and pilot say of moments of the routine or the flight that is open: kept in the
// season's book.

#include <cstdint>
#include <filesystem>
#include <optional>

#include "viewer/model/model.h"

namespace plumbline::model {

class RemarkDesk {
public:
    /// @param book  empty: nothing is kept beyond what is open
    explicit RemarkDesk(std::filesystem::path book) : book_(std::move(book)) {}

    /// Reads the remarks of what is shown, once for each thing.
    void look(Model& model);
    /// KeepRemark and DeleteRemark: into the book at once.
    /// @param now_utc_s  since 1970
    /// @return false: another action
    bool apply(Model& model, const Action& action, std::int64_t now_utc_s);

private:
    void keep(Model& model, const Action& action, std::int64_t now_utc_s);
    void remove(Model& model, int index);

    std::filesystem::path book_;
};

/// "coach" or "pilot", by the number that actions have for them.
const char* remarkAuthor(int number);

}  // namespace plumbline::model
