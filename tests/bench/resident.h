#pragma once
// How much memory a benchmark holds.

#include <fstream>

namespace plumbline::bench {

/// Memory of this program that is in the machine's, in kB; 0 where the system does not tell.
inline double residentKilobytes() {
    std::ifstream pages("/proc/self/statm");
    double all = 0, resident = 0;
    pages >> all >> resident;
    return resident * 4;
}

}  // namespace plumbline::bench
