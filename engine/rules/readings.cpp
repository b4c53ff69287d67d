#include "rules/readings.h"

#include <algorithm>
#include <boost/uuid/name_generator_sha1.hpp>
#include <boost/uuid/uuid.hpp>
#include <boost/uuid/uuid_io.hpp>

#include "plan/json.h"
#include "quantity/write.h"
#include "rules/telling.h"

namespace starter {
namespace {

constexpr int digits = 6;  // as rules judge
constexpr UnitSystem metric = UnitSystem::metric;

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

/// Collects readings; the first of each name stays.
class Reader {
 public:
  Reader(const Spoken& s, const Evidence& e) : s_(s), e_(e) {}

  std::vector<Reading> all(std::span<const Measure> numbers) {
    add("severity", std::string(spelling(s_.severity)));
    for (const Measure& m : numbers) measure(m);
    if (s_.measure) bounds();
    if (s_.fact) fact(*s_.fact);
    for (const auto& [name, unused] : s_.rule->when)
      if (const Fact* condition = find_fact(e_.facts, name, s_.stage)) fact(*condition);
    if (s_.reversal) order();
    if (s_.touch) contact();
    return std::move(read_);
  }

 private:
  void add(std::string what, std::string value, std::string says = "") {
    if (std::any_of(read_.begin(), read_.end(), [&](const Reading& r) { return r.what == what; }))
      return;
    if (says.empty()) says = value;
    read_.push_back({std::move(what), std::move(value), std::move(says)});
  }

  static std::string in_stage(std::string_view name, int stage) {
    return std::string(name) + (stage >= 0 ? ", stage " + std::to_string(stage + 1) : "");
  }

  static std::string exact(double value) { return write_number(value, digits); }
  static std::string exact(const std::optional<double>& value) {
    return value ? exact(*value) : "none";
  }

  void measure(const Measure& m) {
    std::string value = exact(m.value) + " " + m.unit;
    if (!m.certain()) value += ", " + exact(m.low) + " to " + exact(m.high);
    add(in_stage(m.name, m.stage), std::move(value), value_text(m, metric));
  }

  void bounds() {
    const Telling telling = telling_of(*s_.rule, s_.measure->unit);
    const auto tell = [&](const char* what, const Bounds& b) {
      add(what, exact(b.low) + " to " + exact(b.high),
          bounds_text(telling.of(b), telling.unit, metric));
    };
    tell("comfortable bounds", s_.comfortable);
    if (!s_.against) tell("hard bounds", s_.hard);
    if (s_.against) add("hard gap", exact(s_.rule->hard_gap));
  }

  void fact(const Fact& f) {
    const std::string name = in_stage(f.name, f.stage);
    add(name, f.value);
    add(name + ", stated", f.sure ? "yes" : "no");
    for (const auto& [about, text] : f.about)
      if (about != "step" && text != f.value) add(name + ", " + about, without_number(text));
  }

  /// "step 7, pitch" as "pitch": a step put in before it does not change what was read.
  static std::string without_number(const std::string& text) {
    constexpr std::string_view step = "step ";
    const auto comma = text.find(", ");
    if (text.rfind(step, 0) != 0 || comma == std::string::npos) return text;
    return text.substr(comma + 2);
  }

  /// A step by what it does and with what.
  std::string step(int index) const {
    const Step& step = e_.plan.steps[at(index)];
    std::string told = step.verb;
    for (const auto* things : {&step.items, &step.with})
      for (const std::string& thing : *things) told += ", " + thing;
    return in_stage(told, step.stage);
  }

  void order() {
    add("the step that comes too late", step(s_.reversal->first));
    add("the step that comes before it", step(s_.reversal->then));
    if (s_.rule->until) add("only until", std::string(spelling(*s_.rule->until)));
  }

  void contact() {
    const Touch& touch = *s_.touch;
    add("what touches the wort", touch.item);
    add("in the step", step(touch.step));
    add("named in the plan", touch.assumed ? "no" : "yes");
    add("cleaned before in", touch.cleaned_by ? step(*touch.cleaned_by) : "no step");
    if (touch.cleaned_late) add("cleaned too late in", step(*touch.cleaned_late));
    if (s_.idle) add("time since", exact(s_.idle->hours()) + " h", write(*s_.idle, metric));
  }

  const Spoken& s_;
  const Evidence& e_;
  std::vector<Reading> read_;
};

}  // namespace

std::vector<Reading> readings_of(const Spoken& spoken, const Evidence& evidence,
                                 std::span<const Measure> numbers) {
  return Reader(spoken, evidence).all(numbers);
}

std::string fingerprint_of(std::string_view rule, std::span<const Reading> read) {
  std::vector<std::pair<std::string, std::string>> pairs;
  for (const Reading& r : read) pairs.emplace_back(r.what, r.value);
  std::sort(pairs.begin(), pairs.end());
  const Json canonical = {std::string(rule), pairs};
  const std::string text = canonical.dump(-1, ' ', true, Json::error_handler_t::replace);
  // Of our own, made once at random: fingerprints are no names of anything else.
  constexpr boost::uuids::uuid space = {{0x6e, 0x1f, 0x0c, 0x52, 0x8b, 0x3d, 0x4f, 0x97, 0xa1, 0xc4,
                                         0x5d, 0x20, 0x77, 0xe8, 0x93, 0x0a}};
  return boost::uuids::to_string(boost::uuids::name_generator_sha1(space)(text));
}

}  // namespace starter
