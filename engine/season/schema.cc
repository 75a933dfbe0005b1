#include "engine/season/schema.h"

#include <array>

namespace plumbline::season {

namespace {

constexpr const char* kRemarks = R"sql(
CREATE TABLE remark(
  id INTEGER PRIMARY KEY AUTOINCREMENT,  -- never given again, so that a number in an e-mail stays right
  about TEXT NOT NULL CHECK(about IN ('routine', 'sortie')),
  key TEXT NOT NULL,                     -- a routine's name; what a recording's bytes add up to
  time_s REAL NOT NULL,
  who TEXT NOT NULL,
  words TEXT NOT NULL CHECK(length(words) > 0),
  written_utc_s INTEGER NOT NULL,
  changed_utc_s INTEGER
) STRICT;
CREATE INDEX remark_about ON remark(about, key, time_s);
)sql";

constexpr std::array kSteps = {kRemarks};

}  // namespace

std::span<const char* const> schemaSteps() { return kSteps; }

}  // namespace plumbline::season
