#include "tests/property/random_routine.h"

#include <cmath>

#include "engine/base/number_text.h"

namespace plumbline::test {

std::uint64_t Random::next() {
    state_ += 0x9e3779b97f4a7c15U;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
    return z ^ (z >> 31);
}

namespace {

/// Writes figures; every number comes from the seed, every side and x from the mirror.
class Writer {
public:
    Writer(std::uint64_t seed, bool mirrored) : random_(seed), mirrored_(mirrored) {}

    RandomRoutine write() {
        RandomRoutine r;
        r.x_m = (mirrored_ ? -1 : 1) * whole(-1200, 400);
        r.height_m = whole(450, 900);
        r.speed_mps = whole(65, 105);
        r.crowd_right = !mirrored_;
        const int figures = 2 + random_.below(4);
        for (int i = 0; i < figures; ++i) figure();
        r.text = text_;
        return r;
    }

private:
    double whole(double low, double high) { return std::round(random_.between(low, high)); }
    std::string number(double low, double high) { return formatDouble(whole(low, high)); }
    std::string tenths(double low, double high) {
        return formatFixed(random_.between(low, high), 1);
    }
    std::string side() { return random_.chance(0.5) != mirrored_ ? "left" : "right"; }
    void line(const std::string& words) { text_ += words + "\n"; }

    std::string placement() {
        static const char* const kPlaces[] = {"", "", " at start", " at end"};
        return kPlaces[random_.below(4)];
    }
    std::string halfRoll() { return " with 1/2 roll " + side() + placement(); }
    /// Rolls that end as they began, or none.
    std::string wholeRolls() {
        switch (random_.below(6)) {
            case 0:
                return " with 1 roll " + side() + placement();
            case 1:
                return " with 2 rolls " + side() + " at " + number(90, 250) + " deg/s";
            case 2:
                return " with 4 of 4 points " + side();
            case 3:
                return " with 8 of 8 points " + side() + " pause 0.3 s";
            case 4:
                return " with 1/2 roll " + side() + " then 1/2 roll " + side();
            default:
                return "";
        }
    }
    std::string pull(double low_g, double high_g) { return " at " + tenths(low_g, high_g) + " g"; }
    std::string arcSize() {
        return random_.chance(0.5) ? " radius " + number(90, 150) + " m" : pull(2.5, 7);
    }

