#include "viewer/render/gl_objects.h"

#include <cstdio>
#include <initializer_list>

#include <glad/gl.h>
#include <glm/gtc/type_ptr.hpp>

#include "viewer/render/shader_common.h"

namespace plumbline::render {
namespace {

std::uint32_t compile(std::uint32_t kind, const char* name, const char* source, Shares shares,
                      std::string& problem) {
    const char* prefix = isEs() ? "#version 300 es\nprecision highp float;\nprecision highp int;\n"
                                : "#version 330 core\n";
    const char* parts[3] = {prefix, shares == Shares::Frame ? kShaderCommon : "", source};
    const std::uint32_t shader = glCreateShader(kind);
    glShaderSource(shader, 3, parts, nullptr);
    glCompileShader(shader);
    if (isEs()) return shader;  // asked when it is used
    int ok = 0;
    glGetShaderiv(shader, GL_COMPILE_STATUS, &ok);
    if (ok == 0) {
        char log[2000] = "";
        glGetShaderInfoLog(shader, sizeof log, nullptr, log);
        problem += std::string("shader '") + name + "' does not compile: " + log +
                   "; update the graphics driver or use the software driver\n";
        glDeleteShader(shader);
        return 0;
    }
    return shader;
}

const void* bufferOffset(std::size_t offset) { return static_cast<const char*>(nullptr) + offset; }

}  // namespace

bool isEs() {
    const char* version = reinterpret_cast<const char*>(glGetString(GL_VERSION));
    return version != nullptr && std::string(version).rfind("OpenGL ES", 0) == 0;
}

Program::Program(const char* name, const char* vertex_source, const char* fragment_source,
                 std::string& problem, Shares shares)
    : label_(name) {
    const std::uint32_t vertex = compile(GL_VERTEX_SHADER, name, vertex_source, shares, problem);
    const std::uint32_t fragment =
        compile(GL_FRAGMENT_SHADER, name, fragment_source, shares, problem);
    if (vertex != 0 && fragment != 0) {
        name_ = glCreateProgram();
        glAttachShader(name_, vertex);
        glAttachShader(name_, fragment);
        glLinkProgram(name_);
    }
    // In a browser each question waits for all that the driver has to do, so the answer of one that
    // compiles meanwhile comes for less. Blocks are bound to 0 from the start (OpenGL
    // ES 3.0, 2.12.6).
    asked_ = name_ == 0 || !isEs();
    if (name_ != 0 && asked_) {
        int ok = 0;
        glGetProgramiv(name_, GL_LINK_STATUS, &ok);
        if (ok == 0) {
            char log[2000] = "";
            glGetProgramInfoLog(name_, sizeof log, nullptr, log);
            problem += std::string("shader '") + name + "' does not link: " + log +
                       "; update the graphics driver or use the software driver\n";
        } else {
            const std::uint32_t block = glGetUniformBlockIndex(name_, "Frame");
            if (block != GL_INVALID_INDEX) glUniformBlockBinding(name_, block, 0);
        }
    }
    if (vertex != 0) glDeleteShader(vertex);
    if (fragment != 0) glDeleteShader(fragment);
}

Program::~Program() {
    if (name_ != 0) glDeleteProgram(name_);
}

void Program::use() const {
    if (!asked_) ask();
    glUseProgram(name_);
}

void Program::ask() const {
    asked_ = true;
    int ok = 0;
    glGetProgramiv(name_, GL_LINK_STATUS, &ok);
    if (ok != 0) return;
    char log[2000] = "";
    glGetProgramInfoLog(name_, sizeof log, nullptr, log);
    std::fprintf(stderr, "plumbline: shader '%s' does not link: %s\n", label_, log);
}

int Program::location(const char* uniform) const {
    for (const auto& known : locations_) {
        if (known.first == uniform) return known.second;
    }
    locations_.emplace_back(uniform, glGetUniformLocation(name_, uniform));
    return locations_.back().second;
}

void Program::set(const char* uniform, float value) const { glUniform1f(location(uniform), value); }
void Program::set(const char* uniform, int value) const { glUniform1i(location(uniform), value); }
void Program::set(const char* uniform, const glm::vec2& value) const {
    glUniform2f(location(uniform), value.x, value.y);
}
void Program::set(const char* uniform, const glm::vec3& value) const {
    glUniform3f(location(uniform), value.x, value.y, value.z);
}
void Program::set(const char* uniform, const glm::vec4& value) const {
    glUniform4f(location(uniform), value.x, value.y, value.z, value.w);
}
void Program::set(const char* uniform, const glm::mat4& value) const {
    glUniformMatrix4fv(location(uniform), 1, GL_FALSE, glm::value_ptr(value));
}

Texture::Texture(int width, int height, int channels, const std::uint8_t* pixels, Filter filter,
                 Wrap wrap)
    : width_(width), height_(height) {
    glGenTextures(1, &name_);
    glBindTexture(GL_TEXTURE_2D, name_);
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    if (channels == 1) {
        glTexImage2D(GL_TEXTURE_2D, 0, GL_R8, width, height, 0, GL_RED, GL_UNSIGNED_BYTE, pixels);
    } else {
        glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE,
                     pixels);
    }
    const int shrink = filter == Filter::Nearest  ? GL_NEAREST
                       : filter == Filter::Linear ? GL_LINEAR
                                                  : GL_LINEAR_MIPMAP_LINEAR;
    const int wrap_mode = wrap == Wrap::Clamp    ? GL_CLAMP_TO_EDGE
                          : wrap == Wrap::Repeat ? GL_REPEAT
                                                 : GL_MIRRORED_REPEAT;
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, shrink);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER,
                    filter == Filter::Nearest ? GL_NEAREST : GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, wrap_mode);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, wrap_mode);
    if (filter == Filter::Trilinear) glGenerateMipmap(GL_TEXTURE_2D);
}

