#pragma once

/// \file
/// The folder a review is written into: made beside the one it replaces, and put in its place
/// whole.

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace starter {

/// What a review's folder holds besides its pages: a list of every file with its digest, and what
/// each sheet was made from. Its presence tells that the folder is a review; it is written last, so
/// it also tells that the review is whole.
struct Manifest {
  std::map<std::string, std::string> files;  ///< by name below the folder: digest
  std::vector<std::string> made_from;        ///< digests, by plan, in the order of review.json
};
inline constexpr std::string_view manifest_file = "starter-plan-review.json";

/// Nothing when the folder has none, or one that is damaged or of another version.
std::optional<Manifest> read_manifest(const std::string& folder);

class ReviewFolder {
 public:
  /// \param out where the review is to be; need not exist
  /// \param plans the folder under review
  /// \return a sentence in place of a folder when `out` may not be replaced: it contains the plans,
  ///         is no review, or holds files that are no part of one
  static std::variant<std::unique_ptr<ReviewFolder>, std::string> open(const std::string& out,
                                                                       const std::string& plans);
  ReviewFolder(const ReviewFolder&) = delete;
  ReviewFolder& operator=(const ReviewFolder&) = delete;
  /// What was not published goes.
  ~ReviewFolder();

  /// Where the review is to be, without links and dots.
  const std::string& out() const { return out_; }
  /// The folder to write into until then.
  const std::string& folder() const { return folder_; }

  /// Writes a file into the folder. \return why it could not be written
  std::optional<std::string> write(const std::string& name, std::string_view bytes) const;

  /// Removes a file from the folder, if it is there.
  void drop(const std::string& name) const;

  /// Takes a file over from the review that is to be replaced. \return whether that went well
  bool keep(const std::string& old_name, const std::string& name) const;

  /// Lets the folder take its place; what was there before goes. A reader finds the old review or
  /// the new one. \return why it could not
  std::optional<std::string> publish(const Manifest& manifest);

 private:
  ReviewFolder(std::string out, std::string folder, int lock)
      : out_(std::move(out)), folder_(std::move(folder)), lock_(lock) {}

  std::string out_, folder_;
  int lock_;  ///< held while this process lives, so that another one leaves the folder alone
  bool published_ = false;
};

}  // namespace starter
