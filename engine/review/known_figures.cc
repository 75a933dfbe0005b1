#include "engine/review/known_figures.h"

#include <algorithm>
#include <cmath>

#include "engine/review/match.h"
#include "engine/variant/shelf.h"

namespace plumbline::review {
namespace {

constexpr double kLevel_z = 0.26;  // 15 deg

/// The pieces that tell, whichever side they go to.
std::vector<Piece> withoutSides(std::span<const Piece> pieces) {
    std::vector<Piece> out;
    for (const Piece& piece : pieces) {
        const bool level = piece.motion == Motion::Line && std::fabs(piece.way_S.z) < kLevel_z;
        if (!tells(piece) || (level && !rollsForItself(piece))) continue;
        Piece plain = piece;
        plain.turned_rad = std::fabs(piece.turned_rad);
        double rolled_rad = 0;
        for (const Roll& roll : piece.rolls) rolled_rad += std::fabs(roll.angle_rad);
        plain.rolled_rad = piece.rolls.empty() ? std::fabs(piece.rolled_rad) : rolled_rad;
        plain.snapped_rad = std::fabs(piece.snapped_rad);
        out.push_back(std::move(plain));
    }
    return out;
}

/// chosen: turns are banked up to about so much; what rolls further is a roll for itself
constexpr double kBank_rad = 75 * kPi / 180;

bool isRoll(const Roll& roll) { return std::fabs(roll.angle_rad) > kBank_rad; }

/// What unlikeness() does not look at: a snap is no roll, a roll on an arc makes another figure,
/// two halves are no whole.
double otherwiseUnlike(const std::vector<Piece>& a, const std::vector<Piece>& b) {
    constexpr double kMuch_rad = 120 * kPi / 180;
    double snapped = 0, rolled = 0, rolls = 0;
    const auto add = [&](const std::vector<Piece>& pieces, double sign) {
        for (const Piece& piece : pieces) {
            snapped += sign * piece.snapped_rad;
            if (piece.motion != Motion::Line) rolled += sign * piece.rolled_rad;
            rolls += sign * static_cast<double>(
                                std::count_if(piece.rolls.begin(), piece.rolls.end(), isRoll));
        }
    };
    add(a, 1);
    add(b, -1);
    return (std::fabs(snapped) + std::fabs(rolled)) / kMuch_rad + std::fabs(rolls);
}

}  // namespace

bool rollsForItself(const Piece& piece) {
    return std::any_of(piece.rolls.begin(), piece.rolls.end(), isRoll);
}

std::vector<KnownFigure> shelfFigures() {
    constexpr double kRate_hz = 50;  // as often as pieces are looked for
    std::vector<KnownFigure> out;
    for (const variant::ShelfFigure& figure : variant::flyShelf(kRate_hz))
        out.push_back({figure.title, piecesOf(figure.path)});
    return out;
}

std::string knownName(std::span<const Piece> stretch, std::span<const KnownFigure> known) {
    // chosen: a third of a doubtful pair for each piece, and everything else twice as far and more
    constexpr double kAlike = 0.3, kNearer = 0.6;
    const std::vector<Piece> own = withoutSides(stretch);
    if (own.empty()) return {};
    const KnownFigure* best = nullptr;
    double least = 1e9, next = 1e9;
    for (const KnownFigure& figure : known) {
        const std::vector<Piece> its = withoutSides(figure.pieces);
        if (its.empty()) continue;
        const double miss = unlikenessInOrder(own, its) + otherwiseUnlike(own, its);
        if (miss < least) {
            next = least;
            least = miss;
            best = &figure;
        } else if (miss < next) {
            next = miss;
        }
    }
    if (best == nullptr || least > kAlike * static_cast<double>(own.size())) return {};
    return next - least >= kNearer ? best->name : std::string();
}

}  // namespace plumbline::review
