#include "viewer/render/trees.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <glad/gl.h>
#include <glm/geometric.hpp>

#include "viewer/render/painting.h"

namespace plumbline::render {
namespace {

constexpr int kShapes = 4;
// chosen: what the software driver draws in about 1 and 2.5 ms
constexpr std::size_t kFewTrees = 800;
constexpr std::size_t kManyTrees = 2500;
constexpr int kTree_px = 160;
constexpr int kRowWidth_px = 1024;
constexpr int kRowHeight_px = 64;
constexpr float kRowLength_m = 170;  ///< that the row's picture spans

// Atlas: first row of cells seen from the side, second from above. R lit from the left, G lit from
// the right, B how open to the sky, A coverage.
const char* const kTreeVertex = R"(
layout(location = 0) in vec3 a_foot;
layout(location = 1) in vec4 a_size_shape_tint;
layout(location = 2) in vec2 a_corner;
out vec2 v_uv;
out vec3 v_left;
out vec3 v_right;
out vec3 v_sky;
out vec4 v_haze;
void main() {
    vec2 corner = a_corner;
    vec2 size = a_size_shape_tint.xy;
    vec3 middle = vec3(a_foot.xy, a_foot.z + 0.5 * size.y) - u_eye.xyz;
    vec3 view = u_haze.z > 0.5 ? u_forward.xyz : normalize(middle);
    float down = clamp(-view.z, 0.0, 1.0);
    bool above = down > 0.72;
    vec3 right = above && u_haze.z > 0.5 ? vec3(1.0, 0.0, 0.0)
                                         : normalize(vec3(view.y, -view.x, 0.0) + vec3(1e-5, 0.0, 0.0));
    // Seen from higher up the picture leans back towards the eye.
    vec3 up = above ? normalize(cross(right, view)) : normalize(mix(vec3(0.0, 0.0, 1.0), cross(right, view), 0.6 * down));
    vec2 reach = above ? vec2(0.5 * size.x) : 0.5 * size;
    vec3 rel = middle + right * (corner.x * reach.x) + up * (corner.y * reach.y);
    v_uv = (vec2(a_size_shape_tint.z, above ? 1.0 : 0.0) + corner * 0.49 + 0.5) / vec2(4.0, 2.0);

    float direct = u_sunlight.w * clamp(u_sun.z * 6.0 + 0.35, 0.0, 1.0);
    vec3 sun = u_sunlight.rgb * mix(vec3(1.0), vec3(1.0, 0.88, 0.66), u_sun.w * 0.85) * direct;
    float from_right = dot(u_sun.xyz, right);
    float behind = dot(u_sun.xy, view.xy);
    float frontal = above ? 0.8 : clamp(0.62 - 0.45 * behind, 0.12, 1.0);
    float tint = a_size_shape_tint.w;
    vec3 leaf = mix(vec3(0.235, 0.315, 0.160), vec3(0.390, 0.425, 0.205), tint);
    float amount = hazeAmount(middle);
    float clear = 1.0 - amount;
    v_left = leaf * sun * (frontal * (0.5 - 0.5 * from_right) * 1.65 * clear);
    v_right = leaf * sun * (frontal * (0.5 + 0.5 * from_right) * 1.65 * clear);
    v_sky = leaf * u_ambient.rgb * (1.15 * clear);
    v_haze = vec4(hazeColour(middle) * amount, 1.0);
    gl_Position = u_clip_from_rel * vec4(rel, 1.0);
}
)";

const char* const kTreeFragment = R"(
in vec2 v_uv;
in vec3 v_left;
in vec3 v_right;
in vec3 v_sky;
in vec4 v_haze;
uniform sampler2D u_atlas;
out vec4 o_colour;
void main() {
    vec4 t = texture(u_atlas, v_uv);
    if (t.a < 0.10) discard;
    o_colour = vec4(v_left * t.r + v_right * t.g + v_sky * t.b + v_haze.rgb, clamp(t.a * 1.5 - 0.12, 0.0, 1.0));
}
)";

