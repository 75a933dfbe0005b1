#include "engine/fly/aims.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/number_text.h"
#include "engine/fly/aim_measure.h"
#include "engine/fly/aim_search.h"
#include "engine/units/units.h"

namespace plumbline::fly {
namespace {

using routine::Aim;
using routine::RoutineFigure;

constexpr double kTrialTolerance = 1e-6;  // chosen: below a millimetre over a figure
constexpr double kNeverTried = std::numeric_limits<double>::quiet_NaN();

double valueAt(const Aim& aim, double share) {
    if (share == 1) return aim.to.value;
    return aim.from.value + share * (aim.to.value - aim.from.value);
}

/// The figures of a group, flown again and again.
class Flights {
public:
    Flights(RoutineFlyer& flyer, const AimGroup& group, const std::vector<RoutineFigure>& figures)
        : flyer_(flyer),
          group_(group),
          figures_(figures.begin() + static_cast<std::ptrdiff_t>(group.first),
                   figures.begin() + static_cast<std::ptrdiff_t>(group.last) + 1),
          shares_(group.aims.size(), kNeverTried) {}

    std::size_t aimCount() const { return group_.aims.size(); }
    const Aim& aim(std::size_t i) const {
        const PlacedAim& placed = group_.aims[i];
        return figures_[placed.figure - group_.first].aims[placed.index];
    }

    /// Flies as far as a figure's end with these values and tolerance; false where it does not get
    /// there. What stands flown already is kept.
    bool fly(const std::vector<double>& shares, double relative, std::size_t to) {
        Flight& flight = flyer_.flight();
        std::size_t changed = relative == relative_ ? flyer_.flown() : group_.first;
        relative_ = relative;
        bool understood = true;
        for (std::size_t i = 0; i < shares.size(); ++i) {
            if (shares[i] == shares_[i]) continue;
            const std::size_t figure = group_.aims[i].figure;
            changed = std::min(changed, figure);
            const bool set = routine::setValue(figures_[figure - group_.first], aim(i).change,
                                               valueAt(aim(i), shares[i]))
                                 .empty();
            shares_[i] = set ? shares[i] : kNeverTried;
            understood = understood && set;
        }
        if (changed < flyer_.flown()) flyer_.rewind(changed);
        if (!understood) return false;
        flight.held_tolerance.relative = flight.shaped_tolerance.relative = relative;
        while (flyer_.flown() <= to && !flyer_.grounded())
            flyer_.figure(figures_[flyer_.flown() - group_.first]);
        flight.held_tolerance.relative = flight.shaped_tolerance.relative =
            flyer_.solution().options.relative_tolerance;
        return flyer_.flown() > to + 1 || (flyer_.flown() == to + 1 && !flyer_.grounded());
    }

    double missOf(std::size_t i) const {
        return measureAim(aim(i), flyer_.solution(), group_.aims[i].measured) - aim(i).value;
    }

    const RoutineFigure& figure(std::size_t index) const { return figures_[index - group_.first]; }

private:
    RoutineFlyer& flyer_;
    const AimGroup& group_;
    std::vector<RoutineFigure> figures_;
    std::vector<double> shares_;  ///< that the figures have now
    double relative_ = kNeverTried;
};

/// The flights at one tolerance.
class FlownTrials : public AimTrials {
public:
    FlownTrials(Flights& flights, const AimGroup& group, double relative)
        : flights_(flights), group_(group), relative_(relative) {
        for (const PlacedAim& aim : group.aims) farthest_ = std::max(farthest_, aim.measured);
    }

    std::optional<double> miss(const std::vector<double>& shares, std::size_t aim) override {
        if (!flights_.fly(shares, relative_, group_.aims[aim].measured)) return std::nullopt;
        return flights_.missOf(aim);
    }

