#pragma once

/// \file
/// Reads the parts of a plan as they are written. What a part leaves out keeps the value of an
/// empty model; `supply_missing` fills it in afterwards. What must be there is asked for here.
///
/// Every `node` may be nullptr: then the part is absent, or was reported as no object or list.

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "plan/defaults.h"
#include "plan/document.h"
#include "plan/model.h"
#include "plan/report.h"

namespace starter {

/// The vessel that a plan without any is taken to have.
inline constexpr std::string_view assumed_vessel = "flask";

/// The vessels that stages and steps may name.
class VesselNames {
 public:
  /// \param declared the plan's vessels, as far as they could be read.
  /// \param absent whether the plan says nothing of vessels: then the assumed one is there.
  /// \param readable false when `declared` may lack some, or kinds of some: then names are not
  ///        judged, for the mistake has been reported already.
  VesselNames(const std::map<std::string, Vessel>& declared, bool absent, bool readable);

  /// Reports a name that is not declared.
  void check(const std::string& name, const std::string& where, Position at, Report& report) const;

  /// The vessel to grow in when a stage names none: the only one that is no tub or sink. Empty when
  /// there are several or none.
  const std::string& only_grower() const { return only_grower_; }
  bool readable() const { return readable_; }
  bool assumed() const { return absent_; }

 private:
  std::vector<std::string> names_;
  std::string only_grower_;
  bool absent_;
  bool readable_;
};

void read_place(const Node* node, Place& place, Report& report);

/// A brew day without a clock time is taken to begin when `defaults` says, which goes to `assumed`.
void read_beer(const Node* node, const Defaults& defaults, Beer& beer,
               std::vector<Assumption>& assumed, Report& report);

void read_yeast(const Node* node, Yeast& yeast, Report& report);

/// \return whether every vessel's name and kind could be read.
bool read_vessels(const Node* node, std::map<std::string, Vessel>& vessels, Report& report);

/// A stage without a vessel gets the only one that it can mean, which goes to `assumed`.
void read_stages(const Node* node, const VesselNames& vessels, std::vector<Stage>& stages,
                 std::vector<Assumption>& assumed, Report& report);

/// Also lays a boil step's `boil_off` into its stage. A step that is taken to begin the next stage
/// goes to `assumed`.
void read_steps(const Node* node, const VesselNames& vessels, std::vector<Stage>& stages,
                std::vector<Step>& steps, std::vector<Assumption>& assumed, Report& report);

}  // namespace starter
