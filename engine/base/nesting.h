#pragma once
// How deep the brackets of a text lie within one another, before a parser that calls itself meets
// them.

#include <cstddef>
#include <string_view>

namespace plumbline {

/// Deeper than any file that a person or a program has made for us; chosen.
inline constexpr std::size_t kDeepest = 100;

/// Place of the first bracket of a JSON text that lies deeper than so many others; npos: none.
/// What stands in quotes is passed over.
std::size_t nestedDeeper(std::string_view json_text, std::size_t most = kDeepest);

/// Place of the first dot of a TOML text that gives a key more than so many parts, each of which
/// is a table within a table; npos: none. Texts and comments are passed over.
std::size_t dottedDeeper(std::string_view toml_text, std::size_t most = kDeepest);

}  // namespace plumbline
