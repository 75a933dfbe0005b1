#pragma once
// Our own mistakes: always on, prints and aborts. Bad input never ends here (see problem.h).

namespace plumbline {

[[noreturn]] void failExpectation(const char* condition, const char* file, int line);

}  // namespace plumbline

#define PL_EXPECT(condition)            \
    ((condition) ? static_cast<void>(0) \
                 : ::plumbline::failExpectation(#condition, __FILE_NAME__, __LINE__))
