// @source Khronos glTF 2.0 specification (ISO/IEC 12113), sections 3.6 (buffers, alignment), 4.4
// (GLB container)
#include "engine/out/gltf_document.h"

#include <algorithm>
#include <cstring>
#include <limits>
#include <optional>

#include "engine/base/nesting.h"
#include "engine/out/gltf_in_one_piece.h"

namespace plumbline::out {

namespace {

using Json = nlohmann::json;

constexpr std::uint32_t kMagic = 0x46546C67;  // "glTF"
constexpr std::uint32_t kJsonChunk = 0x4E4F534A;
constexpr std::uint32_t kBinChunk = 0x004E4942;
// chosen: what it holds in all, far beyond what can be drawn in time
constexpr std::size_t kLargest_bytes = std::size_t{1} << 30;
constexpr int kFloat = 5126, kUnsignedInt = 5125;
constexpr int kVertices = 34962, kIndices = 34963;

std::uint32_t wordAt(std::string_view bytes, std::size_t at) {
    std::uint32_t word = 0;
    for (std::size_t i = 4; i-- > 0;)
        word = (word << 8) | static_cast<unsigned char>(bytes[at + i]);
    return word;
}

void appendWord(std::string& out, std::uint32_t word) {
    for (int i = 0; i < 4; ++i) out += static_cast<char>((word >> (8 * i)) & 0xFF);
}

void pad(std::string& bytes, char with) {
    while (bytes.size() % 4 != 0) bytes += with;
}

/// Bytes of base 64 (RFC 4648, section 4).
std::optional<std::string> fromBase64(std::string_view text) {
    constexpr std::string_view kLetters =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    while (!text.empty() && text.back() == '=') text.remove_suffix(1);
    std::string out;
    std::uint32_t bits = 0;
    int count = 0;
    for (const char c : text) {
        const std::size_t value = kLetters.find(c);
        if (value == std::string_view::npos) return std::nullopt;
        bits = (bits << 6) | static_cast<std::uint32_t>(value);
        count += 6;
        if (count < 8) continue;
        count -= 8;
        out += static_cast<char>((bits >> count) & 0xFF);
    }
    return out;
}

/// "a%20b" -> "a b" (RFC 3986, section 2.1).
std::string fromPercents(std::string_view text) {
    const auto digit = [](char c) {
        return c >= '0' && c <= '9'   ? c - '0'
               : c >= 'a' && c <= 'f' ? c - 'a' + 10
               : c >= 'A' && c <= 'F' ? c - 'A' + 10
                                      : -1;
    };
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool three = text[i] == '%' && i + 2 < text.size();
        const int high = three ? digit(text[i + 1]) : -1, low = three ? digit(text[i + 2]) : -1;
        if (high >= 0 && low >= 0) {
            out += static_cast<char>(16 * high + low);
            i += 2;
        } else {
            out += text[i];
        }
    }
    return out;
}

/// "file:", "http:", a drive's letter (RFC 3986, section 3.1).
bool hasScheme(std::string_view uri) {
    const std::size_t colon = uri.find_first_of(":/?#");
    return colon != std::string_view::npos && colon > 0 && uri[colon] == ':';
}

/// The kind of a picture by its first bytes.
std::string pictureType(std::string_view bytes) {
    if (bytes.substr(0, 4) == "\x89PNG") return "image/png";
    if (bytes.substr(0, 3) == "\xFF\xD8\xFF") return "image/jpeg";
    return {};
}

/// Reads what a glTF names by URI.
class Taker {
public:
    Taker(const std::filesystem::path& folder, const load::FileSource& files)
        : folder_(folder), files_(files) {}