const char* const kRowVertex = R"(
layout(location = 0) in vec3 a_at;
layout(location = 1) in vec3 a_uv_foot;
out vec2 v_uv;
out vec3 v_lit;
out vec4 v_haze;
void main() {
    vec3 rel = a_at - u_eye.xyz;
    float direct = u_sunlight.w * clamp(u_sun.z * 6.0 + 0.35, 0.0, 1.0);
    vec3 sun = u_sunlight.rgb * mix(vec3(1.0), vec3(1.0, 0.88, 0.66), u_sun.w * 0.85) * direct;
    float behind = dot(u_sun.xy, normalize(rel.xy + 1e-4));
    float frontal = clamp(0.62 - 0.45 * behind, 0.12, 1.0);
    vec3 leaf = vec3(0.31, 0.37, 0.18);
    float amount = hazeAmount(rel);
    v_lit = leaf * (u_ambient.rgb * 0.75 + sun * (0.62 * frontal)) * (1.0 - amount);
    v_haze = vec4(hazeColour(rel) * amount, 1.0);
    v_uv = a_uv_foot.xy;
    gl_Position = u_clip_from_rel * vec4(rel, 1.0);
}
)";

const char* const kRowFragment = R"(
in vec2 v_uv;
in vec3 v_lit;
in vec4 v_haze;
uniform sampler2D u_row;
out vec4 o_colour;
void main() {
    vec4 t = texture(u_row, v_uv);
    if (t.a < 0.10) discard;
    o_colour = vec4(v_lit * (0.45 + 0.9 * t.r) + v_haze.rgb, clamp(t.a * 1.4 - 0.1, 0.0, 1.0));
}
)";

struct Leaf {
    glm::vec3 at;  ///< x right, y up, z to the eye; the crown's box is -1..1
    float radius;
    float tone;
};

/// Clusters of leaves on the outside and inside of a few overlapping balls.
std::vector<Leaf> growCrown(int shape, Dice& dice) {
    struct Ball {
        glm::vec3 at;
        glm::vec3 radii;
    };
    std::vector<Ball> balls;
    const auto ball = [&](float x, float y, float z, float rx, float ry) {
        balls.push_back({{x, y, z}, {rx, ry, rx}});
    };
    switch (shape) {
        case 0:  // broad oak
            ball(0, 0.15F, 0, 0.62F, 0.62F);
            ball(-0.48F, -0.05F, 0.1F, 0.42F, 0.42F);
            ball(0.46F, 0.0F, -0.1F, 0.44F, 0.44F);
            ball(0.1F, -0.45F, 0.1F, 0.62F, 0.36F);
            break;
        case 1:  // tall ash
            ball(0, 0.40F, 0, 0.46F, 0.52F);
            ball(-0.25F, -0.05F, 0, 0.48F, 0.50F);
            ball(0.28F, -0.12F, 0.1F, 0.46F, 0.46F);
            ball(0, -0.55F, 0, 0.52F, 0.34F);
            break;
        case 2:  // round hawthorn
            ball(0, -0.05F, 0, 0.78F, 0.78F);
            ball(0.25F, -0.45F, 0, 0.60F, 0.42F);
            ball(-0.35F, -0.40F, 0, 0.55F, 0.45F);
            break;
        default:  // loose, leaning
            ball(-0.15F, 0.35F, 0, 0.48F, 0.50F);
            ball(0.35F, 0.05F, 0, 0.44F, 0.42F);
            ball(-0.40F, -0.15F, 0, 0.42F, 0.42F);
            ball(0.1F, -0.5F, 0, 0.66F, 0.36F);
            break;
    }
    std::vector<Leaf> leaves;
    for (const Ball& b : balls) {
        for (int i = 0; i < 190; ++i) {
            const float z = dice.between(-1, 1);
            const float a = dice.between(0, 6.2832F);
            const float r = std::sqrt(1 - z * z);
            const float depth = std::pow(dice.unit(), 0.35F);
            const glm::vec3 d(r * std::cos(a), z, r * std::sin(a));
            leaves.push_back(
                {b.at + d * b.radii * depth, dice.between(0.045F, 0.10F), dice.unit()});
        }
    }
    return leaves;
}