Texture::~Texture() {
    if (name_ != 0) glDeleteTextures(1, &name_);
}

void Texture::bind(int unit) const {
    glActiveTexture(GL_TEXTURE0 + static_cast<std::uint32_t>(unit));
    glBindTexture(GL_TEXTURE_2D, name_);
}

void Texture::makeMipmaps() const {
    glBindTexture(GL_TEXTURE_2D, name_);
    glGenerateMipmap(GL_TEXTURE_2D);
}

Target::Target(const Texture& colour, bool depth)
    : width_(colour.width()), height_(colour.height()) {
    glGenFramebuffers(1, &name_);
    glBindFramebuffer(GL_FRAMEBUFFER, name_);
    glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, colour.name(), 0);
    if (depth) {
        glGenRenderbuffers(1, &depth_buffer_);
        glBindRenderbuffer(GL_RENDERBUFFER, depth_buffer_);
        glRenderbufferStorage(GL_RENDERBUFFER, GL_DEPTH_COMPONENT24, width_, height_);
        glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_RENDERBUFFER,
                                  depth_buffer_);
    }
}

Target::Target(int width, int height, int samples) : width_(width), height_(height) {
    glGenFramebuffers(1, &name_);
    glBindFramebuffer(GL_FRAMEBUFFER, name_);
    glGenRenderbuffers(1, &colour_buffer_);
    glBindRenderbuffer(GL_RENDERBUFFER, colour_buffer_);
    glRenderbufferStorageMultisample(GL_RENDERBUFFER, samples, GL_RGBA8, width, height);
    glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_RENDERBUFFER,
                              colour_buffer_);
    glGenRenderbuffers(1, &depth_buffer_);
    glBindRenderbuffer(GL_RENDERBUFFER, depth_buffer_);
    glRenderbufferStorageMultisample(GL_RENDERBUFFER, samples, GL_DEPTH_COMPONENT24, width, height);
    glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_RENDERBUFFER, depth_buffer_);
}

Target::~Target() {
    if (name_ != 0) glDeleteFramebuffers(1, &name_);
    if (colour_buffer_ != 0) glDeleteRenderbuffers(1, &colour_buffer_);
    if (depth_buffer_ != 0) glDeleteRenderbuffers(1, &depth_buffer_);
}

void Target::swap(Target& other) noexcept {
    std::swap(name_, other.name_);
    std::swap(colour_buffer_, other.colour_buffer_);
    std::swap(depth_buffer_, other.depth_buffer_);
    std::swap(width_, other.width_);
    std::swap(height_, other.height_);
}

