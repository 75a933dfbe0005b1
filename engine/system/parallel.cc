#include "engine/system/parallel.h"

#include <algorithm>
#include <atomic>
#include <thread>
#include <vector>

namespace plumbline::system {

Executor serial() {
    return [](std::size_t count, const std::function<void(std::size_t)>& job) {
        for (std::size_t i = 0; i < count; ++i) job(i);
    };
}

Executor parallel(unsigned threads) {
#ifdef __EMSCRIPTEN__
    static_cast<void>(threads);
    return serial();
#else
    if (threads == 0) threads = std::max(std::thread::hardware_concurrency(), 1U);
    return [threads](std::size_t count, const std::function<void(std::size_t)>& job) {
        std::atomic<std::size_t> next{0};
        const auto work = [&] {
            for (std::size_t i = next++; i < count; i = next++) job(i);
        };
        std::vector<std::thread> others;
        for (std::size_t t = 1; t < std::min<std::size_t>(threads, count); ++t)
            others.emplace_back(work);
        work();
        for (std::thread& other : others) other.join();
    };
#endif
}

}  // namespace plumbline::system
