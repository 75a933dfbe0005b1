#include "viewer/app/frame_pipe.h"

#include <utility>

namespace plumbline::app {

namespace {
constexpr std::size_t kMostWaiting = 3;  // chosen: evens out slow pictures; 11 MB at 1280x720
}

FramePipe::FramePipe(system::Feed& feed) : feed_(feed), thread_([this] { work(); }) {}

FramePipe::~FramePipe() { finish(); }

bool FramePipe::give(render::Image& image) {
    std::unique_lock lock(mutex_);
    changed_.wait(lock, [this] { return waiting_.size() < kMostWaiting || broken_; });
    if (broken_) return false;
    waiting_.push_back(std::move(image));
    image = render::Image();
    if (!spare_.empty()) {
        image = std::move(spare_.back());
        spare_.pop_back();
    }
    changed_.notify_all();
    return true;
}

bool FramePipe::finish() {
    {
        const std::lock_guard lock(mutex_);
        last_ = true;
        changed_.notify_all();
    }
    if (thread_.joinable()) thread_.join();
    return !broken_;
}

void FramePipe::work() {
    std::unique_lock lock(mutex_);
    for (;;) {
        changed_.wait(lock, [this] { return !waiting_.empty() || last_; });
        if (waiting_.empty()) return;
        render::Image image = std::move(waiting_.front());
        waiting_.pop_front();
        lock.unlock();
        const bool taken = feed_.write(image.rgba);
        lock.lock();
        spare_.push_back(std::move(image));
        changed_.notify_all();
        if (!taken) {
            broken_ = true;
            return;
        }
    }
}

}  // namespace plumbline::app
