#pragma once
// Owners of GL objects, freed with their owner while the context is current. GL names are plain
// integers here so that only source files see glad.

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <glm/ext/matrix_float4x4.hpp>
#include <glm/ext/vector_float2.hpp>
#include <glm/ext/vector_float3.hpp>
#include <glm/ext/vector_float4.hpp>

namespace plumbline::render {

/// What is put before a program's sources: the common chunk (shader_common.h), or nothing.
enum class Shares { Frame, None };

/// A linked program. Sources carry no `#version`; the prefix for the context and the common chunk
/// are put before them.
class Program {
public:
    Program() = default;
    /// On failure appends a sentence with the driver's words to `problem` and stays empty; in a
    /// browser the failure is told on stderr at the first use.
    /// @param name    a literal
    /// @param shares  None: without the world's Frame block, of which a buffer must be bound to
    /// draw
    Program(const char* name, const char* vertex_source, const char* fragment_source,
            std::string& problem, Shares shares = Shares::Frame);
    Program(Program&& other) noexcept { swap(other); }
    Program& operator=(Program&& other) noexcept {
        swap(other);
        return *this;
    }
    ~Program();

    void use() const;
    void set(const char* uniform, float value) const;
    void set(const char* uniform, int value) const;
    void set(const char* uniform, const glm::vec2& value) const;
    void set(const char* uniform, const glm::vec3& value) const;
    void set(const char* uniform, const glm::vec4& value) const;
    void set(const char* uniform, const glm::mat4& value) const;

private:
    void swap(Program& other) noexcept {
        std::swap(name_, other.name_);
        std::swap(label_, other.label_);
        std::swap(asked_, other.asked_);
        locations_.swap(other.locations_);
    }
    void ask() const;
    int location(const char* uniform) const;

    std::uint32_t name_ = 0;
    const char* label_ = "";
    mutable bool asked_ = true;  ///< whether it links
    mutable std::vector<std::pair<std::string, int>> locations_;
};

enum class Filter { Nearest, Linear, Trilinear };
enum class Wrap { Clamp, Repeat, Mirror };

/// A two-dimensional texture, RGBA8 or R8.
class Texture {
public:
    Texture() = default;
    /// @param pixels  channels * width * height bytes, first row at v = 0; null: contents undefined
    Texture(int width, int height, int channels, const std::uint8_t* pixels, Filter filter,
            Wrap wrap);
    Texture(Texture&& other) noexcept { swap(other); }
    Texture& operator=(Texture&& other) noexcept {
        swap(other);
        return *this;
    }
    ~Texture();

    void bind(int unit) const;
    void makeMipmaps() const;
    std::uint32_t name() const { return name_; }
    int width() const { return width_; }
    int height() const { return height_; }

private:
    void swap(Texture& other) noexcept {
        std::swap(name_, other.name_);
        std::swap(width_, other.width_);
        std::swap(height_, other.height_);
    }

    std::uint32_t name_ = 0;
    int width_ = 0;
    int height_ = 0;
};

/// A framebuffer over a texture of the caller's (which must outlive it) or over its own
/// renderbuffers, with depth when asked.
/// True in an OpenGL ES context (a browser).
bool isEs();

class Target {
public:
    Target() = default;
    Target(const Texture& colour, bool depth);
    /// Renderbuffers with this many samples (0: not multisampled).
    Target(int width, int height, int samples);
    Target(Target&& other) noexcept { swap(other); }
    Target& operator=(Target&& other) noexcept {
        swap(other);
        return *this;
    }
    ~Target();

    /// Binds and sets the viewport to all of it.
    void bind() const;
    std::uint32_t name() const { return name_; }
    int width() const { return width_; }
    int height() const { return height_; }

private:
    void swap(Target& other) noexcept;

    std::uint32_t name_ = 0;
    std::uint32_t colour_buffer_ = 0;
    std::uint32_t depth_buffer_ = 0;
    int width_ = 0;
    int height_ = 0;
};

/// One vertex attribute inside a vertex struct.
struct Attribute {
    int location = 0;
    int components = 4;
    std::size_t offset = 0;
    bool bytes = false;  ///< unsigned bytes 0..255 as 0..1 instead of floats
};

/// Vertices, optional indices, and how they are laid out.
class Mesh {
public:
    Mesh() = default;
    Mesh(std::size_t stride, std::initializer_list<Attribute> attributes);
    Mesh(Mesh&& other) noexcept { swap(other); }
    Mesh& operator=(Mesh&& other) noexcept {
        swap(other);
        return *this;
    }
    ~Mesh();

    template <class V>
    void setVertices(std::span<const V> vertices) {
        uploadVertices(vertices.data(), vertices.size(), sizeof(V));
    }
    void setIndices(std::span<const std::uint32_t> indices);

    /// All triangles: by the indices when there are some, else by the vertices in order.
    void draw() const;
    /// Triangles `first`.. of the index list.
    void drawIndices(std::size_t first, std::size_t count) const;
    void drawStrip() const;
    std::size_t vertexCount() const { return vertex_count_; }

private:
    void uploadVertices(const void* data, std::size_t count, std::size_t stride);
    void swap(Mesh& other) noexcept;

    std::uint32_t array_ = 0;
    std::uint32_t vertex_buffer_ = 0;
    std::uint32_t index_buffer_ = 0;
    std::size_t vertex_count_ = 0;
    std::size_t index_count_ = 0;
};

/// Corner 0..3 of a quad: (-1,-1), (1,-1), (-1,1), (1,1).
inline glm::vec2 cornerOfQuad(int i) {
    return {(i & 1) == 0 ? -1.0F : 1.0F, (i & 2) == 0 ? -1.0F : 1.0F};
}
/// Two triangles over four corners in that order. Quads are spelt out rather than instanced: the
/// software driver spends more on an instance than on its four vertices.
inline void addQuad(std::vector<std::uint32_t>& indices, std::uint32_t first) {
    for (const std::uint32_t k : {0U, 1U, 3U, 0U, 3U, 2U}) indices.push_back(first + k);
}

/// A uniform block shared by all programs (binding point 0).
class UniformBlock {
public:
    UniformBlock() = default;
    explicit UniformBlock(std::size_t size);
    UniformBlock(const UniformBlock&) = delete;
    UniformBlock& operator=(const UniformBlock&) = delete;
    UniformBlock(UniformBlock&& other) noexcept { std::swap(name_, other.name_); }
    UniformBlock& operator=(UniformBlock&& other) noexcept {
        std::swap(name_, other.name_);
        return *this;
    }
    ~UniformBlock();
    void upload(const void* data, std::size_t size) const;

private:
    std::uint32_t name_ = 0;
};

}  // namespace plumbline::render
