#include "viewer/render/aircraft.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <glad/gl.h>
#include <glm/geometric.hpp>
#include <glm/gtc/matrix_transform.hpp>
#include <glm/mat3x3.hpp>

namespace plumbline::render {
namespace {

constexpr int kTileSide_px = 512;
constexpr int kShadowSide_px = 128;
constexpr float kTileScale = 4;        ///< supersampling each way
constexpr float kReachOfSpan = 0.66F;  ///< radius of the ball round the aircraft, in spans

const char* const kSolidVertex = R"(
layout(location = 0) in vec3 a_position;
layout(location = 1) in vec3 a_normal;
layout(location = 2) in vec4 a_colour;
uniform mat4 u_rel_from_part;
uniform mat4 u_clip;
out vec3 v_rel;
out vec3 v_normal;
out vec4 v_colour;
out vec4 v_haze;
void main() {
    vec4 rel = u_rel_from_part * vec4(a_position, 1.0);
    v_rel = rel.xyz;
    v_normal = mat3(u_rel_from_part) * a_normal;
    v_colour = a_colour;
    v_haze = vec4(hazeColour(rel.xyz), hazeAmount(rel.xyz));
    gl_Position = u_clip * rel;
}
)";

// Ambient from below stays at 0.55 of that from above, or the underside would go black.
const char* const kSolidFragment = R"(
in vec3 v_rel;
in vec3 v_normal;
in vec4 v_colour;
in vec4 v_haze;
uniform float u_rough;
uniform float u_opacity;
uniform float u_glass;
out vec4 o_colour;
void main() {
    vec3 n = normalize(v_normal);
    vec3 to_eye = -normalize(v_rel);
    if (!gl_FrontFacing) n = -n;
    float direct = u_sunlight.w * clamp(u_sun.z * 8.0 + 0.4, 0.0, 1.0);
    vec3 sun = u_sunlight.rgb * mix(vec3(1.0), vec3(1.0, 0.90, 0.74), u_sun.w * 0.7);
    float up = n.z * 0.5 + 0.5;
    vec3 below = vec3(0.60, 0.59, 0.52) * (0.62 + 0.38 * direct);
    vec3 ambient = mix(below, u_ambient.rgb * 1.10, up);
    float facing = max(dot(n, u_sun.xyz), 0.0);
    vec3 c = v_colour.rgb * (ambient * 0.80 + sun * (0.62 * direct * facing));
    vec3 half_way = normalize(u_sun.xyz + to_eye);
    float gleam = max(dot(n, half_way), 0.0);
    gleam *= gleam;
    gleam *= gleam;
    gleam *= gleam;
    gleam *= gleam;
    float spot = gleam * gleam;
    spot *= spot * spot;
    float shine = mix(0.75 * spot, 0.07 * gleam, sqrt(u_rough));
    float rim = 1.0 - clamp(dot(n, to_eye), 0.0, 1.0);
    rim *= rim;
    rim *= rim;
    vec3 mirrored = reflect(-to_eye, n);
    vec3 ground = vec3(0.30, 0.34, 0.20) * (0.55 + 0.45 * direct);
    float high = sqrt(clamp(mirrored.z, 0.0, 1.0));
    vec3 around = mix(ground, mix(u_horizon.rgb, u_zenith.rgb, high), smoothstep(-0.06, 0.06, mirrored.z));
    float mirror = mix(0.03 + 0.30 * rim, 0.07 + 0.55 * rim, u_glass) * (1.0 - 0.75 * u_rough);
    c = mix(c, around, mirror) + sun * (shine * direct);
    o_colour = vec4(mix(c, v_haze.rgb, v_haze.a), v_colour.a * u_opacity);
}
)";

