#pragma once
// A page as a reader of the file sees it: Poppler, which shares no code with what made it.

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <poppler-document.h>
#include <poppler-font.h>
#include <poppler-page-renderer.h>
#include <poppler-page.h>

namespace plumbline::test {

class ReadBack {
public:
    explicit ReadBack(const std::string& bytes)
        : bytes_(bytes.begin(), bytes.end()),
          document_(poppler::document::load_from_raw_data(bytes_.data(),
                                                          static_cast<int>(bytes_.size()))) {}

    bool good() const { return document_ != nullptr; }
    int pages() const { return document_->pages(); }
    poppler::rectf size(int page) const { return pageOf(page)->page_rect(); }
    std::string title() const { return utf8(document_->get_title()); }
    bool dated() const {
        return !document_->info_key("CreationDate").empty() ||
               !document_->info_key("ModDate").empty();
    }

    /// Names of fonts whose shapes the file carries.
    std::vector<std::string> embeddedFonts() const {
        std::vector<std::string> names;
        for (const poppler::font_info& font : document_->fonts())
            if (font.is_embedded()) names.push_back(font.name());
        return names;
    }

    /// In reading order.
    std::string text(int page) const { return utf8(pageOf(page)->text()); }
    bool says(int page, const std::string& words) const {
        return text(page).find(words) != std::string::npos;
    }
    struct Word {
        std::string words;
        poppler::rectf box_pt;
    };
    std::vector<Word> words(int page) const {
        std::vector<Word> out;
        for (const poppler::text_box& box : pageOf(page)->text_list())
            out.push_back({utf8(box.text()), box.bbox()});
        return out;
    }
    /// Grey of each pixel, rows from above.
    struct Grey {
        int width = 0, height = 0;
        std::vector<int> values;
        int at(int x, int y) const { return values[static_cast<std::size_t>(y * width + x)]; }
    };
    Grey drawn(int page, double dpi) const {
        poppler::page_renderer renderer;
        renderer.set_render_hint(poppler::page_renderer::antialiasing, false);
        renderer.set_render_hint(poppler::page_renderer::text_antialiasing, true);
        const poppler::image image = renderer.render_page(pageOf(page).get(), dpi, dpi);
        Grey grey{image.width(), image.height(), {}};
        for (int y = 0; y < image.height(); ++y)
            for (int x = 0; x < image.width(); ++x) {
                const auto* p = reinterpret_cast<const unsigned char*>(
                    image.const_data() + y * image.bytes_per_row() + 4 * x);
                grey.values.push_back((p[0] * 11 + p[1] * 59 + p[2] * 30) / 100);
            }
        return grey;
    }

    /// What qpdf says of the file's structure: empty when nothing.
    static bool sound(const std::string& bytes, const std::string& name) {
        const std::filesystem::path file = std::filesystem::path(testing::TempDir()) / name;
        std::ofstream(file, std::ios::binary) << bytes;
        return std::system(("qpdf --check \"" + file.string() + "\" >/dev/null 2>&1").c_str()) == 0;
    }

private:
    static std::string utf8(const poppler::ustring& text) {
        const poppler::byte_array bytes = text.to_utf8();
        return {bytes.begin(), bytes.end()};
    }
    std::unique_ptr<poppler::page> pageOf(int page) const {
        return std::unique_ptr<poppler::page>(document_->create_page(page));
    }

    std::vector<char> bytes_;
    std::unique_ptr<poppler::document> document_;
};

}  // namespace plumbline::test
