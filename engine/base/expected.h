#pragma once
// A result or the reasons why there is none. Member names follow std::expected (C++23, absent from
// g++ 12 in C++20 mode) so that it can be swapped later.

#include <cstdio>
#include <cstdlib>
#include <utility>
#include <variant>

namespace plumbline {

/// Wraps an error so that Expected can be made from it without ambiguity.
template <class E>
class Unexpected {
public:
    explicit Unexpected(E error) : error_(std::move(error)) {}
    const E& error() const& { return error_; }
    E&& error() && { return std::move(error_); }

private:
    E error_;
};

/// Either a value of T or an error of E; asking for the one that is not there aborts.
template <class T, class E>
class [[nodiscard]] Expected {
public:
    // NOLINTBEGIN(readability-identifier-naming): the standard's names
    using value_type = T;
    using error_type = E;

    Expected(T value) : content_(std::in_place_index<0>, std::move(value)) {}
    Expected(Unexpected<E> error) : content_(std::in_place_index<1>, std::move(error).error()) {}

    bool has_value() const { return content_.index() == 0; }
    explicit operator bool() const { return has_value(); }

    const T& value() const& { return *ptr(); }
    T& value() & { return *ptr(); }
    T&& value() && { return std::move(*ptr()); }
    const T& operator*() const& { return *ptr(); }
    T& operator*() & { return *ptr(); }
    T&& operator*() && { return std::move(*ptr()); }
    const T* operator->() const { return ptr(); }
    T* operator->() { return ptr(); }

    const E& error() const& { return *errorPtr(); }
    E& error() & { return *errorPtr(); }
    E&& error() && { return std::move(*errorPtr()); }

    T value_or(T other) const& { return has_value() ? *ptr() : std::move(other); }
    // NOLINTEND(readability-identifier-naming)

private:
    [[noreturn]] static void misuse(const char* what) {
        std::fprintf(stderr, "plumbline: internal error: Expected holds no %s\n", what);
        std::abort();
    }
    const T* ptr() const {
        if (const T* held = std::get_if<0>(&content_)) return held;
        misuse("value");
    }
    T* ptr() {
        if (T* held = std::get_if<0>(&content_)) return held;
        misuse("value");
    }
    const E* errorPtr() const {
        if (const E* held = std::get_if<1>(&content_)) return held;
        misuse("error");
    }
    E* errorPtr() {
        if (E* held = std::get_if<1>(&content_)) return held;
        misuse("error");
    }

    std::variant<T, E> content_;
};

}  // namespace plumbline