    Expected<std::string, std::string> take(const std::string& uri) const {
        if (uri.compare(0, 5, "data:") == 0) {
            const std::size_t comma = uri.find(";base64,");
            if (comma != std::string::npos)
                if (auto bytes = fromBase64(std::string_view(uri).substr(comma + 8)))
                    return std::move(*bytes);
            return Unexpected<std::string>("it has a data URI that is not base 64");
        }
        if (hasScheme(uri))
            return Unexpected<std::string>("it names " + uri + ", which is not fetched");
        const std::string name = fromPercents(uri);
        if (hasScheme(name) || name.find('\0') != std::string::npos)
            return Unexpected<std::string>("it names " + uri + ", which is no file's name");
        const auto path = std::filesystem::u8path(name);
        // What is sent on would hold a file that nobody meant to send.
        if (!system::staysInside(path))
            return Unexpected<std::string>(
                "it names " + name + ", which is outside its folder: put it beside the model");
        system::ReadFile read = files_(folder_ / path);
        if (read.bytes) return std::move(*read.bytes);
        return Unexpected<std::string>("it names " + name +
                                       ", which cannot be read: " + read.reason);
    }

private:
    std::filesystem::path folder_;
    const load::FileSource& files_;
};

/// All buffers one behind the other, each at a multiple of four bytes.
/// @return what is wrong; empty: nothing
std::string joinBuffers(Json& json, std::string chunk, bool is_glb, const Taker& taker,
                        std::string& bin) {
    std::vector<std::size_t> starts;
    Json& buffers = json["buffers"];
    if (!buffers.is_array()) buffers = Json::array();
    for (std::size_t i = 0; i < buffers.size(); ++i) {
        std::string bytes;
        if (buffers[i].contains("uri")) {
            auto taken = taker.take(buffers[i]["uri"].get<std::string>());
            if (!taken) return taken.error();
            bytes = std::move(*taken);
        } else if (i == 0 && is_glb) {
            bytes = std::move(chunk);
        }
        const auto length = buffers[i].at("byteLength").get<std::size_t>();
        if (bytes.size() < length) return "a buffer of it is cut short";
        if (length > kLargest_bytes - std::min(bin.size(), kLargest_bytes))
            return "it holds more than a gigabyte";
        bytes.resize(length);
        pad(bin, '\0');
        starts.push_back(bin.size());
        bin += bytes;
    }
    if (json.contains("bufferViews")) {
        for (Json& view : json["bufferViews"]) {
            const auto buffer = view.at("buffer").get<std::size_t>();
            const auto offset = view.value("byteOffset", std::size_t{0});
            const auto length = view.at("byteLength").get<std::size_t>();
            if (buffer >= starts.size() || offset > bin.size() || length > bin.size() ||
                starts[buffer] + offset + length > bin.size())
                return "a part of it lies outside its buffer";
            view["buffer"] = 0;
            view["byteOffset"] = starts[buffer] + offset;
        }
    }
    return {};
}

}  // namespace

Expected<GltfDocument, std::string> GltfDocument::read(std::string_view bytes,
                                                       const std::filesystem::path& folder,
                                                       const load::FileSource& files) {
    const auto refused = [](std::string why) { return Unexpected<std::string>(std::move(why)); };
    std::string_view text = bytes, chunk;
    const bool is_glb = bytes.size() >= 20 && wordAt(bytes, 0) == kMagic;
    if (is_glb) {
        const std::size_t json_size = wordAt(bytes, 12);
        if (wordAt(bytes, 4) != 2 || wordAt(bytes, 16) != kJsonChunk ||
            json_size > bytes.size() - 20)
            return refused("it is no binary glTF 2.0");
        text = bytes.substr(20, json_size);
        const std::size_t next = 20 + json_size;
        if (bytes.size() >= next + 8 && wordAt(bytes, next + 4) == kBinChunk) {
            const std::size_t size = wordAt(bytes, next);
            if (size > bytes.size() - next - 8) return refused("it is cut short");
            chunk = bytes.substr(next + 8, size);
        }
    }
    if (nestedDeeper(text) != std::string_view::npos)
        return refused("its brackets lie deeper than " + std::to_string(kDeepest) +
                       " in one another");
    GltfDocument out;
    out.json = Json::parse(text, nullptr, false);
    if (out.json.is_discarded() || !out.json.is_object()) return refused("it is no glTF");
    try {  // the JSON library's own, where a member is of another kind than glTF says
        if (out.json.at("asset").at("version").get<std::string>().compare(0, 2, "2.") != 0)
            return refused("it is not glTF 2.0");
        if (!out.json.contains("scenes") || out.json["scenes"].empty())
            return refused("it has no scene");
        const Taker taker(folder, files);
        std::string wrong = joinBuffers(out.json, std::string(chunk), is_glb, taker, out.bin);
        if (!wrong.empty()) return refused(wrong);
        if (out.json.contains("images")) {
            for (Json& image : out.json["images"]) {
                if (!image.contains("uri")) continue;
                auto picture = taker.take(image["uri"].get<std::string>());
                if (!picture) return refused(picture.error());
                if (picture->size() > kLargest_bytes - std::min(out.bin.size(), kLargest_bytes))
                    return refused("it holds more than a gigabyte");
                const std::string type = pictureType(*picture);
                if (type.empty()) return refused("a picture of it is neither PNG nor JPEG");
                image["bufferView"] = out.addView(picture->data(), picture->size(), 0);
                image["mimeType"] = type;
                image.erase("uri");
            }
        }
    } catch (const Json::exception& error) {
        return refused(std::string("it is no valid glTF (") + error.what() + ")");
    }
    return out;
}

