#pragma once
// What every reader owes for bytes that it refuses.

#include "engine/base/check.h"
#include "engine/base/expected.h"
#include "engine/base/problem.h"

namespace plumbline {

/// A refusal says why.
template <class T>
void expectReasons(const Expected<T, Problems>& read) {
    if (!read) PL_EXPECT(!read.error().empty());
}

}  // namespace plumbline
