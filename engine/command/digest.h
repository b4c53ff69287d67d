#pragma once

/// \file
/// What files are recognised by when they have not changed.

#include <span>
#include <string>
#include <string_view>

namespace starter {

/// SHA-256 (FIPS 180-4) in 64 hexadecimal digits.
std::string digest_of(std::string_view bytes);

/// That of several texts, such that no two different lists give the same.
std::string digest_of(std::span<const std::string_view> parts);

}  // namespace starter