    std::optional<Misses> misses(const std::vector<double>& shares) override {
        if (!flights_.fly(shares, relative_, farthest_)) return std::nullopt;
        Misses out;
        for (std::size_t i = 0; i < group_.aims.size(); ++i) out.push_back(flights_.missOf(i));
        return out;
    }

private:
    Flights& flights_;
    const AimGroup& group_;
    double relative_;
    std::size_t farthest_ = 0;
};

std::string valueText(const routine::AnyQuantity& q) {
    switch (q.dimension) {
        case units::Dimension::Speed:
            return speedText(q.value);
        case units::Dimension::Load:
            return loadText(q.value);
        case units::Dimension::Angle:
            return angleText(q.value);
        case units::Dimension::AngularRate:
            return angleText(q.value) + "/s";
        case units::Dimension::Time:
            return formatFixed(q.value, 1) + " s";
        case units::Dimension::Ratio:
            return formatFixed(100 * q.value, 0) + " %";
        default:
            return lengthText(q.value);
    }
}

std::string placeWords(const Aim& aim) {
    const auto quantity = [&] {
        switch (aim.quantity) {
            case Aim::Quantity::X:
                return "x";
            case Aim::Quantity::Y:
                return "y";
            case Aim::Quantity::Height:
                return "height";
            default:
                return "speed";
        }
    };
    const std::string of = aim.of.empty() ? "" : " of " + aim.of;
    switch (aim.at) {
        case Aim::At::Top:
            return "the top" + of + " at ";
        case Aim::At::Lowest:
            return "the lowest point" + of + " at ";
        case Aim::At::Centre:
            return "the centre" + of + " at x ";
        case Aim::At::Start:
            return "the start" + of + " at " + quantity() + " ";
        default:
            return "the end" + of + " at " + quantity() + " ";
    }
}

/// Measured values in words, as fine as it takes to tell two of them apart.
struct Texts {
    std::string nearest, wanted;
};
Texts textsOf(const Aim& aim, double nearest, double raise_m) {
    const bool speed = aim.quantity == Aim::Quantity::Speed;
    const double unit = speed ? units::kKnot_mps : 1;
    const double raise = aim.quantity == Aim::Quantity::Height ? raise_m : 0;
    Texts texts;
    for (int decimals = 0; decimals <= 2; ++decimals) {
        const auto text = [&](double value) {
            return formatFixed((value + raise) / unit, decimals) + (speed ? " kt" : " m");
        };
        texts = {text(nearest), text(aim.value)};
        if (texts.nearest != texts.wanted) break;
    }
    return texts;
}

class Reporter {
public:
    Reporter(RoutineFlyer& flyer, const AimGroup& group) : flyer_(flyer), group_(group) {}

    void found(const Flights& flights, std::size_t i, double share, bool got_there) {
        const PlacedAim& placed = group_.aims[i];
        const Aim& aim = flights.aim(i);
        FoundValue value;
        value.figure = static_cast<std::int32_t>(placed.figure);
        value.aim = static_cast<std::int32_t>(placed.index);
        value.parameter = aim.change;
        value.value = valueAt(aim, share);
        const routine::AnyQuantity quantity{aim.from.dimension, value.value};
        value.text = routine::writeQuantity(quantity);
        value.words = aim.change + " = " + valueText(quantity);
        const double miss = got_there ? flights.missOf(i) : 0;
        value.met = got_there && std::fabs(miss) <= kAimMet;
        const double raise_m = flyer_.solution().world->raise_m;
        const Texts texts = textsOf(aim, got_there ? aim.value + miss : kNeverTried, raise_m);
        SolveNote note;
        if (value.met) {
            note.subject = "aim";
            note.what = value.words + " puts " + placeWords(aim) +
                        textsOf(aim, kNeverTried, raise_m).wanted;
        } else {
            note.kind = SolveNote::Kind::NotFlyable;
            note.limit = texts.wanted;
            if (got_there) {
                note.what = "cannot put " + placeWords(aim) + texts.wanted +
                            ": the nearest is with " + value.words;
                note.value = texts.nearest;
            } else {
                note.what = "cannot put " + placeWords(aim) + texts.wanted +
                            ": with no value tried is it flown";
            }
            note.remedy = "widen the values to try, " + aim.from_words + " to " + aim.to_words +
                          ", or want something nearer";
        }
        add(placed, aim, std::move(note));
        flyer_.addFound(std::move(value));
    }

