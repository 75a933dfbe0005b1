#!/bin/sh
# Computes the guide's pictures and its page of the shelf: assets/guide/make_pictures.sh PLUMBLINE [NAME...]
# Needs ImageMagick's convert. Each picture is one figure, flown at the demo's site by the demo's aircraft on a
# standard day without wind, moved along and away from the crowd so that all of it is seen from the crowd line.
set -eu
assets=$(cd "$(dirname "$0")/.." && pwd)
plumbline=$1
shift
wanted=" $* "
lens=24mm
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# routine X Y: the routine of the figure at hand, begun there.
routine() {
    cat <<TOML
name = "Guide"
aircraft = "$assets/demo/marrel.aircraft.toml"
site = "$work/guide.site.toml"
[start]
x = "$1 m"
y = "$2 m"
height = "$height m"
heading = "crowd-right"
speed = "$speed kt"
fuel = "45 l"
[[figure]]
name = "Figure"
$body
TOML
}

# draw NAME SIZE QUALITY PART: flies it once to see where it goes, moves it into sight, and draws the moment in the
# last PART of its time at which the aircraft is nearest to the middle of the figure. Where PART is the label of an
# element that turns on the spot, five moments of it side by side, from the chase view.
draw() {
    case "$wanted" in "  " | *" $1 "*) ;; *) return 0 ;; esac
    routine 0 0 > "$work/r.routine.toml"
    "$plumbline" solve "$work/r.routine.toml" --rate 10 -o "$work/r.csv" > /dev/null 2>&1 || true
    place=$(awk -F, -v part="$4" '
        /^#/ { next }
        !head { for (i = 1; i <= NF; ++i) column[$i] = i; head = 1; next }
        { n++; t[n] = $column["time_s"]; x[n] = $column["x_m"]; y[n] = $column["y_m"]; z[n] = $column["height_m"]
          if (n == 1 || x[n] < x0) x0 = x[n]; if (n == 1 || x[n] > x1) x1 = x[n]
          if (n == 1 || y[n] < y0) y0 = y[n]
          if (n == 1 || z[n] < z0) z0 = z[n]; if (n == 1 || z[n] > z1) z1 = z[n]
          if ($column["element"] == part) { if (!begins) begins = t[n]; ends = t[n] } }
        END { far = (x1 - x0) / 1.25; if (z1 / 0.62 > far) far = z1 / 0.62; if (far < 190) far = 190
              best = 1e9
              for (i = 1; i <= n; ++i) {
                  if (t[i] < (1 - part) * t[n] || t[i] > t[n] - 0.2) continue
                  off = x[i] - (x0 + x1) / 2; if (off < 0) off = -off
                  up = z[i] - (z0 + z1) / 2; if (up < 0) up = -up
                  if (off + up < best) { best = off + up; at = t[i] } }
              printf "%.0f %.0f", -(x0 + x1) / 2, far - 155 - y0
              if (!ends) printf " %.1f", at
              else for (i = 0; i < 5; ++i) printf " %.1f", begins + (ends - begins) * (0.08 + 0.17 * i) }' "$work/r.csv")
    # shellcheck disable=SC2086  # numbers
    set -- "$1" "$2" "$3" $place
    name=$1 into=$2 quality=$3
    routine "$4" "$5" > "$work/r.routine.toml"
    shift 5
    if [ $# -eq 1 ]; then shape=1280x720 view=crowd; else shape=320x480 view=chase; fi
    drawn=
    for moment in "$@"; do
        "$plumbline" picture "$work/r.routine.toml" --from "$view" --lens "$lens" --at "${moment}s" --size "$shape" \
            -o "$work/at$moment.png" > "$work/said.txt" 2>&1 || { cat "$work/said.txt"; exit 1; }
        drawn="$drawn $work/at$moment.png"
    done
    # shellcheck disable=SC2086  # files without blanks
    convert $drawn +append -resize "$into" -strip -quality "$quality" "$assets/guide/pictures/$name.jpg"
}

# shelf NAME: a small picture of a figure of the shelf, with its own values.
shelf() {
    file=$assets/figures/$1.figure.toml
    speed=$(sed -n 's/^entry = .*speed = "\([0-9.]*\) kt".*/\1/p' "$file")
    height=$(sed -n 's/^entry = .*height = "\([0-9.]*\) m".*/\1/p' "$file")
    body="figure = \"$file\""
    case $1 in *spin*) part=0.3 ;; *) part=0.6 ;; esac
    draw "shelf-$1" 480x270 78 "$part"
}

# element NAME SPEED HEIGHT PART TEXT: a larger one of figure text.
element() {
    speed=$2 height=$3
    body="text = \"\"\"
$5
\"\"\""
    draw "$1" 800x450 76 "$4"
}

cp "$assets/demo/vellmoor.site.toml" "$work/guide.site.toml"
grep -q '\[\[ribbon\]\]' "$work/guide.site.toml" || for ribbon in "first -260" "second 0" "third 250"; do
    # shellcheck disable=SC2086  # name and place
    set -- $ribbon
    printf '\n[[ribbon]]\nname = "%s"\nx = "%s m"\ny = "30 m"\nheight = "60 m"\nlength = "15 m"\n' "$1" "$2"
done >> "$work/guide.site.toml"