// What the pilot has round himself fills much of the picture and is matt: lit at its corners.
const char* const kMattVertex = R"(
layout(location = 0) in vec3 a_position;
layout(location = 1) in vec3 a_normal;
layout(location = 2) in vec4 a_colour;
uniform mat4 u_rel_from_part;
uniform mat4 u_clip;
out vec4 v_colour;
void main() {
    vec4 rel = u_rel_from_part * vec4(a_position, 1.0);
    vec3 n = normalize(mat3(u_rel_from_part) * a_normal);
    float direct = u_sunlight.w * clamp(u_sun.z * 8.0 + 0.4, 0.0, 1.0);
    vec3 sun = u_sunlight.rgb * mix(vec3(1.0), vec3(1.0, 0.90, 0.74), u_sun.w * 0.7);
    vec3 below = vec3(0.60, 0.59, 0.52) * (0.62 + 0.38 * direct);
    vec3 ambient = mix(below, u_ambient.rgb * 1.10, n.z * 0.5 + 0.5);
    float facing = max(dot(n, u_sun.xyz), 0.0);
    v_colour = vec4(a_colour.rgb * (ambient * 0.80 + sun * (0.62 * direct * facing)), a_colour.a);
    gl_Position = u_clip * rel;
}
)";

const char* const kMattFragment = R"(
in vec4 v_colour;
uniform float u_opacity;
out vec4 o_colour;
void main() { o_colour = vec4(v_colour.rgb, v_colour.a * u_opacity); }
)";

const char* const kFlatFragment = R"(
out vec4 o_colour;
void main() { o_colour = vec4(1.0); }
)";

const char* const kTileVertex = R"(
layout(location = 0) in vec2 a_corner;
uniform vec4 u_rect;  // centre and half size, normalised device
uniform float u_depth;
uniform float u_part;  // used part of the tile's texture
out vec2 v_uv;
void main() {
    v_uv = (a_corner * 0.5 + 0.5) * u_part;
    gl_Position = vec4(u_rect.xy + a_corner * u_rect.zw, u_depth, 1.0);
}
)";

// Four bilinear samples average 4 x 4 texels.
const char* const kTileFragment = R"(
in vec2 v_uv;
uniform sampler2D u_tile;
uniform float u_texel;
uniform float u_opacity;
out vec4 o_colour;
void main() {
    vec4 sum = texture(u_tile, v_uv + vec2(-u_texel, -u_texel));
    sum += texture(u_tile, v_uv + vec2(u_texel, -u_texel));
    sum += texture(u_tile, v_uv + vec2(-u_texel, u_texel));
    sum += texture(u_tile, v_uv + vec2(u_texel, u_texel));
    if (sum.a < 0.01) discard;
    o_colour = sum * (0.25 * u_opacity);
}
)";

const char* const kShadowVertex = R"(
layout(location = 0) in vec4 a_clip;
layout(location = 1) in vec3 a_uv_strength;
out vec3 v_uv_strength;
void main() {
    v_uv_strength = a_uv_strength;
    gl_Position = a_clip;
}
)";

const char* const kShadowFragment = R"(
in vec3 v_uv_strength;
uniform sampler2D u_silhouette;
uniform float u_blur;
out vec4 o_colour;
void main() {
    // Thirteen places in a disc of the blur's radius.
    vec2 uv = v_uv_strength.xy;
    float covered = texture(u_silhouette, uv).r;
    for (int i = 0; i < 6; ++i) {
        float a = float(i) * 1.0472;
        vec2 d = vec2(cos(a), sin(a)) * u_blur;
        covered += texture(u_silhouette, uv + d).r + texture(u_silhouette, uv + d.yx * vec2(-0.5, 0.5)).r;
    }
    o_colour = vec4(0.03, 0.045, 0.03, covered / 13.0 * v_uv_strength.z);
}
)";

struct ShadowVertex {
    glm::vec4 clip;
    glm::vec3 uv_strength;
};

glm::mat4 relFromBody(const Frame& frame, const scene::AircraftPose& pose, float scale) {
    const glm::mat3 turn = glm::mat3(glm::mat3_cast(pose.q_SB)) * scale;
    glm::mat4 m(turn);
    m[3] = glm::vec4(frame.relative(pose.position_S_m), 1);
    return m;
}

float deflection(PartRole role, const scene::AircraftPose& pose) {
    switch (role) {
        case PartRole::AileronLeft:
            return static_cast<float>(-pose.aileron_rad);
        case PartRole::AileronRight:
            return static_cast<float>(pose.aileron_rad);
        case PartRole::Elevator:
            return static_cast<float>(pose.elevator_rad);
        case PartRole::Rudder:
            return static_cast<float>(pose.rudder_rad);
        case PartRole::PropellerBlades:
        case PartRole::PropellerDisc:
            return static_cast<float>(std::fmod(pose.propeller_rad, 2 * kPi));
        default:
            return 0;
    }
}

