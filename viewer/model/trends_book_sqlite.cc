// The book of the season, read for the trends.

#include "viewer/model/trends_desk.h"

namespace plumbline::model {

TrendsDesk::Outcome TrendsDesk::read(const std::filesystem::path& file) {
    Outcome outcome;
    std::error_code failed;
    if (file.empty() || !std::filesystem::exists(file, failed)) {
        outcome.all = std::make_shared<const std::vector<season::Trend>>();
        return outcome;
    }
    auto book = season::Book::open(file, season::Book::Access::Existing);
    if (!book) {
        outcome.problem = describe(book.error().front());
        return outcome;
    }
    auto all = season::trends(*book);
    if (!all) {
        outcome.problem = describe(all.error().front());
        return outcome;
    }
    outcome.all = std::make_shared<const std::vector<season::Trend>>(std::move(*all));
    return outcome;
}

}  // namespace plumbline::model
