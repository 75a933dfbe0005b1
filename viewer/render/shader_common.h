#pragma once
// What shaders share.

namespace plumbline::render {

/// What every shader begins with: the Frame block (frame.h), noise, the colour of the clear sky,
/// haze.
extern const char* const kShaderCommon;

/// Vertex shader of a picture that fills the target: corners of -1 to 1 (cornerOfQuad) give `v_uv`
/// of 0 to 1.
extern const char* const kQuadVertex;

}  // namespace plumbline::render
