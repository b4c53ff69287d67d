#include "output/scale.h"

#include <string_view>
#include <vector>

#include "quantity/write.h"
#include "rules/evaluate.h"
#include "rules/telling.h"

namespace starter {
namespace {

/// A number written for people, taken apart at its unit.
struct Written {
  std::string number, unit;
};

Written take_apart(const std::string& text) {
  const auto space = text.find(' ');
  if (space == std::string::npos) return {text, ""};
  return {text.substr(0, space), text.substr(space + 1)};
}

/// A stretch of the line and the bound that ends it.
struct Stretch {
  std::string_view stroke;
  std::optional<double> end;
  bool end_is_upper = false;

  /// Whether `value` stands on it and not on a later one. A bound itself is on the better side.
  bool holds(double value) const {
    if (!end) return true;
    return end_is_upper ? value <= *end : value < *end;
  }
};

constexpr std::string_view dots = "·", thin = "─", heavy = "━";

std::vector<Stretch> stretches_of(const RuleBounds& bounds) {
  const Bounds& hard = bounds.hard;
  const Bounds comfortable = {bounds.comfortable.low ? bounds.comfortable.low : hard.low,
                              bounds.comfortable.high ? bounds.comfortable.high : hard.high};
  std::vector<Stretch> line;
  if (hard.low) line.push_back({dots, hard.low});
  if (comfortable.low && comfortable.low != hard.low) line.push_back({thin, comfortable.low});
  line.push_back({heavy, comfortable.high, true});
  if (comfortable.high && comfortable.high != hard.high) line.push_back({thin, hard.high, true});
  if (hard.high) line.push_back({dots, std::nullopt});
  return line;
}

std::string strokes(std::string_view stroke, int times) {
  std::string out;
  for (int i = 0; i < times; ++i) out += stroke;
  return out;
}

Ink ink_for(std::string_view stroke) {
  return stroke == heavy ? Ink::good : Ink::faint;
}

}  // namespace

Pieces scale_of(const Finding& finding, const Judgement& judgement, UnitSystem units) {
  if (finding.rule->kind != RuleKind::range || finding.numbers.empty()) return {};
  const Telling telling = telling_of(*finding.rule, finding.numbers.front().unit);
  const Measure number = telling.of(finding.numbers.front());
  RuleBounds bounds = bounds_at(*finding.rule, judgement.facts, finding.stage);
  bounds = {telling.of(bounds.comfortable), telling.of(bounds.hard)};
  const auto line = stretches_of(bounds);
  const auto written = [&](double value) { return write_value(value, number.unit, units); };

  const std::string value = written(number.value);
  std::string told = side_text(number, bounds.comfortable, units);
  if (told.empty()) told = side_text(number, bounds.hard, units);
  told += value;
  bool one_unit = true;
  for (const Stretch& s : line)
    if (s.end) one_unit &= take_apart(written(*s.end)).unit == take_apart(value).unit;

  Pieces out;
  bool placed = false;
  for (const Stretch& s : line) {
    if (!placed && s.holds(number.value)) {
      placed = true;
      if (!out.empty()) out.push_back({strokes(s.stroke, 2) + " ", ink_for(s.stroke)});
      out.push_back({"● " + told, ink_of(finding.severity)});
      if (s.end) out.push_back({" " + strokes(s.stroke, 2), ink_for(s.stroke)});
    } else {
      out.push_back({strokes(s.stroke, 4), ink_for(s.stroke)});
    }
    if (s.end) {
      const std::string end = written(*s.end);
      out.push_back({" " + (one_unit ? take_apart(end).number : end) + " "});
    }
  }
  return out;
}

}  // namespace starter
