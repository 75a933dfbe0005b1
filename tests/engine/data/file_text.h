#pragma once

#include <fstream>
#include <sstream>
#include <string>

namespace plumbline::data {

inline std::string fileText(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

/// "sample.site.toml" and the like.
inline std::string sampleText(const std::string& name) {
    return fileText(std::string(PLUMBLINE_TEST_DATA) + "/files/" + name);
}
inline std::string demoText(const std::string& name) {
    return fileText(std::string(PLUMBLINE_ASSETS) + "/demo/" + name);
}

/// With the first occurrence of `from` replaced; the text unchanged shows as a failing test.
inline std::string with(std::string text, const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    if (at != std::string::npos) text.replace(at, from.size(), to);
    return text;
}

}  // namespace plumbline::data