void Target::bind() const {
    glBindFramebuffer(GL_FRAMEBUFFER, name_);
    glViewport(0, 0, width_, height_);
}

Mesh::Mesh(std::size_t stride, std::initializer_list<Attribute> attributes) {
    glGenVertexArrays(1, &array_);
    glBindVertexArray(array_);
    glGenBuffers(1, &vertex_buffer_);
    glBindBuffer(GL_ARRAY_BUFFER, vertex_buffer_);
    for (const Attribute& a : attributes) {
        const auto location = static_cast<std::uint32_t>(a.location);
        glEnableVertexAttribArray(location);
        glVertexAttribPointer(location, a.components, a.bytes ? GL_UNSIGNED_BYTE : GL_FLOAT,
                              a.bytes ? GL_TRUE : GL_FALSE, static_cast<int>(stride),
                              bufferOffset(a.offset));
    }
}

Mesh::~Mesh() {
    if (array_ != 0) glDeleteVertexArrays(1, &array_);
    if (vertex_buffer_ != 0) glDeleteBuffers(1, &vertex_buffer_);
    if (index_buffer_ != 0) glDeleteBuffers(1, &index_buffer_);
}

void Mesh::swap(Mesh& other) noexcept {
    std::swap(array_, other.array_);
    std::swap(vertex_buffer_, other.vertex_buffer_);
    std::swap(index_buffer_, other.index_buffer_);
    std::swap(vertex_count_, other.vertex_count_);
    std::swap(index_count_, other.index_count_);
}

void Mesh::uploadVertices(const void* data, std::size_t count, std::size_t stride) {
    glBindBuffer(GL_ARRAY_BUFFER, vertex_buffer_);
    glBufferData(GL_ARRAY_BUFFER, static_cast<GLsizeiptr>(count * stride), data, GL_DYNAMIC_DRAW);
    vertex_count_ = count;
}

void Mesh::setIndices(std::span<const std::uint32_t> indices) {
    glBindVertexArray(array_);
    if (index_buffer_ == 0) glGenBuffers(1, &index_buffer_);
    glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, index_buffer_);
    glBufferData(GL_ELEMENT_ARRAY_BUFFER, static_cast<GLsizeiptr>(indices.size_bytes()),
                 indices.data(), GL_DYNAMIC_DRAW);
    index_count_ = indices.size();
}

void Mesh::draw() const {
    if (vertex_count_ == 0) return;
    glBindVertexArray(array_);
    if (index_count_ > 0) {
        glDrawElements(GL_TRIANGLES, static_cast<int>(index_count_), GL_UNSIGNED_INT, nullptr);
    } else {
        glDrawArrays(GL_TRIANGLES, 0, static_cast<int>(vertex_count_));
    }
}

void Mesh::drawIndices(std::size_t first, std::size_t count) const {
    if (count == 0) return;
    glBindVertexArray(array_);
    glDrawElements(GL_TRIANGLES, static_cast<int>(count), GL_UNSIGNED_INT,
                   bufferOffset(first * sizeof(std::uint32_t)));
}

void Mesh::drawStrip() const {
    glBindVertexArray(array_);
    glDrawArrays(GL_TRIANGLE_STRIP, 0, static_cast<int>(vertex_count_));
}

UniformBlock::UniformBlock(std::size_t size) {
    glGenBuffers(1, &name_);
    glBindBuffer(GL_UNIFORM_BUFFER, name_);
    glBufferData(GL_UNIFORM_BUFFER, static_cast<GLsizeiptr>(size), nullptr, GL_DYNAMIC_DRAW);
    // What is baked before the first frame is drawn by programs that have the block, unread.
    glBindBufferBase(GL_UNIFORM_BUFFER, 0, name_);
}

UniformBlock::~UniformBlock() {
    if (name_ != 0) glDeleteBuffers(1, &name_);
}

void UniformBlock::upload(const void* data, std::size_t size) const {
    glBindBufferBase(GL_UNIFORM_BUFFER, 0, name_);
    glBufferSubData(GL_UNIFORM_BUFFER, 0, static_cast<GLsizeiptr>(size), data);
}

}  // namespace plumbline::render