/// Two unit vectors across the sun's rays.
void acrossSun(const glm::vec3& sun, glm::vec3& u, glm::vec3& v) {
    u = glm::normalize(
        glm::cross(glm::vec3(0, 0, 1), std::abs(sun.z) > 0.999F ? glm::vec3(1, 0, 0) : sun));
    v = glm::cross(sun, u);
}

}  // namespace

AircraftPainter::AircraftPainter(std::string& problem)
    : solid_("aircraft", kSolidVertex, kSolidFragment, problem),
      matt_("cockpit", kMattVertex, kMattFragment, problem),
      flat_("aircraft silhouette", kSolidVertex, kFlatFragment, problem),
      tile_("aircraft tile", kTileVertex, kTileFragment, problem),
      shadow_("aircraft shadow", kShadowVertex, kShadowFragment, problem),
      quad_(sizeof(glm::vec2), {{0, 2, 0}}),
      shadow_quad_(sizeof(ShadowVertex), {{0, 4, offsetof(ShadowVertex, clip)},
                                          {1, 3, offsetof(ShadowVertex, uv_strength)}}),
      tile_colour_(kTileSide_px, kTileSide_px, 4, nullptr, Filter::Linear, Wrap::Clamp),
      tile_target_(tile_colour_, true),
      shadow_map_(kShadowSide_px, kShadowSide_px, 1, nullptr, Filter::Linear, Wrap::Clamp),
      shadow_target_(shadow_map_, false) {
    const std::array<glm::vec2, 4> corners{glm::vec2(-1, -1), glm::vec2(1, -1), glm::vec2(-1, 1),
                                           glm::vec2(1, 1)};
    quad_.setVertices(std::span<const glm::vec2>(corners));
    const auto load = [](AircraftModel model) {
        Loaded loaded;
        loaded.mesh = Mesh(sizeof(ModelVertex), {{0, 3, offsetof(ModelVertex, position)},
                                                 {1, 3, offsetof(ModelVertex, normal)},
                                                 {2, 4, offsetof(ModelVertex, colour), true}});
        loaded.model = std::move(model);
        loaded.mesh.setVertices(std::span<const ModelVertex>(loaded.model.vertices));
        loaded.mesh.setIndices(loaded.model.indices);
        return loaded;
    };
    marker_ = load(markerModel());
    aircraft_ = load(markerModel());
}

void AircraftPainter::setModel(AircraftModel model) {
    aircraft_.model = std::move(model);
    aircraft_.mesh.setVertices(std::span<const ModelVertex>(aircraft_.model.vertices));
    aircraft_.mesh.setIndices(aircraft_.model.indices);
    silhouette_.loaded = nullptr;
}

/// Where the picture may be rough, one of nearly the same attitude serves again: all the aircraft's
/// triangles for a shadow of some dots. Notes what is drawn when not.
bool AircraftPainter::silhouetteHolds(const Frame& frame, const scene::AircraftPose& pose) {
    constexpr double kNear =
        0.99985;  // chosen: turned by less than 2 degrees, a dot or two at a tip
    const glm::vec3 sun(frame.block.sun);
    const Loaded* const loaded = &loadedFor(pose);
    const bool holds = frame.list->quality == scene::Quality::Low && silhouette_.loaded == loaded &&
                       silhouette_.sun == sun && silhouette_.span_m == pose.span_m &&
                       std::abs(glm::dot(silhouette_.q_SB, pose.q_SB)) > kNear;
    if (!holds) silhouette_ = {loaded, pose.q_SB, sun, pose.span_m};
    return holds;
}

const AircraftPainter::Loaded& AircraftPainter::loadedFor(const scene::AircraftPose& pose) const {
    return pose.attitude_known ? aircraft_ : marker_;
}

