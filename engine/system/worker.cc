#include "engine/system/worker.h"

#include <algorithm>
#include <chrono>

#ifdef __EMSCRIPTEN__
#include <vector>
#else
#include <condition_variable>
#include <future>
#include <mutex>
#include <thread>

#include "engine/system/give_way.h"
#endif

namespace plumbline::system {

#ifdef __EMSCRIPTEN__

using Clock = std::chrono::steady_clock;

struct Worker::Impl {
    Step step;
    bool sleeps = true;  ///< as a thread does until it is woken the first time
    Clock::time_point due;
};

namespace {

/// All there are, the one that has waited longest first.
std::vector<Worker*>& workers() {
    static std::vector<Worker*> all;
    return all;
}

}  // namespace

Worker::Worker(Step step, bool) : impl_(std::make_unique<Impl>()) {
    impl_->step = std::move(step);
    workers().push_back(this);
}

Worker::~Worker() {
    std::vector<Worker*>& all = workers();
    all.erase(std::remove(all.begin(), all.end(), this), all.end());
}

void Worker::wake() {
    impl_->sleeps = false;
    impl_->due = Clock::now();
}

void workBetweenFrames() {
    std::vector<Worker*>& all = workers();
    for (std::size_t i = 0; i < all.size(); ++i) {
        Worker* const worker = all[i];
        if (worker->impl_->sleeps || worker->impl_->due > Clock::now()) continue;
        std::rotate(all.begin() + static_cast<std::ptrdiff_t>(i),
                    all.begin() + static_cast<std::ptrdiff_t>(i) + 1, all.end());
        worker->impl_->sleeps = true;
        const std::optional<double> next_s = worker->impl_->step();
        if (!next_s) return;
        worker->impl_->sleeps = false;
        worker->impl_->due = Clock::now() + std::chrono::duration_cast<Clock::duration>(
                                                std::chrono::duration<double>(*next_s));
        return;
    }
}

struct LaterWork::Impl {
    std::function<void()> work;
};

LaterWork::LaterWork(std::function<void()> work) : impl_(std::make_unique<Impl>()) {
    impl_->work = std::move(work);
}

LaterWork::~LaterWork() = default;

bool LaterWork::done() const {
    wait();
    return true;
}

void LaterWork::wait() const {
    if (impl_->work) std::exchange(impl_->work, nullptr)();
}

#else

struct Worker::Impl {
    Step step;
    std::mutex mutex;
    std::condition_variable changed;
    bool woken = false, stop = false;
    std::thread thread;

    void work(bool gives_way) {
        if (gives_way) giveWay();
        std::optional<double> next_s;
        std::unique_lock<std::mutex> lock(mutex);
        while (true) {
            const auto called = [this] { return stop || woken; };
            if (next_s) {
                changed.wait_for(lock, std::chrono::duration<double>(*next_s), called);
            } else {
                changed.wait(lock, called);
            }
            if (stop) return;
            woken = false;
            lock.unlock();
            next_s = step();
            lock.lock();
        }
    }
};

Worker::Worker(Step step, bool gives_way) : impl_(std::make_unique<Impl>()) {
    impl_->step = std::move(step);
    impl_->thread = std::thread([impl = impl_.get(), gives_way] { impl->work(gives_way); });
}

Worker::~Worker() {
    {
        const std::lock_guard<std::mutex> lock(impl_->mutex);
        impl_->stop = true;
    }
    impl_->changed.notify_all();
    impl_->thread.join();
}

void Worker::wake() {
    {
        const std::lock_guard<std::mutex> lock(impl_->mutex);
        impl_->woken = true;
    }
    impl_->changed.notify_all();
}

void workBetweenFrames() {}

struct LaterWork::Impl {
    std::future<void> future;
};

LaterWork::LaterWork(std::function<void()> work) : impl_(std::make_unique<Impl>()) {
    impl_->future = std::async(std::launch::async, std::move(work));
}

LaterWork::~LaterWork() {
    if (impl_) wait();
}

bool LaterWork::done() const {
    return impl_->future.wait_for(std::chrono::seconds(0)) == std::future_status::ready;
}

void LaterWork::wait() const { impl_->future.wait(); }

#endif

LaterWork::LaterWork() = default;
LaterWork::LaterWork(LaterWork&&) noexcept = default;
LaterWork& LaterWork::operator=(LaterWork&&) noexcept = default;
void LaterWork::forget() { impl_.reset(); }

}  // namespace plumbline::system
