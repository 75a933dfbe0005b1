#include "engine/system/interrupt.h"

#include <csignal>

namespace plumbline::system {
namespace {

volatile std::sig_atomic_t wished = 0;

void onSignal(int number) {
    wished = 1;
    std::signal(number, SIG_DFL);
}

}  // namespace

InterruptWatch::InterruptWatch() {
    wished = 0;
    before_interrupt_ = std::signal(SIGINT, &onSignal);
    before_terminate_ = std::signal(SIGTERM, &onSignal);
}

InterruptWatch::~InterruptWatch() {
    std::signal(SIGINT, before_interrupt_);
    std::signal(SIGTERM, before_terminate_);
}

bool InterruptWatch::asked() const { return wished != 0; }

}  // namespace plumbline::system
