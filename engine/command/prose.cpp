#include "command/prose.h"

#include <md4c-html.h>
#include <md4c.h>

#include <algorithm>
#include <new>
#include <vector>

namespace starter {
namespace {

constexpr unsigned no_html = MD_FLAG_NOHTML;

/// Text for a terminal, gathered from what the parser meets.
class Teller {
 public:
  explicit Teller(Page& page) : page_(page) {}

  void enter(MD_BLOCKTYPE type, void* detail) {
    switch (type) {
      case MD_BLOCK_QUOTE:
        flush();
        ++quotes_;
        break;
      case MD_BLOCK_UL:
        flush();
        begin_list({});
        break;
      case MD_BLOCK_OL:
        flush();
        begin_list({true, static_cast<MD_BLOCK_OL_DETAIL*>(detail)->start});
        break;
      case MD_BLOCK_LI:
        flush();
        marker_ = lists_.back().numbered ? std::to_string(lists_.back().next++) + "." : "–";
        break;
      case MD_BLOCK_H:
        flush();
        heading_ = static_cast<MD_BLOCK_H_DETAIL*>(detail)->level;
        break;
      default:
        flush();
        break;
    }
  }

  void leave(MD_BLOCKTYPE type) {
    flush();
    if (type == MD_BLOCK_QUOTE) --quotes_;
    if (type == MD_BLOCK_UL || type == MD_BLOCK_OL) lists_.pop_back();
    if (type == MD_BLOCK_LI) marker_.clear();
  }

  void span(MD_SPANTYPE type, int step) {
    if (type == MD_SPAN_STRONG) strong_ += step;
  }

  void text(MD_TEXTTYPE type, std::string_view bytes) {
    switch (type) {
      case MD_TEXT_BR:
      case MD_TEXT_SOFTBR:
        put(" ");
        break;
      case MD_TEXT_NULLCHAR:
        put("\uFFFD");
        break;
      case MD_TEXT_ENTITY:
        put(entity(bytes));
        break;
      default:
        put(bytes);
        break;
    }
  }

  void flush() {
    if (pieces_.empty()) return;
    if (heading_ > 0)
      tell_heading();
    else
      tell_paragraph();
    pieces_.clear();
    heading_ = 0;
  }

 private:
  struct List {
    bool numbered = false;
    unsigned next = 1;
  };

  void begin_list(List list) {
    if (lists_.empty()) gap();
    lists_.push_back(list);
  }

  /// A blank line, but before the first part.
  void gap() {
    if (begun_) page_.blank();
    begun_ = true;
  }

  /// The few that a lesson could hold; others stay as they are written.
  static std::string_view entity(std::string_view name) {
    if (name == "&amp;") return "&";
    if (name == "&lt;") return "<";
    if (name == "&gt;") return ">";
    if (name == "&quot;") return "\"";
    return name;
  }

  void put(std::string_view bytes) {
    pieces_.push_back({std::string(bytes), strong_ > 0 ? Ink::strong : Ink::plain});
  }

  void tell_heading() {
    std::string words;
    for (const Piece& piece : pieces_) words += piece.text;
    gap();
    if (heading_ == 1)
      page_.ruled(words);
    else
      page_.heading(words);
  }

  void tell_paragraph() {
    // However deep they are nested, there is room left for words.
    constexpr std::size_t deepest = 4;
    const std::size_t quoted = 2 * std::min(static_cast<std::size_t>(quotes_), deepest);
    if (lists_.empty()) {
      gap();
      page_.paragraph(pieces_, quoted);
      return;
    }
    constexpr std::size_t hang = 3;
    const std::size_t indent = quoted + hang * std::min(lists_.size() - 1, deepest);
    if (marker_.empty())
      page_.paragraph(pieces_, indent + hang);
    else
      page_.item({marker_}, pieces_, indent, hang);
    marker_.clear();
  }

  Page& page_;
  Pieces pieces_;
  std::vector<List> lists_;
  std::string marker_;
  unsigned heading_ = 0;
  int quotes_ = 0, strong_ = 0;
  bool begun_ = false;
};

Teller& teller(void* data) {
  return *static_cast<Teller*>(data);
}

}  // namespace

std::string prose_markup(std::string_view commonmark) {
  std::string out;
  const auto take = [](const MD_CHAR* bytes, MD_SIZE size, void* into) {
    static_cast<std::string*>(into)->append(bytes, size);
  };
  if (md_html(commonmark.data(), static_cast<MD_SIZE>(commonmark.size()), take, &out, no_html,
              MD_HTML_FLAG_SKIP_UTF8_BOM) != 0)
    throw std::bad_alloc();
  return out;
}

void prose_text(Page& page, std::string_view commonmark) {
  MD_PARSER parser = {};
  parser.flags = no_html;
  parser.enter_block = [](MD_BLOCKTYPE type, void* detail, void* data) {
    teller(data).enter(type, detail);
    return 0;
  };
  parser.leave_block = [](MD_BLOCKTYPE type, void*, void* data) {
    teller(data).leave(type);
    return 0;
  };
  parser.enter_span = [](MD_SPANTYPE type, void*, void* data) {
    teller(data).span(type, 1);
    return 0;
  };
  parser.leave_span = [](MD_SPANTYPE type, void*, void* data) {
    teller(data).span(type, -1);
    return 0;
  };
  parser.text = [](MD_TEXTTYPE type, const MD_CHAR* bytes, MD_SIZE size, void* data) {
    teller(data).text(type, {bytes, size});
    return 0;
  };
  Teller told(page);
  if (md_parse(commonmark.data(), static_cast<MD_SIZE>(commonmark.size()), &parser, &told) != 0)
    throw std::bad_alloc();
}

}  // namespace starter
