#pragma once
// Files of tests/data as strings.

#include <fstream>
#include <iterator>
#include <string>

#include <gtest/gtest.h>

namespace plumbline {

inline std::string readTestData(const std::string& name) {
    std::ifstream file(std::string(PLUMBLINE_TEST_DATA) + "/" + name, std::ios::binary);
    EXPECT_TRUE(file) << name;
    return std::string(std::istreambuf_iterator<char>(file), {});
}

}  // namespace plumbline