    void hammerhead() {
        line("pull to up" + pull(4, 7));
        line("line up until " + number(15, 45) + " kt" +
             (random_.chance(0.5) ? " with 1/4 roll " + side() : ""));
        line("pivot " + side() +
             (random_.chance(0.5) ? " in " + tenths(1.8, 3) + " s power " + number(0, 60) + " %"
                                  : ""));
        line("line down " + number(60, 260) + " m" +
             (random_.chance(0.5) ? " with 1/4 roll " + side() : ""));
        line("pull to level" + pull(4, 7));
    }
    void tailslide() {
        line("pull to up" + pull(4, 6.5));
        line("line up until " + number(45, 70) + " kt");
        line("power idle");
        line("line up until " + number(5, 30) + " kt");
        line(random_.chance(0.7) ? "slide " + number(5, 160) + " m"
                                 : "slide until " + number(10, 35) + " m/s");
        line(random_.chance(0.5) ? "fall wheels-down" : "fall wheels-up");
        line("line down " + number(40, 150) + " m");
        line("power full");
        line("pull to level" + pull(4, 7));
    }
    void overTheTop() {
        line("pull to up" + pull(4, 7));
        line("line up " + number(60, 260) + " m" + (random_.chance(0.5) ? halfRoll() : ""));
        line((random_.chance(0.5) ? "pull to down" : "push to down") + pull(1.5, 3));
        line("line down " + number(40, 200) + " m" + (random_.chance(0.4) ? wholeRolls() : ""));
        line((random_.chance(0.7) ? "pull to level" : "push to inverted level") + pull(3.5, 6.5));
        if (text_.find("inverted level") != std::string::npos)
            line("line level 150 m" + halfRoll());
    }
    void cubans() {
        if (random_.chance(0.5)) {
            line("pull 225 deg" + arcSize());
            line("line 45 deg down " + number(60, 250) + " m" + halfRoll());
            line("pull to level" + pull(3, 6));
        } else {
            line("pull to 45 deg up" + pull(3, 6));
            line("line 45 deg up " + number(80, 250) + " m" + halfRoll());
            line("pull 225 deg" + arcSize());
        }
    }
    void slantedLine() {
        const std::string slope = number(10, 80) + " deg " + (random_.chance(0.6) ? "up" : "down");
        const bool up = slope.find("up") != std::string::npos;
        line((up ? "pull to " : "push to ") + slope + (up ? pull(2, 6) : pull(0.5, 3)));
        const std::string rolls = random_.chance(0.4) ? wholeRolls() : "";
        line("line " + slope + (random_.chance(0.3) ? " by path " : " ") +
             (rolls.empty() ? number(40, 160) : number(150, 300)) + " m" + rolls);
        line((up ? "push to level" : "pull to level") + (up ? pull(0.5, 3) : pull(2, 6)));
    }
    void outside() {
        line("line level " + number(100, 300) + " m" + halfRoll());
        line("push " + std::string(random_.chance(0.5) ? "360" : "180") + " deg radius " +
             number(110, 180) + " m");
        line("line level " + number(60, 300) + " m");
    }
    void knifeEdge() {
        const std::string way = side();
        line("line level " + number(150, 400) + " m with 1/4 roll " + way + " at end");
        line("line level " + number(50, 400) + " m");
        line("line level " + number(150, 300) + " m with 1/4 roll " +
             (random_.chance(0.5) ? way : side()) + " at start");
    }
    void turn() {
        line("turn " + side() + " " + number(20, 400) + " deg" +
             (random_.chance(0.5) ? " bank " + number(20, 75) + " deg" : pull(1.2, 4)));
    }
    void reposition() {
        const double x = (mirrored_ ? -1 : 1) * whole(-1200, 1200);
        line("power full");
        line("reposition to x " + formatDouble(x) + " m y " + number(0, 400) + " m height " +
             number(300, 700) + " m heading " +
             (random_.chance(0.5) != mirrored_ ? "crowd-right" : "crowd-left") + " speed " +
             number(110, 170) + " kt");
    }
    std::string snap() {
        static const char* const kSnaps[] = {"1 snap ", "1/2 snap ", "1 negative snap ",
                                             "1 1/2 negative snaps ", "3/4 snap "};
        return std::string(" with ") + kSnaps[random_.below(5)] + side() + placement();
    }
    void snaps() {
        switch (random_.below(3)) {
            case 0:
                line("power 40 %");
                line("line level until 110 kt or 15 s");
                line("line level " + number(250, 500) + " m" + snap());
                line("power full");
                break;
            case 1:
                line("pull to 45 deg up" + pull(3, 5));
                line("line 45 deg up until 120 kt or 8 s");
                line("line 45 deg up " + number(150, 250) + " m with 1 snap " + side());
                line("push to level at 1 g");
                break;
            default:
                line("pull to up" + pull(3, 5));
                line("line up until " + number(80, 100) + " kt");
                line("line up " + number(100, 160) + " m" + snap());
                line("pull to down at 1.5 g");
                line("line down " + number(80, 200) + " m" + snap());
                line("pull to level" + pull(3, 5));
                break;
        }
    }
    void spin() {
        static const char* const kTurns[] = {" 1 turn", " 1 1/4 turns", " 2 turns", " 2 1/2 turns",
                                             " 3 turns"};
        const bool inverted = random_.chance(0.3);
        if (inverted) line("line level " + number(220, 300) + " m with 1/2 roll " + side());
        line("power idle");
        line("spin " + side() + kTurns[random_.below(5)] + (inverted ? " inverted" : ""));
        line("line down " + number(60, 160) + " m");
        line("power full");
        line("pull to level" + pull(3, 5));
    }
    void tumble() {
        static const char* const kWays[] = {"forward 1 1/2 turns", "forward 2 1/2 turns in 4.5 s",
                                            "backward 1 1/2 turns"};
        line("pull to up" + pull(4, 6));
        line("line up until " + number(55, 75) + " kt");
        line("tumble " + (random_.chance(0.4) ? side() + " 1 1/2 turns" : kWays[random_.below(3)]));
        line("line down " + number(80, 160) + " m");
        line("pull to level" + pull(3, 5));
    }
    void torqueRoll() {
        line("pull to up" + pull(4, 6));
        line("line up until " + number(8, 18) + " kt");
        line(std::string("torque-roll ") + (mirrored_ ? "right " : "left ") + number(1, 2) +
             " rolls");
        line("power idle");
        line("slide " + number(20, 40) + " m");
        line(random_.chance(0.5) ? "fall wheels-down" : "fall wheels-up");
        line("line down " + number(60, 120) + " m");
        line("power full");
        line("pull to level" + pull(3, 5));
    }
    /// One word whatever the flight is doing: mostly not flyable.
    void outOfPlace() {
        switch (random_.below(6)) {
            case 0:
                line("pivot " + side());
                break;
            case 1:
                line("pull to up" + pull(1, 10));
                break;
            case 2:
                line("fall wheels-up");
                break;
            case 3:
                line("line level until " + number(20, 220) + " kt or 6 s");
                break;
            case 4:
                line("slide " + number(5, 60) + " m");
                break;
            default:
                line("push to down" + pull(0.5, 7));
                break;
        }
    }

    void figure() {
        const bool throttled = random_.chance(0.2);
        if (throttled) line("power " + number(0, 100) + " %");
        switch (random_.below(16)) {
            case 12:
                snaps();
                break;
            case 13:
                spin();
                break;
            case 14:
                tumble();
                break;
            case 15:
                torqueRoll();
                break;
            case 0:
                hammerhead();
                break;
            case 1:
                tailslide();
                break;
            case 2:
                overTheTop();
                break;
            case 3:
                cubans();
                break;
            case 4:
                slantedLine();
                break;
            case 5:
                outside();
                break;
            case 6:
                knifeEdge();
                break;
            case 7:
                turn();
                break;
            case 8:
                line("line level " + number(250, 700) + " m" + wholeRolls());
                break;
            case 9:
                line("pull 360 deg" + arcSize());
                break;
            case 10:
                random_.chance(0.3) ? reposition() : turn();
                break;
            default:
                random_.chance(0.3) ? outOfPlace() : slantedLine();
                break;
        }
        if (throttled && random_.chance(0.8)) line("power full");
        if (random_.chance(0.7)) line("line level " + number(30, 400) + " m");
    }

    Random random_;
    bool mirrored_;
    std::string text_;
};

}  // namespace

RandomRoutine randomRoutine(std::uint64_t seed, bool mirrored) {
    return Writer(seed, mirrored).write();
}

}  // namespace plumbline::test
