#pragma once
// Pictures on their way to another program while the next ones are drawn.

#include <condition_variable>
#include <deque>
#include <mutex>
#include <thread>
#include <vector>

#include "engine/system/feed.h"
#include "viewer/render/renderer.h"

namespace plumbline::app {

/// Writes pictures in the order given, on a thread of its own; a few wait at most.
class FramePipe {
public:
    explicit FramePipe(system::Feed& feed);
    /// Lets what waits be written.
    ~FramePipe();
    FramePipe(const FramePipe&) = delete;
    FramePipe& operator=(const FramePipe&) = delete;

    /// Takes the picture and leaves one whose memory can be used again. Waits while too many wait.
    /// @return false when the program reads no more
    bool give(render::Image& image);
    /// Waits until all is written. @return false when the program read not all of it
    bool finish();

private:
    void work();

    system::Feed& feed_;
    std::mutex mutex_;
    std::condition_variable changed_;
    std::deque<render::Image> waiting_;
    std::vector<render::Image> spare_;
    bool last_ = false;
    bool broken_ = false;
    std::thread thread_;
};

}  // namespace plumbline::app
