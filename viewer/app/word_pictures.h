#pragma once
// Words of any script for the window: set through the pages' layout, kept as textures.

#include <memory>
#include <string>
#include <vector>

#include "engine/page/fonts.h"
#include "viewer/render/gl_objects.h"
#include "viewer/ui/word_setter.h"

namespace plumbline::app {

class WordPictures final : public ui::WordSetter {
public:
    WordPictures();
    ~WordPictures() override;
    WordPictures(const WordPictures&) = delete;
    WordPictures& operator=(const WordPictures&) = delete;

    /// A frame begins. @param fonts  files to fall back on, as the session has them
    void begin(const std::vector<std::string>& fonts);
    Picture set(const Wish& wish) override;

private:
    struct Kept {
        Wish wish;
        std::unique_ptr<render::Texture> texture;
        int unused = 0;  ///< frames
    };
    std::vector<std::string> files_;
    std::unique_ptr<page::Fonts> fonts_;  ///< null: nothing was set yet
    std::vector<Kept> kept_;
};

}  // namespace plumbline::app