element lines 160 60 0.5 'line level 150 m
pull to 45 deg up at 5 g
line 45 deg up 260 m
push to level at 1 g
line level 150 m'
element arcs 155 80 0.5 'line level 100 m
pull 360 deg radius 115 m
line level 100 m'
element float 130 200 0.7 'pull to 45 deg up at 5 g
line 45 deg up 100 m
power 30 %
float to 45 deg down at 0.2 g
line 45 deg down 50 m
pull to level at 5 g'
element polygon 160 80 0.5 'line level 150 m
pull 8 sides 180 deg side 30 m radius 140 m
power 30 %
pull 8 sides 180 deg side 30 m radius 140 m
line level 100 m'
lens=50mm
element rolls 150 80 0.45 'line level 700 m with 1 roll left at 70 deg/s'
element points 150 80 0.45 'line level 500 m with 4 of 4 points left pause 0.3 s'
lens=35mm
element barrel 150 120 0.5 'pull to 20 deg up at 3 g
pull 60 deg at 2 g with 1 roll left
push to level at 0.5 g
line level 50 m'
lens=24mm
element turns 150 80 0.5 'turn left 270 deg bank 60 deg to height 200 m
line level 100 m'
element rolling-turn 140 150 0.4 'turn left 360 deg with 4 rolls outward'
element pivot 160 80 0.3 'line level 100 m
pull to up at 6 g
line up until 25 kt with 1/4 roll left
pivot left power 25 %
power idle
line down until height 240 m with 1/4 roll right
power full
pull to level at 6 g
line level 100 m'
element double-pivot 160 80 0.45 'pull to up at 6 g
line up until 30 kt
3 pivots left
power idle
line down until height 270 m
power full
pull to level at 6 g'
element slide 155 80 0.45 'line level 100 m
pull to up at 5.8 g
line up until 60 kt
power idle
line up until 20 kt
slide 60 m
fall wheels-down
line down until height 210 m
power full
pull to level at 6 g'
lens=50mm
element snaps 110 150 0.55 'power 60 %
line level 260 m with 1 snap left
power full
line level 60 m'
element two-snaps 115 200 0.5 'power 60 %
line level 330 m with 1 snap left then 1 negative snap right
power full
line level 60 m'
lens=35mm
element snap-climb 140 100 0.5 'pull to 45 deg up at 4 g
line 45 deg up until 115 kt or 6 s
line 45 deg up 150 m with 1 snap left
push to level at 1 g
line level 60 m'
lens=28mm
element spin 75 500 0.5 'power idle
spin left 2 1/2 turns
line down 90 m
power full
pull to level at 4.5 g
line level 60 m'
lens=24mm
element torque-roll 160 120 "torque roll left" 'pull to up at 6 g
line up until 10 kt
torque-roll left 2 rolls
power idle
fall wheels-up
line down until height 260 m
power full
pull to level at 6 g'
element tumble 160 100 "tumble forward" 'pull to up at 6 g
line up until 65 kt
tumble forward 2 1/2 turns in 5 s
power idle
line down until height 260 m
power full
pull to level at 6 g'
element sideways-tumble 160 100 "tumble left" 'pull to up at 6 g
line up until 55 kt
tumble left 1 1/2 turns
power idle
line down until height 260 m
power full
pull to level at 6 g'
lens=24mm
element climb 150 80 0.2 'power 60 %
climb to height 300 m
wait 40 s in level turn left'
element reposition 150 80 0.3 'power 60 %
reposition to x 600 m y 30 m height 250 m heading crowd-left speed 130 kt'
element marks 155 80 0.5 'smoke on
pull 225 deg radius 118 m
smoke off
line 45 deg down until height 125 m with 1/2 roll left
smoke on
pull to level at 5 g
line level 100 m
smoke off'
element parameters 155 80 0.4 'pull to 45 deg up at 5 g
line 45 deg up 190 m with 1/2 roll right
pull 225 deg radius 118 m
line level 50 m'
for file in "$assets"/figures/*.figure.toml; do
    name=${file##*/}
    shelf "${name%.figure.toml}"
done

# The page of the shelf: what each file says of itself.
page=$assets/guide/shelf.md
cat > "$page" <<'MD'
# The shelf

Figures that are built in: `figure = "loop"` in a routine. Each is entered in upright level flight. The ranges are those that the invented
aircraft flies on a standard day without wind, one parameter at a time; a test flies both ends of each.
MD
for file in "$assets"/figures/*.figure.toml; do
    name=${file##*/}
    name=${name%.figure.toml}
    value() { sed -n "s/^$1 = \"\(.*\)\"\$/\1/p" "$file" | head -n 1; }
    entry=$(sed -n 's/^entry = .*speed = "\([^"]*\)".*height = "\([^"]*\)".*/\1 at \2/p' "$file")
    # shellcheck disable=SC2016  # the quotes are Markdown's
    printf '\n## %s\n\n`%s`: %s %s %s; entered with %s.\n\n![%s](pictures/shelf-%s.jpg)\n' \
        "$name" "$name" "$(value name)." "$(value about)" "Skill: $(value skill)" "$entry" "$(value name)" "$name"
    awk -F'"' '
        /^\[\[parameter\]\]/ { name = value = range = "" }
        /^name = / { name = $2 } /^value = / { value = $2 } /^from = / { range = $2 } /^to = / { range = range " to " $2 }
        /^choices = / { range = ""; for (i = 2; i < NF; i += 2) range = range (range ? ", " : "") $i }
        /^about = / && name && value {
            if (!head) print "\n| parameter | value | range | |\n|---|---|---|---|"; head = 1
            printf "| `%s` | %s | %s | %s |\n", name, value, range, $2 }' "$file"
done >> "$page"