/// Paints leaves from the back to the front into one cell.
void paintCell(std::vector<std::uint8_t>& pixels, int width, int cell_x, int cell_y,
               std::vector<Leaf> leaves, bool from_above) {
    for (Leaf& leaf : leaves) {
        if (from_above) leaf.at = {leaf.at.x, -leaf.at.z, leaf.at.y};
    }
    std::sort(leaves.begin(), leaves.end(),
              [](const Leaf& a, const Leaf& b) { return a.at.z < b.at.z; });
    for (const Leaf& leaf : leaves) {
        const glm::vec3 n = glm::normalize(leaf.at + glm::vec3(0, 0.12F, 0.02F));
        const float tone = 0.78F + 0.44F * leaf.tone;
        // How much sky a leaf sees: outside and on top much, inside and below little.
        const float depth = std::clamp(glm::length(leaf.at), 0.0F, 1.0F);
        const float height = from_above ? leaf.at.z : leaf.at.y;
        const float open = (0.36F + 0.64F * depth * depth) * (0.66F + 0.34F * height);
        const float up = from_above ? n.z : n.y;
        const auto lit = [&](float from_side) {
            const float facing = 0.55F * from_side + 0.45F * up + 0.30F * (from_above ? 0 : n.z);
            return std::clamp(0.22F + 0.72F * facing, 0.03F, 1.0F) * (0.35F + 0.65F * depth) * tone;
        };
        const float left = lit(-n.x), right = lit(n.x);
        const float radius_px = leaf.radius * kTree_px / 2;
        const glm::vec2 centre = (glm::vec2(leaf.at) * 0.90F * 0.5F + 0.5F) * float(kTree_px);
        const int reach = static_cast<int>(radius_px) + 2;
        for (int y = static_cast<int>(centre.y) - reach; y <= static_cast<int>(centre.y) + reach;
             ++y) {
            for (int x = static_cast<int>(centre.x) - reach;
                 x <= static_cast<int>(centre.x) + reach; ++x) {
                if (x < 1 || y < 1 || x >= kTree_px - 1 || y >= kTree_px - 1) continue;
                const glm::vec2 d = glm::vec2(x, y) + 0.5F - centre;
                const float ragged = radius_px * (0.75F + 0.5F * noise(glm::vec2(x, y) * 0.45F, 5));
                const float cover = std::clamp(ragged - glm::length(d) + 0.5F, 0.0F, 1.0F);
                if (cover <= 0) continue;
                const float shade = 1.0F + 0.22F * d.y / radius_px;
                const auto at = static_cast<std::size_t>(
                    ((cell_y * kTree_px + y) * width + cell_x * kTree_px + x) * 4);
                const std::array<float, 3> value{left * shade, right * shade, open * shade};
                for (std::size_t k = 0; k < 3; ++k) {
                    const float old = static_cast<float>(pixels[at + k]) / 255.0F;
                    pixels[at + k] = toByte(glm::mix(old, value[k], cover));
                }
                pixels[at + 3] = std::max(pixels[at + 3], toByte(cover));
            }
        }
    }
}

Texture makeAtlas() {
    const int width = kTree_px * kShapes;
    const int height = kTree_px * 2;
    std::vector<std::uint8_t> pixels(static_cast<std::size_t>(width * height * 4));
    // What is outside the leaves keeps a middle tone, so that shrinking makes no dark edge.
    for (std::size_t i = 0; i < pixels.size(); i += 4) {
        pixels[i] = pixels[i + 1] = 90;
        pixels[i + 2] = 120;
    }
    Dice dice(12);
    for (int shape = 0; shape < kShapes; ++shape) {
        const std::vector<Leaf> leaves = growCrown(shape, dice);
        paintCell(pixels, width, shape, 0, leaves, false);
        paintCell(pixels, width, shape, 1, leaves, true);
    }
    return Texture(width, height, 4, pixels.data(), Filter::Trilinear, Wrap::Clamp);
}

