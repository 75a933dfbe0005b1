#include "engine/out/page_file.h"

#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace plumbline::out {
namespace {

constexpr const char* kPage =
    "<p>before</p><script type=\"application/json\" id=\"carried\">{}</script><p>after</p>";

/// What stands between the marks of a page that was made.
std::string carriedBy(const std::string& page) {
    const std::string begin = "id=\"carried\">";
    const std::size_t at = page.find(begin) + begin.size();
    return page.substr(at, page.find("</script>", at) - at);
}

TEST(PageFile, SpellsBytesInBase64) {
    // RFC 4648, section 10.
    const std::pair<const char*, const char*> vectors[] = {{"", ""},
                                                           {"f", "Zg=="},
                                                           {"fo", "Zm8="},
                                                           {"foo", "Zm9v"},
                                                           {"foob", "Zm9vYg=="},
                                                           {"fooba", "Zm9vYmE="},
                                                           {"foobar", "Zm9vYmFy"}};
    for (const auto& [bytes, text] : vectors) EXPECT_EQ(base64(bytes), text) << bytes;
}

TEST(PageFile, CarriesFilesAndHowToOpenThem) {
    PageContent content;
    content.files = {{"shows/a.routine.toml", "name = \"A\"\n"},
                     {"b.site.toml", std::string("\0\xff", 2)}};
    content.open = {"shows/a.routine.toml"};
    content.options = {"--mirror"};
    const auto page = pageWith(kPage, content);
    ASSERT_TRUE(page.has_value());
    EXPECT_EQ(page->rfind("<p>before</p>", 0), 0U);
    EXPECT_TRUE(page->ends_with("</script><p>after</p>"));
    const auto json = nlohmann::json::parse(carriedBy(*page));
    ASSERT_EQ(json["files"].size(), 2U);
    EXPECT_EQ(json["files"][0]["name"], "shows/a.routine.toml");
    EXPECT_EQ(json["files"][1]["bytes"], "AP8=");
    EXPECT_EQ(json["open"], nlohmann::json::array({"shows/a.routine.toml"}));
    EXPECT_EQ(json["options"], nlohmann::json::array({"--mirror"}));
}

TEST(PageFile, LetsNoNameOutOfItsPlace) {
    // HTML Living Standard, 4.12.1.3: a script element's text must not hold "</script" nor "<!--".
    const std::string hostile =
        "</script><script>alert(1)</script><!-- \" \\ ' & \x01 \xe2\x80\xa8.routine.toml";
    PageContent content;
    content.files = {{hostile, hostile}};
    content.open = {hostile};
    content.options = {hostile};
    const auto page = pageWith(kPage, content);
    ASSERT_TRUE(page.has_value());
    const std::string carried = carriedBy(*page);
    EXPECT_EQ(carried.find('<'), std::string::npos);
    EXPECT_TRUE(page->ends_with("</script><p>after</p>"));
    const auto json = nlohmann::json::parse(carried);
    EXPECT_EQ(json["open"][0].get<std::string>(), hostile);
    EXPECT_EQ(json["files"][0]["name"].get<std::string>(), hostile);
}

TEST(PageFile, IsAsciiWhateverNamesAreMadeOf) {
    // The Unicode Standard 15.0, table 3-7: what is well-formed; the rest is told as U+FFFD.
    const std::pair<std::string, const char*> texts[] = {
        {"\xd0\x96", "\"\\u0416\""},
        {"\xf0\x9f\x9b\xa9", "\"\\ud83d\\udee9\""},
        {"\xe2\x80\xa8\xe2\x80\xa9", "\"\\u2028\\u2029\""},
        {std::string("a\0b", 3), "\"a\\u0000b\""},
        {"\xed\xa0\x80", "\"\\ufffd\\ufffd\\ufffd\""},  // half of a pair
        {"\xc0\xbc", "\"\\ufffd\\ufffd\""},             // "<" made long
        {"\xe2\x80<", "\"\\ufffd\\ufffd\\u003c\""},
        {"]]>", "\"]]\\u003e\""},
        {"\x7f", "\"\\u007f\""}};
    for (const auto& [text, json] : texts) EXPECT_EQ(jsonText(text), json);
    std::string every;
    for (int byte = 0; byte < 256; ++byte) every += static_cast<char>(byte);
    for (const char c : jsonText(every + std::string(100000, '<'))) {
        ASSERT_GE(c, 0x20);
        ASSERT_NE(c, '<');
    }
}

TEST(PageFile, TakesOnlyItsOwnEmptyPage) {
    EXPECT_FALSE(pageWith("<html></html>", {}).has_value());
    const auto once = pageWith(kPage, {});
    ASSERT_TRUE(once.has_value());
    EXPECT_FALSE(pageWith(*once, {}).has_value()) << "it carries something already";
}

}  // namespace
}  // namespace plumbline::out
