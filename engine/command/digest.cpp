#include "command/digest.h"

#include <fmt/format.h>
#include <openssl/evp.h>

#include <array>
#include <stdexcept>

namespace starter {

std::string digest_of(std::string_view bytes) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> raw{};
  unsigned int size = 0;
  if (EVP_Digest(bytes.data(), bytes.size(), raw.data(), &size, EVP_sha256(), nullptr) != 1)
    throw std::runtime_error("SHA-256 is not to be had on this system");
  std::string out;
  for (unsigned int i = 0; i < size; ++i) out += fmt::format("{:02x}", raw[i]);
  return out;
}

std::string digest_of(std::span<const std::string_view> parts) {
  std::string all;
  for (const std::string_view part : parts) all += fmt::format("{}:{}", part.size(), part);
  return digest_of(all);
}

}  // namespace starter
