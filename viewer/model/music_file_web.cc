// A page in a browser reads no music files.

#include "viewer/model/music.h"

namespace plumbline::model {

Expected<std::shared_ptr<const Music>, std::string> readMusicFile(const std::filesystem::path&) {
    return Unexpected(std::string("a page in a browser reads no music files"));
}

}  // namespace plumbline::model
