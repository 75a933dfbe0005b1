// A browser's page makes no paper: its documents have a size and no pages.

#include "engine/page/document.h"

namespace plumbline::page {

struct Document::Impl {
    Size size;
};

Document::Document(Size size, const Fonts&) : impl_(std::make_unique<Impl>()) {
    impl_->size = size;
}
Document::~Document() = default;
Document::Document(Document&&) noexcept = default;

bool Document::possible() { return false; }
Size Document::size() const { return impl_->size; }
int Document::pages() const { return 0; }
Picture Document::pictureOf(int, const Painting&) const { return {}; }

}  // namespace plumbline::page