void AircraftPainter::drawParts(const Frame& frame, const scene::AircraftPose& pose,
                                const glm::mat4& clip, Pass pass) const {
    const Loaded& loaded = loadedFor(pose);
    const float scale = static_cast<float>(pose.span_m) / loaded.model.span_m;
    const glm::mat4 rel_from_body = relFromBody(frame, pose, scale);
    const Program& usual = pass == Pass::Silhouette ? flat_ : solid_;
    const Program* in_use = nullptr;
    // Opaque parts first, then glass, then the disc, which is in front of both.
    for (int round = 0; round < 3; ++round) {
        for (const ModelPart& part : loaded.model.parts) {
            const int part_round = part.role == PartRole::PropellerDisc ? 2
                                   : part.translucent                   ? 1
                                                                        : 0;
            if (part_round != round) continue;
            const float blur = static_cast<float>(pose.propeller_blur);
            if (part.role == PartRole::Cockpit && pass != Pass::Inside) continue;
            // From the seat one looks through the glass, not at it.
            if (part.role == PartRole::Canopy && part.translucent && pass == Pass::Inside) continue;
            if (part.role == PartRole::PropellerBlades && blur > 0.6F) continue;
            if (part.role == PartRole::PropellerDisc &&
                (blur < 0.05F || pass == Pass::Silhouette)) {
                continue;
            }
            const bool matt = part.role == PartRole::Cockpit && !part.translucent;
            const Program& program = matt ? matt_ : usual;
            if (in_use != &program) {
                program.use();
                program.set("u_clip", clip);
                in_use = &program;
            }
            const glm::mat4 turned =
                glm::rotate(part.body_from_node, deflection(part.role, pose), glm::vec3(1, 0, 0));
            program.set("u_rel_from_part", rel_from_body * turned);
            float opacity = pass == Pass::Silhouette ? 1 : pose.opacity;
            if (part.role == PartRole::PropellerDisc) opacity *= blur;
            program.set("u_opacity", opacity);
            if (!matt) {
                program.set("u_rough", std::clamp(part.roughness, 0.0F, 1.0F));
                program.set("u_glass",
                            part.translucent && part.role == PartRole::Canopy ? 1.0F : 0.0F);
            }
            if (part.two_sided || part.translucent) {
                glDisable(GL_CULL_FACE);
            } else {
                glEnable(GL_CULL_FACE);
            }
            glDepthMask(round == 0 ? GL_TRUE : GL_FALSE);
            loaded.mesh.drawIndices(part.first_index, part.index_count);
        }
    }
    glDepthMask(GL_TRUE);
    glDisable(GL_CULL_FACE);
}

AircraftPainter::Tile AircraftPainter::tileFor(const Frame& frame,
                                               const scene::AircraftPose& pose) const {
    Tile tile;
    const glm::vec3 rel = frame.relative(pose.position_S_m);
    const glm::vec4 clip = frame.clip(rel);
    const float forward_m = glm::dot(rel, glm::vec3(frame.block.forward));
    const float radius_m = static_cast<float>(pose.span_m) * kReachOfSpan;
    if (clip.w <= 0 || (!frame.orthographic && forward_m < 4 * radius_m)) return tile;
    const float radius_px = radius_m * frame.pixelsPerMetre(forward_m) * 1.05F + 1;
    const float side_px = std::ceil(2 * radius_px) + 1;
    if (side_px * kTileScale > static_cast<float>(kTileSide_px)) return tile;
    const glm::vec3 ndc = glm::vec3(clip) / clip.w;
    const glm::vec2 size(frame.width_px, frame.height_px);
    const glm::vec2 centre_px = (glm::vec2(ndc) * 0.5F + 0.5F) * size;
    tile.corner_px = glm::floor(centre_px - side_px / 2);
    tile.side_px = side_px;
    tile.depth = ndc.z;
    tile.used = tile.corner_px.x + side_px > 0 && tile.corner_px.y + side_px > 0 &&
                tile.corner_px.x < size.x && tile.corner_px.y < size.y;
    return tile;
}