    void tooLate(const PlacedAim& placed, const Aim& aim) {
        SolveNote note;
        note.kind = SolveNote::Kind::NotFlyable;
        note.what = "cannot put " + placeWords(aim) +
                    textsOf(aim, kNeverTried, flyer_.solution().world->raise_m).wanted +
                    ": it is flown before " + aim.change + " is";
        note.remedy = "move the aim to that figure or one before it";
        add(placed, aim, std::move(note));
    }

private:
    void add(const PlacedAim& placed, const Aim& aim, SolveNote note) {
        const Solution::Impl& flown = flyer_.solution();
        if (flown.frame.elements.empty()) return;
        const std::size_t at = std::min(placed.figure, flyer_.flown());
        const Checkpoint& before = flown.checkpoints[at];
        note.figure = static_cast<std::int32_t>(placed.figure);
        note.element =
            static_cast<std::int32_t>(std::min(before.elements, flown.frame.elements.size() - 1));
        note.source_line = aim.where.line;
        note.time_s = before.flight.joint.time_s;
        flyer_.flight().notes.push_back(std::move(note));
    }

    RoutineFlyer& flyer_;
    const AimGroup& group_;
};

/// Where the value as written lies in its range.
double writtenShare(const RoutineFigure& figure, const Aim& aim) {
    for (const text::ParameterValue& value : figure.values) {
        if (value.name != aim.change) continue;
        const auto now = routine::readAnyQuantity(value.value);
        if (!now) break;
        return std::clamp((now->value - aim.from.value) / (aim.to.value - aim.from.value), 0.0,
                          1.0);
    }
    return 0.5;
}

}  // namespace

std::vector<AimGroup> groupAims(const std::vector<RoutineFigure>& figures) {
    std::vector<AimGroup> groups;
    for (std::size_t f = 0; f < figures.size(); ++f) {
        for (std::size_t a = 0; a < figures[f].aims.size(); ++a) {
            const Aim& aim = figures[f].aims[a];
            std::size_t measured = f;
            if (!aim.of.empty()) {
                measured = 0;
                while (measured < figures.size() && figures[measured].name != aim.of) ++measured;
                if (measured == figures.size()) continue;
            }
            if (groups.empty() || groups.back().last < f) groups.push_back({f, f, {}, {}});
            AimGroup& group = groups.back();
            group.last = std::max(group.last, measured);
            (measured < f ? group.too_late : group.aims).push_back({f, a, measured});
        }
    }
    return groups;
}

void flyAims(RoutineFlyer& flyer, const AimGroup& group,
             const std::vector<RoutineFigure>& figures) {
    Flights flights(flyer, group, figures);
    const double relative = flyer.solution().options.relative_tolerance;
    FlownTrials rough(flights, group, std::max(relative, kTrialTolerance));
    FlownTrials exact(flights, group, relative);
    std::vector<double> shares;
    for (const PlacedAim& aim : group.aims)
        shares.push_back(writtenShare(figures[aim.figure], figures[aim.figure].aims[aim.index]));
    AimResult found{shares, std::nullopt};
    if (!group.aims.empty()) found = polishAims(rough, exact, searchAims(rough, shares));
    flights.fly(found.shares, relative, group.last);
    Reporter reporter(flyer, group);
    for (std::size_t i = 0; i < group.aims.size(); ++i)
        reporter.found(flights, i, found.shares[i], found.misses.has_value());
    for (const PlacedAim& late : group.too_late)
        reporter.tooLate(late, figures[late.figure].aims[late.index]);
    flyer.keepAdditions();
}

}  // namespace plumbline::fly
