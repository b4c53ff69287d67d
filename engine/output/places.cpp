#include "output/places.h"

#include <algorithm>
#include <string_view>
#include <vector>

#include "process/process.h"

namespace starter {
namespace {

/// The parts of a JSON pointer (RFC 6901), unescaped.
std::vector<std::string> parts_of(std::string_view pointer) {
  std::vector<std::string> parts;
  for (const char c : pointer) {
    if (c == '/')
      parts.emplace_back();
    else if (!parts.empty())
      parts.back() += c;
  }
  for (std::string& part : parts)
    for (const auto& [escaped, plain] : {std::pair("~1", "/"), std::pair("~0", "~")})
      for (std::size_t at = part.find(escaped); at != std::string::npos;
           at = part.find(escaped, at + 1))
        part.replace(at, 2, plain);
  return parts;
}

/// A whole number below `size`; nothing for any other text.
std::optional<std::size_t> index_below(std::size_t size, const std::string& text) {
  const bool digits =
      std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
  if (text.empty() || text.size() > 6 || !digits) return std::nullopt;
  const std::size_t index = std::stoul(text);
  return index < size ? std::optional(index) : std::nullopt;
}

struct Part {
  std::string_view field;
  std::string_view words;
};
constexpr Part stage_parts[] = {
    {"extract", "the extract"},
    {"water", "the water"},
    {"vessel", "the vessel"},
    {"agitation", "how it is moved"},
    {"temperature", "growing warmth"},
    {"duration", "growing time"},
    {"gravity", "the gravity you state"},
    {"wort_volume", "the wort volume you state"},
    {"measured", "your readings"},
    {"boil_off", "what boils off"},
};
constexpr Part plan_parts[] = {
    {"yeast", "the yeast"}, {"beer", "the beer"},     {"place", "the place"},
    {"steps", "the steps"}, {"stages", "the stages"}, {"vessels", "the vessels"},
    {"start", "the start"}, {"title", "the title"},   {"member", "the member"},
};

template <std::size_t size>
std::string_view words_for(const Part (&parts)[size], std::string_view field) {
  for (const Part& part : parts)
    if (part.field == field) return part.words;
  return "";
}

std::string spaced(std::string text) {
  std::replace(text.begin(), text.end(), '_', ' ');
  return text;
}

std::string stage_in_words(const Plan& plan, std::size_t stage,
                           const std::vector<std::string>& parts) {
  const bool only = plan.stages.size() == 1;
  std::string words = only ? "" : "stage " + std::to_string(stage + 1);
  if (parts.size() < 3) return only ? "the starter" : words;
  const std::string_view field = words_for(stage_parts, parts[2]);
  return words + (only ? "" : ", ") + (field.empty() ? spaced(parts[2]) : std::string(field));
}

}  // namespace

std::optional<int> step_at(const Plan& plan, const std::string& pointer) {
  const auto parts = parts_of(pointer);
  if (parts.size() < 2 || parts[0] != "steps") return std::nullopt;
  const auto index = index_below(plan.steps.size(), parts[1]);
  return index ? std::optional(static_cast<int>(*index)) : std::nullopt;
}

std::string place_in_words(const Plan& plan, const std::string& pointer) {
  const auto parts = parts_of(pointer);
  if (parts.empty()) return pointer.empty() ? "the plan" : pointer;
  if (const auto step = step_at(plan, pointer)) return step_label(plan, *step);
  if (parts.size() > 1 && parts[0] == "stages")
    if (const auto stage = index_below(plan.stages.size(), parts[1]))
      return stage_in_words(plan, *stage, parts);
  if (parts.size() > 1 && parts[0] == "vessels") return "the vessel “" + parts[1] + "”";
  const std::string_view words = words_for(plan_parts, parts[0]);
  if (words.empty()) return pointer;
  return std::string(words) + (parts.size() > 1 ? ", " + spaced(parts[1]) : "");
}

std::string field_in_words(const Plan& plan, const std::string& pointer) {
  const auto parts = parts_of(pointer);
  const std::string place = place_in_words(plan, pointer);
  if (parts.empty()) return place;
  const bool in_stage = parts[0] == "stages";
  const bool in_item = in_stage || parts[0] == "steps" || parts[0] == "vessels";
  // A stage's own fields have words that say them; what lies deeper has not.
  const std::size_t said = in_stage ? 3 : 2;
  return in_item && parts.size() > said ? place + ", " + spaced(parts.back()) : place;
}

}  // namespace starter
