#pragma once
// The tables of a book, version by version.

#include <span>

namespace plumbline::season {

/// What marks a file as a season's book (SQLite's application_id): "PLsb".
inline constexpr int kApplicationId = 0x504c7362;

/// Step n brings a book of version n to version n + 1. A step that was handed out is never changed
/// again: what comes later is another step.
std::span<const char* const> schemaSteps();

}  // namespace plumbline::season
