#pragma once
// Work that must not be felt.

namespace plumbline::system {

/// The calling thread, and those it begins, give way to others where the system knows how.
void giveWay();

}  // namespace plumbline::system
