#pragma once
// The season's book as far as remarks need it: opened for each call, so that others can write in it
// meanwhile.

#include <cstdint>
#include <filesystem>
#include <vector>

#include "engine/base/expected.h"
#include "engine/base/problem.h"
#include "engine/season/subject.h"

namespace plumbline::model {

/// Where the person's book is; empty where none can be kept (a page in a browser).
std::filesystem::path usualRemarkBook();

/// By time; none where there is no book yet.
/// @errors what the book says
Expected<std::vector<season::Remark>, Problems> remarksIn(const std::filesystem::path& book,
                                                          const season::Subject& about);
/// Adds it, or with an id changes it. @return as it is kept
/// @errors as season::addRemark and changeRemark have them
Expected<season::Remark, Problems> keepRemarkIn(const std::filesystem::path& book,
                                                season::Remark remark, std::int64_t now_utc_s);
/// @errors as season::deleteRemark has them
Problems deleteRemarkIn(const std::filesystem::path& book, std::int64_t id);

}  // namespace plumbline::model
