// SPDX-License-Identifier: MIT
#include "driftwarden/report/html_text.hpp"

#include <gtest/gtest.h>

namespace driftwarden {
namespace {

TEST(Html, EscapesWhatWouldBeMarkup) {
  EXPECT_EQ(html("<script>alert('1' & \"2\")</script>"),
            "&lt;script&gt;alert(&#39;1&#39; &amp; &quot;2&quot;)&lt;/script&gt;");
}

TEST(Html, LeavesOtherTextAsItIs) { EXPECT_EQ(html("Sørel – 25 °C, ½ 流量 🚇"), "Sørel – 25 °C, ½ 流量 🚇"); }

TEST(Html, WritesCharactersThatHideByTheirCode) {
  EXPECT_EQ(html("a\tb\n"), "a⟨U+0009⟩b⟨U+000A⟩");
  EXPECT_EQ(html("\x1b[31m\x7f"), "⟨U+001B⟩[31m⟨U+007F⟩");
  EXPECT_EQ(html("\u0085\u200b\u202e\u2066\u061c\ufeff"), "⟨U+0085⟩⟨U+200B⟩⟨U+202E⟩⟨U+2066⟩⟨U+061C⟩⟨U+FEFF⟩");
  EXPECT_EQ(html(std::string_view("\0", 1)), "⟨U+0000⟩");
}

TEST(Html, ReplacesBytesThatAreNotUtf8) { EXPECT_EQ(html("a\xff\xc3"), "a\xEF\xBF\xBD\xEF\xBF\xBD"); }

TEST(Isolated, StaysWithinItself) { EXPECT_EQ(isolated("שלום <b>"), "<bdi>שלום &lt;b&gt;</bdi>"); }

}  // namespace
}  // namespace driftwarden