/// A hedge with trees as a strip that repeats along: R lightness, A coverage.
Texture makeRowTexture() {
    std::vector<std::uint8_t> pixels(static_cast<std::size_t>(kRowWidth_px * kRowHeight_px * 4));
    Dice dice(5);
    std::vector<float> top(kRowWidth_px, 0.16F);
    for (int i = 0; i < 34; ++i) {
        const int middle = dice.below(kRowWidth_px);
        const float height = dice.between(0.35F, 0.97F);
        const int half = 12 + dice.below(34);
        for (int k = -half; k <= half; ++k) {
            const float f = static_cast<float>(k) / static_cast<float>(half);
            const auto x = static_cast<std::size_t>((middle + k + kRowWidth_px) % kRowWidth_px);
            top[x] = std::max(top[x], height * std::pow(1 - f * f, 0.38F));
        }
    }
    for (int y = 0; y < kRowHeight_px; ++y) {
        for (int x = 0; x < kRowWidth_px; ++x) {
            const glm::vec2 p(x, y);
            const float v = (static_cast<float>(y) + 0.5F) / kRowHeight_px;
            const float ragged =
                top[static_cast<std::size_t>(x)] + 0.10F * (noise(p * 0.35F, 8) - 0.5F);
            const float cover = smooth(0.0F, 0.035F, ragged - v);
            const float under = std::clamp((ragged - v) / 0.5F, 0.0F, 1.0F);
            const float light = 0.75F - 0.45F * under + 0.5F * (noise(p * 0.22F, 9) - 0.5F);
            const auto at = static_cast<std::size_t>((y * kRowWidth_px + x) * 4);
            pixels[at] = pixels[at + 1] = pixels[at + 2] = toByte(light);
            pixels[at + 3] = toByte(cover);
        }
    }
    return Texture(kRowWidth_px, kRowHeight_px, 4, pixels.data(), Filter::Trilinear, Wrap::Repeat);
}

}  // namespace

TreePainter::TreePainter(std::string& problem)
    : tree_("trees", kTreeVertex, kTreeFragment, problem),
      row_("rows of trees", kRowVertex, kRowFragment, problem),
      atlas_(makeAtlas()),
      row_texture_(makeRowTexture()),
      mesh_(sizeof(Corner), {{0, 3, offsetof(Corner, foot)},
                             {1, 4, offsetof(Corner, size_shape_tint)},
                             {2, 2, offsetof(Corner, corner)}}),
      row_mesh_(sizeof(RowVertex),
                {{0, 3, offsetof(RowVertex, at)}, {1, 3, offsetof(RowVertex, uv_foot)}}) {}

void TreePainter::setLandscape(const Landscape& landscape) {
    trees_ = landscape.trees;
    rows_ = landscape.tree_rows;
    sorted_eye_S_m_ = Vec3(1e9, 0, 0);
}

