#include "output/glossary.h"

#include <algorithm>

#include "plan/json.h"
#include "quantity/words.h"

namespace starter {

extern const std::string_view glossary_text;

namespace {

std::vector<Term> read_glossary() {
  std::vector<Term> terms;
  for (const Json& entry : parse_json(glossary_text))
    terms.push_back({entry.at("term"),
                     entry.at("also").get<std::vector<std::string>>(),
                     entry.at("says"),
                     {entry.at("source").at("label"), entry.at("source").at("text")}});
  return terms;
}

/// A form of a term, in small letters.
struct Form {
  std::string text;
  const Term* term = nullptr;
};

/// Longest first, so that "stir plate" is met before "plate".
std::vector<Form> forms_of(std::span<const Term> terms) {
  std::vector<Form> forms;
  for (const Term& term : terms) {
    forms.push_back({lower_ascii(term.term), &term});
    for (const std::string& other : term.also) forms.push_back({lower_ascii(other), &term});
  }
  std::stable_sort(forms.begin(), forms.end(),
                   [](const Form& a, const Form& b) { return a.text.size() > b.text.size(); });
  return forms;
}

/// Letters and digits of every script; all bytes past ASCII count, but for the degree sign's, which
/// begin a term.
bool in_word(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80;
}

bool stands_alone(std::string_view text, std::size_t begin, std::size_t end) {
  return (begin == 0 || !in_word(text[begin - 1])) && (end == text.size() || !in_word(text[end]));
}

const std::vector<Form>& forms() {
  static const std::vector<Form> all = forms_of(glossary());
  return all;
}

}  // namespace

std::span<const Term> glossary() {
  static const std::vector<Term> terms = read_glossary();
  return terms;
}

std::vector<const Term*> terms_in(std::string_view text) {
  std::string rest = lower_ascii(text);
  std::vector<const Term*> found;
  for (const Form& form : forms()) {
    for (std::size_t at = rest.find(form.text); at != std::string::npos;
         at = rest.find(form.text, at + 1)) {
      if (!stands_alone(rest, at, at + form.text.size())) continue;
      // What is part of a longer term is used up; a mark keeps the words around it apart.
      rest.replace(at, form.text.size(), form.text.size(), '\n');
      if (std::find(found.begin(), found.end(), form.term) == found.end())
        found.push_back(form.term);
    }
  }
  std::sort(found.begin(), found.end());  // they lie in one list
  return found;
}

std::vector<const Term*> with_their_own_terms(std::vector<const Term*> terms) {
  for (std::size_t i = 0; i < terms.size(); ++i)
    for (const Term* more : terms_in(terms[i]->says))
      if (std::find(terms.begin(), terms.end(), more) == terms.end()) terms.push_back(more);
  std::sort(terms.begin(), terms.end());
  return terms;
}

}  // namespace starter
