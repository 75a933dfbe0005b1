#include "viewer/render/shader_common.h"

namespace plumbline::render {

const char* const kShaderCommon = R"(
layout(std140) uniform Frame {
    mat4 u_clip_from_rel;  // site axes relative to the eye -> clip
    vec4 u_eye;            // site axes [m]; w: time [s]
    vec4 u_right;          // camera axes in site axes; w: picture width [px]
    vec4 u_up;             // w: picture height [px]
    vec4 u_forward;        // w: pixels per unit of (across / forward), or per metre in the map
    vec4 u_sun;            // to the sun; w: low (1 near the horizon)
    vec4 u_zenith;
    vec4 u_horizon;
    vec4 u_glow;
    vec4 u_sunlight;       // w: strength (0 after sunset)
    vec4 u_ambient;
    vec4 u_haze;           // x: 1/D [1/m], y: amount (0 in the map), z: 1 when orthographic
};

float hash21(vec2 p) {
    uvec2 q = uvec2(ivec2(floor(p)));
    uint h = q.x * 1597334673u ^ q.y * 3812015801u;
    h = (h ^ (h >> 15)) * 2246822519u;
    h = (h ^ (h >> 13)) * 3266489917u;
    return float((h ^ (h >> 16)) >> 8) / 16777216.0;
}

float valueNoise(vec2 p) {
    vec2 i = floor(p);
    vec2 f = p - i;
    f = f * f * (3.0 - 2.0 * f);
    float a = hash21(i);
    float b = hash21(i + vec2(1.0, 0.0));
    float c = hash21(i + vec2(0.0, 1.0));
    float d = hash21(i + vec2(1.0, 1.0));
    return mix(mix(a, b, f.x), mix(c, d, f.x), f.y);
}

float fractalNoise(vec2 p, int octaves) {
    float sum = 0.0;
    float weight = 0.5;
    for (int i = 0; i < octaves; ++i) {
        sum += weight * valueNoise(p);
        p = mat2(0.8, -0.6, 0.6, 0.8) * p * 2.03 + 17.3;
        weight *= 0.5;
    }
    return sum;
}

// Clear sky in a direction; below 1 degree of elevation as at 1 degree, so that the far ground
// meets it without a seam.
vec3 skyColour(vec3 d) {
    float s = clamp(d.z, 0.01745, 1.0);
    float c = max(dot(d, u_sun.xyz), 0.0);
    float low = u_sun.w;
    vec3 horizon = mix(u_horizon.rgb, u_glow.rgb, 0.75 * low * pow(c, 2.2));
    vec3 sky = mix(u_zenith.rgb, horizon, pow(1.0 - s, 5.5));
    float c8 = c * c * c * c;
    c8 *= c8;
    return sky + u_glow.rgb * (0.20 * low * c8 * c8 * c8);
}

// How much of the haze's colour lies over something at rel (relative to the eye).
float hazeAmount(vec3 rel) {
    float r = length(rel) * u_haze.x;
    return u_haze.y * (1.0 - exp(-pow(r, 1.15)));
}

vec3 hazeColour(vec3 rel) { return skyColour(normalize(vec3(rel.xy, 0.0175 * length(rel.xy) + 1e-4))); }

vec3 hazed(vec3 colour, vec3 rel) {
    float amount = hazeAmount(rel);
    return amount > 0.0 ? mix(colour, hazeColour(rel), amount) : colour;
}
)";

const char* const kQuadVertex = R"(
layout(location = 0) in vec2 a_corner;
out vec2 v_uv;
void main() {
    v_uv = a_corner * 0.5 + 0.5;
    gl_Position = vec4(a_corner, 0.0, 1.0);
}
)";

}  // namespace plumbline::render
