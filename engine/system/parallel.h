#pragma once
// Jobs on all cores, where there are any.

#include <cstddef>
#include <functional>

namespace plumbline::system {

/// Runs job(0) .. job(count - 1), each once, in any order, and comes back when all are done.
using Executor =
    std::function<void(std::size_t count, const std::function<void(std::size_t)>& job)>;

/// One after the other, here.
Executor serial();

/// On so many threads, each taking the next job that is left; 0: one for each core. Serial in a
/// browser. Jobs must not throw.
Executor parallel(unsigned threads = 0);

}  // namespace plumbline::system
