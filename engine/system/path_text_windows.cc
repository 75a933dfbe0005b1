// A path made of a string takes its bytes for UTF-8, as one made into a string gives UTF-8. GCC's
// library for Windows does only the second: the first it leaves to the C library's locale, which
// knows no UTF-8 there. The functions that it asks are replaced here as a whole, when the program
// is linked; nothing else of ours uses them.

#include <codecvt>
#include <cwchar>
#include <locale>

namespace std {
namespace {

using Bytes = codecvt<wchar_t, char, mbstate_t>;

const codecvt_utf8_utf16<wchar_t>& utf8() {
    static const codecvt_utf8_utf16<wchar_t> kept;
    return kept;
}

}  // namespace

Bytes::result Bytes::do_in(mbstate_t& state, const char* from, const char* from_end,
                           const char*& from_next, wchar_t* to, wchar_t* to_end,
                           wchar_t*& to_next) const {
    return utf8().in(state, from, from_end, from_next, to, to_end, to_next);
}

Bytes::result Bytes::do_out(mbstate_t& state, const wchar_t* from, const wchar_t* from_end,
                            const wchar_t*& from_next, char* to, char* to_end,
                            char*& to_next) const {
    return utf8().out(state, from, from_end, from_next, to, to_end, to_next);
}

int Bytes::do_length(mbstate_t& state, const char* from, const char* end, size_t most) const {
    return utf8().length(state, from, end, most);
}

int Bytes::do_encoding() const noexcept { return 0; }  // letters of different lengths

int Bytes::do_max_length() const noexcept { return 4; }

}  // namespace std
