#pragma once
// A program of the system that reads what we write, such as one that makes a film of pictures.

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace plumbline::system {

/// Started without a shell; its output and messages go where ours go.
class Feed {
public:
    /// @param arguments  the program, looked for where programs are, and what it is told
    /// @param reason  why it cannot be started, when nothing is returned
    static std::optional<Feed> start(const std::vector<std::string>& arguments,
                                     std::string& reason);

    Feed(Feed&&) noexcept;
    Feed& operator=(Feed&&) noexcept;
    /// Closes what it reads and waits for it.
    ~Feed();

    /// Waits until all is taken. @return false when it reads no more
    bool write(std::span<const std::uint8_t> bytes);
    /// Nothing more comes: waits for its end. @return its exit code; -1 when it did not end by
    /// itself
    int finish();

private:
    struct Child;
    explicit Feed(std::unique_ptr<Child> child);
    std::unique_ptr<Child> child_;
};

}  // namespace plumbline::system