int GltfDocument::add(const char* array, Json object) {
    Json& list = json[array];
    if (!list.is_array()) list = Json::array();
    list.push_back(std::move(object));
    return static_cast<int>(list.size()) - 1;
}

int GltfDocument::addView(const void* bytes, std::size_t size, int target) {
    pad(bin, '\0');
    Json view = {{"buffer", 0}, {"byteOffset", bin.size()}, {"byteLength", size}};
    if (target != 0) view["target"] = target;
    bin.append(static_cast<const char*>(bytes), size);
    return add("bufferViews", std::move(view));
}

int GltfDocument::addFloats(std::span<const float> numbers, GltfType type, bool of_vertices) {
    const std::size_t width = type == GltfType::Scalar ? 1 : type == GltfType::Vec3 ? 3 : 4;
    std::vector<float> least(width, std::numeric_limits<float>::max());
    std::vector<float> most(width, std::numeric_limits<float>::lowest());
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        least[i % width] = std::min(least[i % width], numbers[i]);
        most[i % width] = std::max(most[i % width], numbers[i]);
    }
    constexpr const char* kNames[] = {"SCALAR", "VEC3", "VEC4"};
    return add(
        "accessors",
        {{"bufferView", addView(numbers.data(), numbers.size_bytes(), of_vertices ? kVertices : 0)},
         {"componentType", kFloat},
         {"count", numbers.size() / width},
         {"type", kNames[static_cast<std::size_t>(type)]},
         {"min", least},
         {"max", most}});
}

int GltfDocument::addIndices(std::span<const std::uint32_t> indices) {
    return add("accessors",
               {{"bufferView", addView(indices.data(), indices.size_bytes(), kIndices)},
                {"componentType", kUnsignedInt},
                {"count", indices.size()},
                {"type", "SCALAR"}});
}

std::string GltfDocument::toGlb() const {
    Json whole = json;
    std::string data = bin;
    pad(data, '\0');
    whole["buffers"] = Json::array({{{"byteLength", data.size()}}});
    std::string text = whole.dump(-1, ' ', false, Json::error_handler_t::replace);
    pad(text, ' ');
    std::string out;
    out.reserve(28 + text.size() + data.size());
    appendWord(out, kMagic);
    appendWord(out, 2);
    appendWord(out, static_cast<std::uint32_t>(28 + text.size() + data.size()));
    appendWord(out, static_cast<std::uint32_t>(text.size()));
    appendWord(out, kJsonChunk);
    out += text;
    appendWord(out, static_cast<std::uint32_t>(data.size()));
    appendWord(out, kBinChunk);
    return out + data;
}

Expected<std::string, std::string> gltfInOnePiece(std::string_view bytes,
                                                  const std::filesystem::path& folder,
                                                  const load::FileSource& files) {
    auto read = GltfDocument::read(bytes, folder, files);
    if (!read) return Unexpected<std::string>(read.error());
    return read->toGlb();
}

}  // namespace plumbline::out
