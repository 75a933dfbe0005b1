#pragma once
// The wish, given from outside (Ctrl-C, or the system shutting down), that long work should end.

namespace plumbline::system {

/// While one lives, such a wish does not end the program: the work looks at asked() and tidies up.
/// A second wish ends it at once. One at a time.
class InterruptWatch {
public:
    InterruptWatch();
    /// What was there before holds again.
    ~InterruptWatch();
    InterruptWatch(const InterruptWatch&) = delete;
    InterruptWatch& operator=(const InterruptWatch&) = delete;

    bool asked() const;

private:
    using Handler = void (*)(int);
    Handler before_interrupt_;
    Handler before_terminate_;
};

}  // namespace plumbline::system
