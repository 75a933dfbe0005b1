#include "viewer/model/remark_book.h"

#include <utility>

#include "engine/season/remarks.h"

namespace plumbline::model {

using season::Book;

std::filesystem::path usualRemarkBook() { return season::usualBook(); }

Expected<std::vector<season::Remark>, Problems> remarksIn(const std::filesystem::path& book,
                                                          const season::Subject& about) {
    std::error_code failed;
    if (!std::filesystem::exists(book, failed)) return std::vector<season::Remark>();
    auto opened = Book::open(book, Book::Access::Existing);
    if (!opened) return Unexpected(std::move(opened).error());
    return season::remarksOn(*opened, about);
}

Expected<season::Remark, Problems> keepRemarkIn(const std::filesystem::path& book,
                                                season::Remark remark, std::int64_t now_utc_s) {
    auto opened = Book::open(book, Book::Access::Make);
    if (!opened) return Unexpected(std::move(opened).error());
    if (remark.id == 0) {
        remark.written_utc_s = now_utc_s;
        return season::addRemark(*opened, std::move(remark));
    }
    Problems problems = season::changeRemark(*opened, remark, now_utc_s);
    if (!problems.empty()) return Unexpected(std::move(problems));
    return remark;
}

Problems deleteRemarkIn(const std::filesystem::path& book, std::int64_t id) {
    auto opened = Book::open(book, Book::Access::Make);
    return opened ? season::deleteRemark(*opened, id) : std::move(opened).error();
}

}  // namespace plumbline::model
