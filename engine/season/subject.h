#pragma once
// What a coach or the pilot says of a moment of a routine or a sortie, and how both are told from
// others.

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

namespace plumbline::season {

/// What a remark is about. It need not be in the book itself.
struct Subject {
    enum class Kind { Routine, Sortie };
    Kind kind = Kind::Sortie;
    std::string key;  ///< of a routine its name, of a sortie what sortieKey gives
    bool operator==(const Subject&) const = default;
};
Subject aboutRoutine(std::string name);
/// @param files  the bytes of the flight's recordings, in any order
Subject aboutSortie(std::span<const std::string_view> files);

/// Sixteen hexadecimal digits of the bytes of a flight's recordings, in any order: the same files
/// are the same sortie, whatever they are called.
/// @source 64-bit FNV-1a of each file (base/fingerprint.h), their sum
std::string sortieKey(std::span<const std::string_view> files);

struct Remark {
    std::int64_t id = 0;  ///< given by the book; never given twice
    Subject about;
    double time_s = 0;  ///< from the start of the routine's or the flight's path
    std::string by;
    std::string words;
    std::int64_t written_utc_s = 0;  ///< since 1970
    std::int64_t changed_utc_s = 0;  ///< 0: never
};

}  // namespace plumbline::season
