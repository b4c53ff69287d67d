#include "output/page.h"

#include <algorithm>
#include <iterator>

#include "output/characters.h"

namespace starter {
namespace {

constexpr std::size_t narrowest_body = 24;

/// The sixteen colours that every terminal lets its reader choose.
std::string_view code_of(Ink ink) {
  switch (ink) {
    case Ink::strong:
      return "\x1b[1m";
    case Ink::faint:
      return "\x1b[2m";
    case Ink::good:
      return "\x1b[1;32m";
    case Ink::note:
      return "\x1b[36m";
    case Ink::weakens:
      return "\x1b[1;33m";
    case Ink::spoils:
      return "\x1b[1;35m";
    case Ink::danger:
      return "\x1b[1;31m";
    case Ink::plain:
      break;
  }
  return "";
}

/// Units that stay on the line of their number.
constexpr std::string_view units[] = {
    "g",   "kg", "L",   "mL",  "°C",  "°F", "K",    "h",       "min",        "s",      "days", "d",
    "%",   "°P", "m",   "cm",  "mm",  "oz", "lb",   "qt",      "gal",        "ft",     "in",   "PU",
    "g/L", "SG", "L/h", "W/K", "ft)", "fl", "kJ/K", "billion", "million/mL", "oz/gal", "times"};

bool is_unit(std::string_view word) {
  while (!word.empty() && std::string_view(".,;:)").find(word.back()) != std::string_view::npos)
    word.remove_suffix(1);
  return std::find(std::begin(units), std::end(units), word) != std::end(units);
}

bool ends_in_digit(std::string_view word) {
  return !word.empty() && word.back() >= '0' && word.back() <= '9';
}

/// Text that stays together, and its inks byte by byte.
struct Word {
  std::string bytes;
  std::vector<Ink> inks;

  void add(std::string_view more, Ink ink) {
    bytes += more;
    inks.insert(inks.end(), more.size(), ink);
  }
};

/// The words of `body`. A unit is kept with the number before it.
std::vector<Word> words_of(const Pieces& body) {
  std::vector<Word> words;
  Word word;
  for (const Piece& piece : body)
    for (const char c : visible(piece.text)) {
      if (c != ' ') {
        word.add({&c, 1}, piece.ink);
      } else if (!word.bytes.empty()) {
        words.push_back(std::move(word));
        word = {};
      }
    }
  if (!word.bytes.empty()) words.push_back(std::move(word));

  std::vector<Word> kept;
  for (Word& next : words) {
    if (!kept.empty() && ends_in_digit(kept.back().bytes) && is_unit(next.bytes)) {
      kept.back().add(" ", next.inks.front());
      kept.back().bytes += next.bytes;
      kept.back().inks.insert(kept.back().inks.end(), next.inks.begin(), next.inks.end());
    } else {
      kept.push_back(std::move(next));
    }
  }
  return kept;
}

}  // namespace

Ink ink_of(Severity severity) {
  switch (severity) {
    case Severity::danger:
      return Ink::danger;
    case Severity::spoils:
      return Ink::spoils;
    case Severity::weakens:
      return Ink::weakens;
    case Severity::note:
      break;
  }
  return Ink::note;
}

void Page::put(std::string_view bytes, Ink ink) {
  if (look_.colour && ink != ink_) {
    if (ink_ != Ink::plain) out_ += "\x1b[0m";
    out_ += code_of(ink);
    ink_ = ink;
  }
  out_ += bytes;
}

void Page::end_line() {
  put("", Ink::plain);
  out_ += '\n';
}

void Page::blank() {
  out_ += '\n';
}

void Page::flow(const Piece& label, const Pieces& body, std::size_t indent, std::size_t hang) {
  const std::string shown = visible(label.text);
  const std::size_t label_columns = columns(shown);
  if (!shown.empty() && (indent + hang + narrowest_body > look_.width || label_columns > hang)) {
    flow({}, {label}, indent, 0);
    flow({}, body, indent + 2, 0);
    return;
  }
  const std::size_t left = indent + hang;
  const std::size_t room = look_.width > left + 8 ? look_.width - left : 8;
  put(std::string(indent, ' '), Ink::plain);
  put(shown, label.ink);
  std::size_t pending = hang - std::min(hang, label_columns);  // spaces before the next word
  std::size_t used = 0;
  const auto next_line = [&] {
    end_line();
    pending = left;
    used = 0;
  };
  const auto write = [&](std::string_view bytes, const Ink* inks) {
    put(std::string(pending, ' '), ink_);  // a space looks alike in every ink
    pending = 0;
    for (std::size_t i = 0; i < bytes.size(); ++i) put(bytes.substr(i, 1), inks[i]);
  };
  for (const Word& word : words_of(body)) {
    const std::size_t wide = columns(word.bytes);
    if (used > 0 && used + 1 + wide > room) next_line();
    if (used > 0) {
      pending = 1;
      used += 1;
    }
    if (wide <= room) {
      write(word.bytes, word.inks.data());
      used += wide;
      continue;
    }
    for (std::size_t at = 0; at < word.bytes.size();) {  // longer than any line
      const std::string_view rest = std::string_view(word.bytes).substr(at);
      const std::string_view character = rest.substr(0, first_character(rest));
      const std::size_t columns_here = columns(character);
      if (used > 0 && used + columns_here > room) next_line();
      write(character, word.inks.data() + at);
      used += columns_here;
      at += character.size();
    }
  }
  end_line();
}

void Page::paragraph(const Pieces& pieces, std::size_t indent) {
  flow({}, pieces, indent, 0);
}
void Page::paragraph(std::string_view text, std::size_t indent) {
  flow({}, {{std::string(text)}}, indent, 0);
}
void Page::item(const Piece& label, const Pieces& body, std::size_t indent, std::size_t hang) {
  flow(label, body, indent, hang);
}
void Page::item(std::string_view label, std::string_view body, std::size_t indent,
                std::size_t hang) {
  flow({std::string(label), Ink::faint}, {{std::string(body)}}, indent, hang);
}

void Page::line(const Pieces& pieces) {
  for (const Piece& piece : pieces) put(visible(piece.text), piece.ink);
  end_line();
}

void Page::heading(std::string_view text) {
  flow({}, {{std::string(text), Ink::strong}}, 0, 0);
}

void Page::ruled(std::string_view text) {
  const std::string shown = visible(text);
  const std::size_t used = columns(shown) + 4;
  if (used > look_.width) {
    heading(text);
    return;
  }
  put("── ", Ink::faint);
  put(shown, Ink::strong);
  put(" ", Ink::plain);
  std::string line;
  for (std::size_t i = used; i < look_.width; ++i) line += "─";
  put(line, Ink::faint);
  end_line();
}

}  // namespace starter
