#pragma once
// The lists in which remarks are written, changed and found.

#include <string>
#include <vector>

#include "viewer/model/list.h"

namespace plumbline::model {

/// What can become of the words typed, and of a remark that is there.
void addRemarkRows(const Model& model, std::vector<ListRow>& rows);
/// Everything that was said of what is shown.
void addSaidRows(const Model& model, std::vector<ListRow>& rows);
std::string remarkTitle(const Model& model);
/// Opens the list in which a remark is written.
/// @param index  of the remarks; -1: a new one
void writeRemark(Model& model, int index);

}  // namespace plumbline::model
