// The book among other programs that write it, and after one that was killed.

#include <algorithm>
#include <csignal>
#include <random>

#include <sys/wait.h>
#include <unistd.h>

#include "engine/season/database.h"
#include "engine/season/remarks.h"
#include "tests/engine/season/season_folder.h"

namespace plumbline {
namespace {

using season::Book;

class SeasonInHardTimes : public test::SeasonFolder {
protected:
    /// A process of its own that runs `work`; its exit code is what that returns.
    template <class Work>
    static pid_t begin(const Work& work) {
        const pid_t child = fork();
        if (child == 0) _exit(work());
        return child;
    }
    static int end(pid_t child) {
        int status = 0;
        waitpid(child, &status, 0);
        return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
    }
    /// @return how many could not be added
    int addMany(const std::string& by, int count) const {
        int failed = 0;
        for (int i = 0; i < count; ++i) {
            Expected<Book, Problems> book = Book::open(file_, Book::Access::Make);
            season::Remark r;
            r.about = season::aboutRoutine("Evening");
            r.time_s = i;
            r.by = by;
            r.words = "w";
            if (!book || !season::addRemark(*book, r)) ++failed;
        }
        return failed;
    }
};

TEST_F(SeasonInHardTimes, TwoAtOnceLoseNothing) {
    // From a book that neither finds there: it is made by one while the other waits.
    constexpr int kEach = 40;
    const pid_t one = begin([&] { return addMany("one", kEach); });
    const pid_t two = begin([&] { return addMany("two", kEach); });
    EXPECT_EQ(end(one), 0);
    EXPECT_EQ(end(two), 0);
    Book book = open(Book::Access::Existing);
    const auto all = season::allRemarks(book);
    EXPECT_EQ(all->size(), 2U * kEach);
    EXPECT_EQ(std::count_if(all->begin(), all->end(), [](const auto& r) { return r.by == "one"; }),
              kEach);
}

TEST_F(SeasonInHardTimes, WhoIsKilledLosesNothingThatWasSaidToBeThere) {
    std::mt19937 random(5);
    std::size_t said = 0;
    for (int round = 0; round < 15; ++round) {
        int ends[2];
        ASSERT_EQ(pipe(ends), 0);
        const pid_t child = begin([&] {
            for (;;) {
                if (addMany("one", 1) != 0) return 1;
                if (::write(ends[1], "x", 1) != 1) return 2;
            }
        });
        close(ends[1]);
        char byte = 0;
        const unsigned long stop = 1 + random() % 4;
        for (unsigned long i = 0; i < stop && read(ends[0], &byte, 1) == 1; ++i) ++said;
        usleep(static_cast<useconds_t>(random() % 8000));  // into the midst of a write
        kill(child, SIGKILL);
        EXPECT_EQ(end(child), -SIGKILL);
        while (read(ends[0], &byte, 1) == 1) ++said;
        close(ends[0]);
        Book book = open(Book::Access::Existing);
        const std::size_t there = season::allRemarks(book)->size();
        ASSERT_GE(there, said) << round;
        // One may be there whose message was cut off.
        ASSERT_LE(there, said + static_cast<std::size_t>(round) + 1) << round;
    }
}

TEST_F(SeasonInHardTimes, AChangeThatIsNotCommittedIsNotThere) {
    { Book book = open(); }
    const pid_t child = begin([&] {
        season::Database database(file_, false);
        season::Transaction transaction(database);
        season::Query(database,
                      "INSERT INTO remark(about, key, time_s, who, words, written_utc_s) "
                      "VALUES('routine', 'Evening', 1.0, 'one', 'half', 1)")
            .run();
        // All of it written to the file, as when memory is short; then gone.
        database.run("PRAGMA cache_spill = 1; PRAGMA cache_size = 1");
        for (int i = 0; i < 3000; ++i)
            season::Query(database,
                          "INSERT INTO remark(about, key, time_s, who, words, written_utc_s) "
                          "VALUES('routine', 'Evening', 1.0, 'one', 'half', 1)")
                .run();
        return kill(getpid(), SIGKILL);
    });
    EXPECT_EQ(end(child), -SIGKILL);
    ASSERT_TRUE(std::filesystem::exists(file_.string() + "-journal"));  // it was in the midst of it
    Book book = open(Book::Access::Existing);
    EXPECT_TRUE(season::allRemarks(book)->empty());
}

}  // namespace
}  // namespace plumbline