void AircraftPainter::prepare(const Frame& frame, const scene::AircraftPose& pose) {
    tile_place_ = tileFor(frame, pose);
    if (tile_place_.used) {
        const glm::vec2 size(frame.width_px, frame.height_px);
        const glm::vec2 scale = size / tile_place_.side_px;
        const glm::vec2 middle_ndc =
            (tile_place_.corner_px + tile_place_.side_px / 2) / size * 2.0F - 1.0F;
        glm::mat4 zoom(1.0F);
        zoom[0][0] = scale.x;
        zoom[1][1] = scale.y;
        zoom[3][0] = -middle_ndc.x * scale.x;
        zoom[3][1] = -middle_ndc.y * scale.y;
        const int used_px = static_cast<int>(tile_place_.side_px * kTileScale);
        tile_target_.bind();
        glEnable(GL_SCISSOR_TEST);
        glScissor(0, 0, std::min(used_px + 4, kTileSide_px), std::min(used_px + 4, kTileSide_px));
        glClearColor(0, 0, 0, 0);
        glDepthMask(GL_TRUE);
        glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
        glViewport(0, 0, used_px, used_px);
        glEnable(GL_DEPTH_TEST);
        glEnable(GL_BLEND);
        glBlendFuncSeparate(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA, GL_ONE, GL_ONE_MINUS_SRC_ALPHA);
        scene::AircraftPose whole = pose;
        whole.opacity = 1;
        // The tile's matrix must not touch the fourth column's depth: zoom acts on x and y only.
        drawParts(frame, whole, zoom * frame.block.clip_from_rel, Pass::Outside);
        glDisable(GL_SCISSOR_TEST);
    }
    if (frame.block.sun.z > 0.02F && !frame.orthographic && frame.light.sun_strength > 0 &&
        !silhouetteHolds(frame, pose)) {
        glm::vec3 u, v;
        const glm::vec3 sun(frame.block.sun);
        acrossSun(sun, u, v);
        const glm::vec3 rel = frame.relative(pose.position_S_m);
        const float reach_m = static_cast<float>(pose.span_m) * kReachOfSpan;
        glm::mat4 clip(0.0F);
        for (int k = 0; k < 3; ++k) clip[k] = glm::vec4(u[k], v[k], 0, 0) / reach_m;
        clip[3] = glm::vec4(-glm::dot(u, rel) / reach_m, -glm::dot(v, rel) / reach_m, 0, 1);
        shadow_target_.bind();
        glClearColor(0, 0, 0, 0);
        glClear(GL_COLOR_BUFFER_BIT);
        glDisable(GL_DEPTH_TEST);
        glDisable(GL_BLEND);
        drawParts(frame, pose, clip, Pass::Silhouette);
    }
}

void AircraftPainter::drawShadow(const Frame& frame, const scene::AircraftPose& pose) {
    const glm::vec3 sun(frame.block.sun);
    if (sun.z <= 0.02F || frame.orthographic || frame.light.sun_strength <= 0) return;
    const float height_m = static_cast<float>(pose.position_S_m.z);
    if (height_m < 0) return;
    glm::vec3 u, v;
    acrossSun(sun, u, v);
    const float reach_m = static_cast<float>(pose.span_m) * kReachOfSpan;
    std::array<ShadowVertex, 4> corners;
    glm::vec2 low(1e9F), high(-1e9F);
    const glm::vec2 size(frame.width_px, frame.height_px);
    float haze = 0;
    for (int i = 0; i < 4; ++i) {
        const glm::vec2 side = cornerOfQuad(i);
        const glm::dvec3 at = pose.position_S_m + glm::dvec3((u * side.x + v * side.y) * reach_m);
        const glm::dvec3 ground = at - glm::dvec3(sun) * (at.z / static_cast<double>(sun.z));
        const glm::vec3 rel = frame.relative(ground);
        const glm::vec4 clip = frame.clip(rel);
        if (clip.w < 0.05F) return;
        const glm::vec2 px = (glm::vec2(clip) / clip.w * 0.5F + 0.5F) * size;
        low = glm::min(low, px);
        high = glm::max(high, px);
        haze = 1 - std::exp(-std::pow(glm::length(rel) * frame.block.haze.x, 1.15F));
        corners[static_cast<std::size_t>(i)] = {clip, glm::vec3(side * 0.5F + 0.5F, 1)};
    }
    // 42 % of the ground's light is left in the shadow.
    float strength = 0.58F * (1 - haze) * std::min(1.0F, sun.z * 8);
    constexpr float kThinnest_px = 1.5F;
    const float thickness_px = high.y - low.y;
    if (thickness_px < kThinnest_px) {
        // Seen from nearly in the ground's plane: a dash of the same darkness in all.
        const float middle = (low.y + high.y) / 2;
        strength *= std::max(thickness_px, 0.15F) / kThinnest_px;
        const glm::vec4 clip = corners[0].clip;
        for (int i = 0; i < 4; ++i) {
            const glm::vec2 px((i & 1) == 0 ? low.x : high.x,
                               middle + ((i & 2) == 0 ? -0.5F : 0.5F) * kThinnest_px);
            const glm::vec2 ndc = px / size * 2.0F - 1.0F;
            corners[static_cast<std::size_t>(i)].clip = glm::vec4(ndc, clip.z / clip.w, 1);
        }
    }
    for (ShadowVertex& corner : corners) corner.uv_strength.z = strength;
    shadow_quad_.setVertices(std::span<const ShadowVertex>(corners));
    // Half a degree of sun blurs the edge with height; never sharper than 0.3 m.
    const float blur_m = std::max(0.3F, height_m / sun.z * 0.0093F);
    glDisable(GL_DEPTH_TEST);
    glEnable(GL_BLEND);
    glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
    shadow_.use();
    shadow_map_.bind(0);
    shadow_.set("u_silhouette", 0);
    shadow_.set("u_blur", blur_m / 2 / (2 * reach_m));
    shadow_quad_.drawStrip();
    glDisable(GL_BLEND);
}

