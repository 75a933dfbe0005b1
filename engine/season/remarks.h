#pragma once
// Remarks in the book.

#include <cstdint>
#include <string>
#include <vector>

#include "engine/season/book.h"
#include "engine/season/subject.h"

namespace plumbline::season {

/// @return the remark with its id
/// @errors no words, or what the book says
Expected<Remark, Problems> addRemark(Book& book, Remark remark);

/// Other words, another time or author; what it is about stays.
/// @param now_utc_s  kept as the time of the change
/// @errors no such remark (somebody else may have deleted it), no words, or what the book says
Problems changeRemark(Book& book, const Remark& remark, std::int64_t now_utc_s);

/// @errors no such remark, or what the book says
Problems deleteRemark(Book& book, std::int64_t id);

/// By time.
Expected<std::vector<Remark>, Problems> remarksOn(Book& book, const Subject& about);
/// All there are: by what they are about, then by time.
Expected<std::vector<Remark>, Problems> allRemarks(Book& book);

}  // namespace plumbline::season
