#pragma once

/// \file
/// The engine's one kind of JSON value, whose members keep their order, and the one place that
/// reads it. Each further kind, or kind of text read from, would be another whole parser in the
/// engine that is loaded over a telephone.

#include <cstddef>
#include <nlohmann/json.hpp>
#include <string_view>

namespace starter {

using Json = nlohmann::ordered_json;

/// \throws Json::parse_error where `bytes` are not JSON.
Json parse_json(std::string_view bytes);

/// As parse_json(); where `bytes` are not JSON, a value of which Json::is_discarded() is true.
Json try_parse_json(std::string_view bytes);

/// An object with room for that many members. One that grows past its room copies each member, with
/// all that is in it: the members of an object that keeps their order have constant names, and what
/// is constant cannot be moved.
Json object_for(std::size_t members);

}  // namespace starter
