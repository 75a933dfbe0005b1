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

constexpr const char* kSorties = R"sql(
CREATE TABLE routine(
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL,
  revision TEXT NOT NULL,
  words TEXT NOT NULL,                   -- the file's
  added_utc_s INTEGER NOT NULL,
  UNIQUE(name, revision)
) STRICT;
CREATE TABLE sortie(
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  key TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  flown_utc_s INTEGER NOT NULL,
  added_utc_s INTEGER NOT NULL,
  routine INTEGER REFERENCES routine(id),
  site TEXT NOT NULL,
  airframe TEXT NOT NULL,
  conditions TEXT NOT NULL,
  notes TEXT NOT NULL,
  flown_s REAL NOT NULL,
  full_power_s REAL, fuel_kg REAL, fastest_mps REAL, beyond_never_exceed_s REAL, overspeed_s REAL,
  most_g REAL, least_g REAL, quickest_gps REAL  -- NULL here and above: the recording does not tell
) STRICT;
CREATE INDEX sortie_flown ON sortie(flown_utc_s);
CREATE TABLE figure(
  id INTEGER PRIMARY KEY,
  sortie INTEGER NOT NULL REFERENCES sortie(id) ON DELETE CASCADE,
  place INTEGER NOT NULL,
  name TEXT NOT NULL,
  start_s REAL NOT NULL,
  stop_s REAL NOT NULL,
  out_of_order INTEGER NOT NULL,
  again INTEGER NOT NULL
) STRICT;
CREATE INDEX figure_sortie ON figure(sortie, place);
CREATE INDEX figure_name ON figure(name);
CREATE TABLE measure(
  figure INTEGER NOT NULL REFERENCES figure(id) ON DELETE CASCADE,
  element TEXT NOT NULL,
  name TEXT NOT NULL,
  value REAL NOT NULL,
  sigma REAL,
  planned REAL
) STRICT;
CREATE INDEX measure_figure ON measure(figure);
CREATE TABLE load_level(
  sortie INTEGER NOT NULL REFERENCES sortie(id) ON DELETE CASCADE,
  load_g REAL NOT NULL, beyond_s REAL NOT NULL, times INTEGER NOT NULL
) STRICT;
CREATE INDEX load_level_sortie ON load_level(sortie);
CREATE TABLE load_cycle(
  sortie INTEGER NOT NULL REFERENCES sortie(id) ON DELETE CASCADE,
  range_g REAL NOT NULL, mean_g REAL NOT NULL, count REAL NOT NULL
) STRICT;
CREATE INDEX load_cycle_sortie ON load_cycle(sortie);
CREATE TABLE push_pull(
  sortie INTEGER NOT NULL REFERENCES sortie(id) ON DELETE CASCADE,
  time_s REAL NOT NULL, least_g REAL NOT NULL, most_g REAL NOT NULL
) STRICT;
CREATE INDEX push_pull_sortie ON push_pull(sortie);
CREATE TABLE overhaul(
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  airframe TEXT NOT NULL,
  at_utc_s INTEGER NOT NULL,
  notes TEXT NOT NULL,
  UNIQUE(airframe, at_utc_s)
) STRICT;
CREATE VIEW since_overhaul AS SELECT * FROM sortie WHERE flown_utc_s >=
  coalesce((SELECT max(at_utc_s) FROM overhaul WHERE overhaul.airframe = sortie.airframe), flown_utc_s);
)sql";

constexpr std::array kSteps = {kRemarks, kSorties};

}  // namespace

std::span<const char* const> schemaSteps() { return kSteps; }

}  // namespace plumbline::season
