// What TOML files may not be, whatever their kind.

#include "engine/data/toml_tree.h"

#include <string>

#include <gtest/gtest.h>

namespace plumbline::data {
namespace {

std::string repeated(const std::string& text, int times) {
    std::string out;
    for (int i = 0; i < times; ++i) out += text;
    return out;
}

/// The one problem of a text that is refused.
Problem refused(const std::string& text) {
    const auto read = parseToml(text, "f.toml");
    if (read || read.error().size() != 1) {
        ADD_FAILURE() << "not refused, or with several problems";
        return {};
    }
    EXPECT_FALSE(read.error()[0].what.empty());
    EXPECT_FALSE(read.error()[0].remedy.empty());
    EXPECT_EQ(read.error()[0].where.file, "f.toml");
    return read.error()[0];
}

TEST(TomlTree, WhatIsNestedWithoutEndIsRefusedWithItsPlace) {
    EXPECT_EQ(refused("\na = " + repeated("[", 100000)).where.line, 2);
    EXPECT_EQ(refused("\na = " + repeated("{a = ", 100000)).where.line, 2);
    const Problem key = refused("\n" + repeated("a.", 100000) + "a = 1");
    EXPECT_EQ(key.where.line, 2);
    EXPECT_EQ(key.where.column, 200);  // the hundredth dot
    EXPECT_EQ(refused("[" + repeated("\"a\".", 100000) + "a]").where.line, 1);
}

TEST(TomlTree, DotsInTextsAreNoKeys) {
    const std::string dots = repeated(".", 500);
    EXPECT_TRUE(parseToml("a = \"" + dots + "\"  # " + dots + "\nb = '''\n" + dots + "'''\n", "f")
                    .has_value());
}

TEST(TomlTree, AFileThatIsFarTooLargeIsRefused) {
    const Problem problem = refused("a = 1\n" + repeated("#" + std::string(1023, ' '), 16384));
    EXPECT_NE(problem.what.find("16 MB"), std::string::npos);
}

}  // namespace
}  // namespace plumbline::data