void TreePainter::sortFor(const Frame& frame) {
    const Vec3& eye = frame.camera().eye_S_m;
    const glm::vec3 forward(frame.block.forward);
    const std::size_t most = frame.list->quality == scene::Quality::Low      ? kFewTrees
                             : frame.list->quality == scene::Quality::Normal ? kManyTrees
                                                                             : trees_.size();
    const double height_m = std::max(eye.z, 2.0);
    if (most == most_ && glm::length(eye - sorted_eye_S_m_) < 0.02 * height_m + 0.3 &&
        glm::dot(forward, sorted_forward_) > 0.995F) {
        return;
    }
    most_ = most;
    sorted_eye_S_m_ = eye;
    sorted_forward_ = forward;
    const glm::vec2 at(eye);
    // Out of sight: more than half the picture's diagonal, and some, off the axis.
    const float half_angle = std::atan(std::hypot(static_cast<float>(frame.width_px),
                                                  static_cast<float>(frame.height_px)) /
                                       2 / frame.focal_px) +
                             0.12F;
    const float widest = std::cos(std::min(half_angle, 3.0F));
    const auto inSight = [&](const glm::vec3& point, float margin_m) {
        if (frame.orthographic) return true;
        const glm::vec3 rel = frame.relative(point);
        const float distance = glm::length(rel);
        return distance < margin_m || glm::dot(rel, forward) > widest * distance - margin_m;
    };

    std::vector<std::pair<float, std::uint32_t>> order;
    for (std::uint32_t i = 0; i < trees_.size(); ++i) {
        if (!inSight(trees_[i].foot_S_m, 20)) continue;
        order.emplace_back(glm::length(glm::vec2(trees_[i].foot_S_m) - at), i);
    }
    std::sort(order.begin(), order.end());
    if (order.size() > most) order.resize(most);
    corners_.clear();
    indices_.clear();
    for (auto k = order.rbegin(); k != order.rend(); ++k) {
        const Tree& tree = trees_[k->second];
        const auto first = static_cast<std::uint32_t>(corners_.size());
        for (int i = 0; i < 4; ++i) {
            corners_.push_back(
                {tree.foot_S_m,
                 glm::vec4(tree.width_m, tree.height_m, static_cast<float>(tree.shape), tree.tint),
                 cornerOfQuad(i)});
        }
        addQuad(indices_, first);
    }
    mesh_.setVertices(std::span<const Corner>(corners_));
    mesh_.setIndices(indices_);

    order.clear();
    for (std::uint32_t i = 0; i < rows_.size(); ++i) {
        const glm::vec2 middle = (rows_[i].from_S_m + rows_[i].to_S_m) / 2.0F;
        if (!inSight(glm::vec3(middle, 4), 90)) continue;
        order.emplace_back(-glm::length(middle - at), i);
    }
    std::sort(order.begin(), order.end());
    row_vertices_.clear();
    row_indices_.clear();
    for (const auto& [distance, index] : order) {
        const TreeRow& row = rows_[index];
        const float u0 = row.phase;
        const float u1 = u0 + glm::length(row.to_S_m - row.from_S_m) / kRowLength_m;
        const auto first = static_cast<std::uint32_t>(row_vertices_.size());
        const float h = row.height_m * 1.5F;
        row_vertices_.push_back({glm::vec3(row.from_S_m, 0), {u0, 0.01F, h}});
        row_vertices_.push_back({glm::vec3(row.to_S_m, 0), {u1, 0.01F, h}});
        row_vertices_.push_back({glm::vec3(row.to_S_m, h), {u1, 0.98F, h}});
        row_vertices_.push_back({glm::vec3(row.from_S_m, h), {u0, 0.98F, h}});
        for (const std::uint32_t k : {0U, 1U, 2U, 0U, 2U, 3U}) row_indices_.push_back(first + k);
    }
    row_mesh_.setVertices(std::span<const RowVertex>(row_vertices_));
    row_mesh_.setIndices(row_indices_);
}

void TreePainter::draw(const Frame& frame) {
    if (trees_.empty()) return;
    sortFor(frame);
    glEnable(GL_DEPTH_TEST);
    glEnable(GL_BLEND);
    glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
    if (!frame.orthographic && !row_indices_.empty()) {
        row_.use();
        row_texture_.bind(0);
        row_.set("u_row", 0);
        row_mesh_.draw();
    }
    tree_.use();
    atlas_.bind(0);
    tree_.set("u_atlas", 0);
    if (!indices_.empty()) mesh_.draw();
    glDisable(GL_BLEND);
    glDisable(GL_DEPTH_TEST);
}

}  // namespace plumbline::render
