// SPDX-License-Identifier: MIT
#include "report/page_style.hpp"

#include "book/own_page.hpp"
#include "system/digest.hpp"

namespace driftwarden {

std::string lying(const std::string& paper) { return paper.empty() ? "" : paper + " landscape"; }

void append_page_head(HtmlText& html, const PageHead& head) {
  const std::string size = head.paper.empty() ? "" : "@page{size:" + head.paper + "}\n";
  const std::string style = std::string(page_css()) + head.style + size;
  html.markup("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n").markup(html_mark);
  html.markup("<meta http-equiv=\"Content-Security-Policy\" content=\"" + html_of(content_policy(style, head.script)) +
              "\">\n");
  html.markup("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
  html.markup("<meta name=\"color-scheme\" content=\"light dark\">\n<link rel=\"icon\" href=\"data:,\">\n");
  html.element("title", head.title);
  html.markup("\n<style>" + style + "</style>\n</head>\n");
}

void append_verdict(HtmlText& html, Verdict verdict) {
  html.element("span", {{"class", "verdict " + std::string(to_text(verdict))}}, to_text(verdict));
}

void append_verdict_key(HtmlText& html, KeyOf what) {
  html.open("dl", {{"class", "key"}});
  for (const KeyWord& each : verdict_key(what)) {
    html.open("div").open("dt").element("span", {{"class", "verdict " + std::string(each.word)}}, each.word).close();
    html.element("dd", each.meaning).close();
  }
  html.close().line_end();
}

std::string policy_hash(std::string_view bytes) { return "sha256-" + base64_sha256_of(bytes); }

std::string content_policy(std::string_view style, std::string_view script) {
  return "default-src 'none'; style-src '" + policy_hash(style) + "'; script-src '" +
         (script.empty() ? "none" : policy_hash(script)) + "'; img-src data:; base-uri 'none'; form-action 'none'";
}

}  // namespace driftwarden
