#pragma once
// Work beside the frames of a window.

#include <functional>
#include <memory>
#include <optional>
#include <utility>

namespace plumbline::system {

/// Work that is done a piece at a time: on a thread of its own, or in a browser, which gives a page
/// none, between frames (workBetweenFrames).
class Worker {
public:
    /// One piece of work. @return seconds until the next one; nothing: sleeps until woken
    using Step = std::function<std::optional<double>()>;
    /// @param gives_way  to all other threads
    explicit Worker(Step step, bool gives_way = false);
    /// Waits for the piece that is being done.
    ~Worker();
    Worker(const Worker&) = delete;
    Worker& operator=(const Worker&) = delete;

    /// Something has changed: the next piece comes at once. May be called from any thread.
    void wake();

private:
    friend void workBetweenFrames();
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

/// Once a frame in a browser: one piece of the worker that has waited longest. Elsewhere nothing.
void workBetweenFrames();

/// A Worker's pieces hold up the frames: the shorter the better.
#ifdef __EMSCRIPTEN__
inline constexpr bool kPiecesHoldUpFrames = true;
#else
inline constexpr bool kPiecesHoldUpFrames = false;
#endif

/// What a Later waits for; its parts that know about threads.
class LaterWork {
public:
    LaterWork();
    explicit LaterWork(std::function<void()> work);
    /// Waits: nothing is left half-written when the program ends.
    ~LaterWork();
    LaterWork(LaterWork&&) noexcept;
    LaterWork& operator=(LaterWork&&) noexcept;
    bool begun() const { return impl_ != nullptr; }
    /// Never waits for a thread; in a browser the work is done now.
    bool done() const;
    void wait() const;
    void forget();

private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

/// A result that is worked out beside the frames, once.
template <class Result>
class Later {
public:
    Later() = default;
    template <class Work>
    static Later begin(Work work) {
        Later out;
        out.result_ = std::make_shared<std::optional<Result>>();
        out.work_ =
            LaterWork([result = out.result_, work = std::move(work)] { result->emplace(work()); });
        return out;
    }
    /// From begin() until take().
    bool busy() const { return work_.begun(); }
    bool done() const { return busy() && work_.done(); }
    void wait() const {
        if (busy()) work_.wait();
    }
    /// The result, waited for; busy before.
    Result take() {
        work_.wait();
        Result out = std::move(**result_);
        work_.forget();
        result_.reset();
        return out;
    }

private:
    std::shared_ptr<std::optional<Result>> result_;
    LaterWork work_;
};

}  // namespace plumbline::system
