#pragma once
// Two people changed one text: what both meant, line by line, where that can be told.

#include <string>
#include <string_view>

namespace plumbline::model {

struct MergedText {
    std::string text;    ///< of both; of what clashes, mine
    bool clash = false;  ///< the two changed the same lines in different ways
};

/// @param base  what both began with
MergedText mergeTexts(std::string_view base, std::string_view mine, std::string_view theirs);

}  // namespace plumbline::model
