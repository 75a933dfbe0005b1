#include "engine/record/gzip.h"

#include <algorithm>

#include <zlib.h>

namespace plumbline::record {

namespace {

// chosen: hours of the fastest logger stay far below
constexpr std::size_t kLargest = std::size_t{1} << 30;

}  // namespace

bool looksLikeGzip(std::string_view bytes) {
    return bytes.size() >= 3 && bytes[0] == '\x1F' && bytes[1] == '\x8B' && bytes[2] == 8;
}

Expected<Unpacked, Problems> unpackGzip(const NamedBytes& input) {
    Unpacked out;
    z_stream stream{};
    // 16: with the header of gzip
    if (inflateInit2(&stream, 16 + MAX_WBITS) != Z_OK)
        return failure(
            problem({input.file, 0, 0}, "there is no memory to unpack it", "unpack it by hand"));
    // zlib reads only, its interface is older than const
    std::string_view rest = input.bytes;
    int result = Z_OK;
    bool whole = false, too_large = false;
    while (!rest.empty() && !too_large) {
        const std::size_t some = std::min<std::size_t>(rest.size(), std::size_t{1} << 30);
        stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(rest.data()));
        stream.avail_in = static_cast<uInt>(some);
        do {
            const std::size_t size = out.bytes.size();
            if (size >= kLargest) {
                too_large = true;
                break;
            }
            const std::size_t more = std::clamp<std::size_t>(size, 1 << 16, 1 << 26);
            out.bytes.resize(size + more);
            stream.next_out = reinterpret_cast<Bytef*>(out.bytes.data() + size);
            stream.avail_out = static_cast<uInt>(more);
            result = inflate(&stream, Z_NO_FLUSH);
            out.bytes.resize(size + more - stream.avail_out);
        } while (result == Z_OK && (stream.avail_in > 0 || stream.avail_out == 0));
        rest.remove_prefix(some - stream.avail_in);
        whole = result == Z_STREAM_END;
        if (!whole) break;
        if (!looksLikeGzip(rest)) break;
        inflateReset(&stream);
    }
    inflateEnd(&stream);
    if (too_large)
        return failure(problem({input.file, 0, 0}, "it unpacks to more than a gigabyte",
                               "no recorder writes that much: look what it is"));
    if (out.bytes.empty())
        return failure(problem({input.file, 0, 0}, "this gzip file is broken",
                               "copy it again from the recorder"));
    if (!whole)
        out.warnings.push_back(problem({input.file, 0, 0},
                                       "this gzip file is broken or ends early; what could be "
                                       "unpacked is used",
                                       "copy it again from the recorder"));
    return out;
}

}  // namespace plumbline::record