void AircraftPainter::draw(const Frame& frame, const scene::AircraftPose& pose) const {
    glEnable(GL_DEPTH_TEST);
    glEnable(GL_BLEND);
    if (tile_place_.used) {
        const glm::vec2 size(frame.width_px, frame.height_px);
        const glm::vec2 centre =
            (tile_place_.corner_px + tile_place_.side_px / 2) / size * 2.0F - 1.0F;
        glBlendFunc(GL_ONE, GL_ONE_MINUS_SRC_ALPHA);
        glDepthMask(GL_FALSE);
        tile_.use();
        tile_colour_.bind(0);
        tile_.set("u_tile", 0);
        const glm::vec2 half = glm::vec2(tile_place_.side_px) / size;
        tile_.set("u_rect", glm::vec4(centre, half));
        tile_.set("u_depth", tile_place_.depth);
        tile_.set("u_part", tile_place_.side_px * kTileScale / kTileSide_px);
        tile_.set("u_texel", 1.0F / kTileSide_px);
        tile_.set("u_opacity", pose.opacity);
        quad_.drawStrip();
        glDepthMask(GL_TRUE);
    } else {
        glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
        if (pose.opacity < 0.99F) {
            // Depth first, so that a ghost shows no inside.
            glColorMask(GL_FALSE, GL_FALSE, GL_FALSE, GL_FALSE);
            drawParts(frame, pose, frame.block.clip_from_rel, Pass::Outside);
            glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
            glDepthFunc(GL_LEQUAL);
        }
        drawParts(frame, pose, frame.block.clip_from_rel, Pass::Outside);
        glDepthFunc(GL_LESS);
    }
    glDisable(GL_BLEND);
    glDisable(GL_DEPTH_TEST);
}

void AircraftPainter::drawCockpit(const Frame& frame, const scene::AircraftPose& pose) const {
    glEnable(GL_SCISSOR_TEST);
    glScissor(frame.x_px, frame.y_px, frame.width_px, frame.height_px);
    glClear(GL_DEPTH_BUFFER_BIT);
    glDisable(GL_SCISSOR_TEST);
    glEnable(GL_DEPTH_TEST);
    glEnable(GL_BLEND);
    glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
    // Its own depth range: from the canopy frame beside the head to the wing tips.
    constexpr double kNearest_m = 0.06;
    constexpr double kFurthest_m = 40;
    drawParts(
        frame, pose,
        clipFromRelative(frame.camera(), frame.width_px, frame.height_px, kNearest_m, kFurthest_m),
        Pass::Inside);
    glDisable(GL_BLEND);
    glDisable(GL_DEPTH_TEST);
}

}  // namespace plumbline::render
