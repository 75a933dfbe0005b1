#include "engine/base/check.h"

#include <cstdio>
#include <cstdlib>

namespace plumbline {

void failExpectation(const char* condition, const char* file, int line) {
    std::fprintf(stderr, "plumbline: internal error: %s:%d: expected %s\n", file, line, condition);
    std::abort();
}

}  // namespace plumbline
