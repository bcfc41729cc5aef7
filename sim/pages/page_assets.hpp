// What every page holds besides its content: template, style and program, embedded when runup is
// built (embed.mjs) from page.html, page.css, browser/ and the plotting library.
#pragma once

#include <string_view>

namespace sim {

/// With {{...}} where content goes.
std::string_view page_template();
std::string_view page_style();
/// The plotting library under its licence, then ours.
std::string_view page_script();
/// Their SHA-256 as a content security policy names them.
std::string_view page_style_hash();
std::string_view page_script_hash();

}  // namespace sim
