#pragma once
// A folder of its own with a book in it.

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include <gtest/gtest.h>

#include "engine/season/book.h"

namespace plumbline::test {

class SeasonFolder : public testing::Test {
protected:
    void SetUp() override {
        const testing::TestInfo* info = testing::UnitTest::GetInstance()->current_test_info();
        folder_ = std::filesystem::path(testing::TempDir()) /
                  (std::string("plumbline_") + info->test_suite_name() + "_" + info->name());
        std::filesystem::remove_all(folder_);
        std::filesystem::create_directories(folder_);
        file_ = folder_ / "season.book";
    }
    void TearDown() override { std::filesystem::remove_all(folder_); }

    season::Book open(season::Book::Access access = season::Book::Access::Make) const {
        Expected<season::Book, Problems> book = season::Book::open(file_, access);
        if (!book) {
            ADD_FAILURE() << describe(book.error());
            std::abort();
        }
        return std::move(*book);
    }
    /// What opening says; empty when it opens.
    std::string refusal(season::Book::Access access = season::Book::Access::Existing) const {
        const Expected<season::Book, Problems> book = season::Book::open(file_, access);
        return book ? std::string() : describe(book.error());
    }
    std::string bytes() const {
        std::ifstream file(file_, std::ios::binary);
        return {std::istreambuf_iterator<char>(file), {}};
    }
    void write(const std::string& bytes) const { std::ofstream(file_, std::ios::binary) << bytes; }

    std::filesystem::path folder_, file_;
};

}  // namespace plumbline::test
