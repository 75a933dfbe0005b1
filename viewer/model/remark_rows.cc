#include "viewer/model/remark_rows.h"

#include "engine/units/quantity.h"
#include "viewer/model/model.h"

namespace plumbline::model {
namespace {

std::string saidAt(const season::Remark& remark) {
    return units::formatTime(remark.time_s) + ", " + remark.by;
}

}  // namespace

void addRemarkRows(const Model& model, std::vector<ListRow>& rows) {
    const Remarks& remarks = model.remarks;
    const bool there =
        remarks.written >= 0 && remarks.written < static_cast<int>(remarks.list.size());
    const double now_s = model.clock.time_s();
    const auto add = [&](const std::string& title, ActionKind kind, double time_s, bool coach) {
        ListRow row;
        row.title = title;
        row.action.kind = kind;
        row.action.index = there ? remarks.written : -1;
        row.action.value = time_s;
        row.action.x = coach ? 1 : 0;
        row.action.text = model.list.words;
        rows.push_back(std::move(row));
    };
    if (!there) {
        const std::string at = units::formatTime(now_s);
        for (const bool coach : {model.session.coach, !model.session.coach}) {
            add("Keep it at " + at + " as the " + (coach ? "coach's" : "pilot's"),
                ActionKind::KeepRemark, now_s, coach);
        }
        return;
    }
    const season::Remark& remark = remarks.list[static_cast<std::size_t>(remarks.written)];
    const bool coach = remark.by == "coach";
    add("Keep it with these words", ActionKind::KeepRemark, remark.time_s, coach);
    add("Move it to " + units::formatTime(now_s), ActionKind::KeepRemark, now_s, coach);
    add(std::string("Make it the ") + (coach ? "pilot's" : "coach's"), ActionKind::KeepRemark,
        remark.time_s, !coach);
    add("Delete it", ActionKind::DeleteRemark, 0, false);
}

void addSaidRows(const Model& model, std::vector<ListRow>& rows) {
    for (std::size_t i = 0; i < model.remarks.list.size(); ++i) {
        const season::Remark& remark = model.remarks.list[i];
        ListRow row;
        row.title = remark.words;
        row.detail = saidAt(remark);
        row.action.kind = ActionKind::WriteRemark;
        row.action.index = static_cast<int>(i);
        rows.push_back(std::move(row));
    }
}

void writeRemark(Model& model, int index) {
    if (!model.shown || model.shown->subject.key.empty()) return;
    model.list = List();
    model.list.kind = ListKind::Remark;
    model.clock.pause();
    const auto& list = model.remarks.list;
    model.remarks.written = index >= 0 && index < static_cast<int>(list.size()) ? index : -1;
    if (model.remarks.written >= 0) {
        model.list.words = list[static_cast<std::size_t>(index)].words;
    }
}

std::string remarkTitle(const Model& model) {
    const Remarks& remarks = model.remarks;
    if (remarks.written < 0 || remarks.written >= static_cast<int>(remarks.list.size()))
        return "What to say of this moment";
    return "Said at " + saidAt(remarks.list[static_cast<std::size_t>(remarks.written)]);
}

}  // namespace plumbline::model
