// A page in a browser keeps no book of the season: what is said stays as long as the page is open.

#include <utility>

#include "viewer/model/remark_book.h"

namespace plumbline::model {
namespace {

Problems noBook(const std::filesystem::path& book) {
    Problem problem;
    problem.where.file = book.generic_string();
    problem.what = "a page in a browser keeps no book";
    problem.remedy = "open the routine or the flight in the program";
    return {problem};
}

}  // namespace

std::filesystem::path usualRemarkBook() { return {}; }

Expected<std::vector<season::Remark>, Problems> remarksIn(const std::filesystem::path& book,
                                                          const season::Subject&) {
    return Unexpected(noBook(book));
}

Expected<season::Remark, Problems> keepRemarkIn(const std::filesystem::path& book, season::Remark,
                                                std::int64_t) {
    return Unexpected(noBook(book));
}

Problems deleteRemarkIn(const std::filesystem::path& book, std::int64_t) { return noBook(book); }

}  // namespace plumbline::model
