#include "viewer/model/remark_desk.h"

#include <algorithm>
#include <utility>

#include "viewer/model/remark_book.h"
#include "viewer/model/say.h"

namespace plumbline::model {
namespace {

void sortByTime(std::vector<season::Remark>& list) {
    std::stable_sort(list.begin(), list.end(),
                     [](const auto& a, const auto& b) { return a.time_s < b.time_s; });
}

/// A label on the path has room for some words; the timeline and the column have them all.
std::string shortened(const std::string& words) {
    constexpr std::size_t kMost = 48;  // bytes
    if (words.size() <= kMost) return words;
    std::size_t cut = words.rfind(' ', kMost);
    if (cut == std::string::npos || cut < kMost / 2) cut = kMost;
    while (cut > 0 && (static_cast<unsigned char>(words[cut]) & 0xC0U) == 0x80U) --cut;
    return words.substr(0, cut) + " \u2026";
}

/// Marks on the path for what was said.
void placeNotes(Remarks& remarks) {
    remarks.notes = nullptr;
    if (remarks.list.empty()) return;
    std::vector<scene::PathNote> notes;
    for (const season::Remark& remark : remarks.list)
        notes.push_back({remark.time_s, shortened(remark.words), remark.by});
    remarks.notes = std::make_shared<const std::vector<scene::PathNote>>(std::move(notes));
}

/// An index of the list; nothing for another.
std::optional<std::size_t> placeIn(const Remarks& remarks, int index) {
    if (index < 0 || index >= static_cast<int>(remarks.list.size())) return std::nullopt;
    return static_cast<std::size_t>(index);
}

}  // namespace

const char* remarkAuthor(int number) { return number == 1 ? "coach" : "pilot"; }

void RemarkDesk::look(Model& model) {
    if (!model.shown || model.shown->subject == model.remarks.about) return;
    model.remarks = Remarks();
    model.remarks.about = model.shown->subject;
    if (book_.empty() || model.remarks.about.key.empty()) return;
    auto list = remarksIn(book_, model.remarks.about);
    if (!list) {
        say(model, describe(list.error().front()), true);
        return;
    }
    model.remarks.list = std::move(*list);
    placeNotes(model.remarks);
}

bool RemarkDesk::apply(Model& model, const Action& action, std::int64_t now_utc_s) {
    switch (action.kind) {
        case ActionKind::KeepRemark:
            keep(model, action, now_utc_s);
            return true;
        case ActionKind::DeleteRemark:
            remove(model, action.index);
            return true;
        default:
            return false;
    }
}

void RemarkDesk::keep(Model& model, const Action& action, std::int64_t now_utc_s) {
    Remarks& remarks = model.remarks;
    if (remarks.about.key.empty()) return;
    const auto place = placeIn(remarks, action.index);
    season::Remark remark = place ? remarks.list[*place] : season::Remark();
    remark.about = remarks.about;
    remark.words = action.text;
    remark.time_s = action.value;
    remark.by = remarkAuthor(static_cast<int>(action.x));
    if (!book_.empty()) {
        auto kept = keepRemarkIn(book_, remark, now_utc_s);
        if (!kept) {
            say(model, "Not kept: " + describe(kept.error().front()), true);
            return;
        }
        remark = std::move(*kept);
    }
    if (place) {
        remarks.list[*place] = std::move(remark);
    } else {
        remarks.list.push_back(std::move(remark));
    }
    sortByTime(remarks.list);
    placeNotes(remarks);
    say(model, book_.empty() ? "Kept while this window is open" : "Kept in the season's book",
        false);
}

void RemarkDesk::remove(Model& model, int index) {
    const auto place = placeIn(model.remarks, index);
    if (!place) return;
    if (!book_.empty()) {
        const Problems problems = deleteRemarkIn(book_, model.remarks.list[*place].id);
        if (!problems.empty()) {
            say(model, "Not deleted: " + describe(problems.front()), true);
            return;
        }
    }
    model.remarks.list.erase(model.remarks.list.begin() + static_cast<std::ptrdiff_t>(*place));
    placeNotes(model.remarks);
    say(model, "The remark is deleted", false);
}

}  // namespace plumbline::model
