#pragma once
// What every shader begins with.

namespace plumbline::render {

/// The Frame block (frame.h), noise, the colour of the clear sky, haze.
extern const char* const kShaderCommon;

}  // namespace plumbline::render
