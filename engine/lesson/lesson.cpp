#include "lesson/lesson.h"

#include <algorithm>
#include <optional>
#include <variant>

#include "plan/document.h"
#include "plan/read.h"
#include "plan/report.h"
#include "rules/catalogue.h"

namespace starter {
namespace {

constexpr std::string_view members[] = {"title", "summary", "findings", "teaches"};
constexpr std::string_view finding_members[] = {"rule", "severity", "where"};

/// Reads expected.json into a lesson.
class Expected {
 public:
  Expected(std::string_view bytes, LessonReading& into)
      : lesson_(into.lesson), faults_(into.faults), file_(into.lesson.name + "/expected.json") {
    Report report;
    const auto root = read_document(bytes, report);
    for (const PlanError& e : report.in_file_order()) fault(e.line, e.says);
    if (!root || !faults_.empty()) return;
    if (root->kind == Node::Kind::object)
      members_of(*root);
    else
      fault(root->at.line, "this is no JSON object");
  }

 private:
  void members_of(const Node& root) {
    known(root, members);
    lesson_.title = text(root, "title");
    lesson_.summary = text(root, "summary");
    for (const Node& node : list(root, "findings")) finding(node);
    for (const Node& node : list(root, "teaches"))
      if (const std::string id = rule(node); !id.empty()) lesson_.teaches.push_back(id);
    for (const ExpectedFinding& f : lesson_.findings)
      if (std::find(lesson_.teaches.begin(), lesson_.teaches.end(), f.rule) ==
          lesson_.teaches.end())
        fault(root.at.line, "finds “" + f.rule + "”, but `teaches` does not name it");
  }

  void fault(int line, std::string says) { faults_.push_back({file_, line, std::move(says)}); }

  void known(const Node& object, std::span<const std::string_view> names) {
    for (const Member& m : object.members)
      if (std::find(names.begin(), names.end(), m.name) == names.end())
        fault(m.at.line, "unknown member `" + m.name + "`");
  }

  std::string text(const Node& object, std::string_view name) {
    const Node* node = object.find(name);
    if (node && node->kind == Node::Kind::text && !node->text.empty()) return node->text;
    fault(node ? node->at.line : object.at.line,
          "`" + std::string(name) + "` must be a text that is not empty");
    return "";
  }

  std::span<const Node> list(const Node& object, std::string_view name) {
    const Node* node = object.find(name);
    if (node && node->kind == Node::Kind::list && !node->items.empty()) return node->items;
    fault(node ? node->at.line : object.at.line,
          "`" + std::string(name) + "` must be a list that is not empty");
    return {};
  }

  std::string rule(const Node& node) {
    if (node.kind == Node::Kind::text && find_rule(node.text)) return node.text;
    fault(node.at.line, "“" + node.text + "” is no rule of the catalogue");
    return "";
  }

  void finding(const Node& node) {
    if (node.kind != Node::Kind::object)
      return fault(node.at.line, "a finding must be an object with rule, severity and where");
    known(node, finding_members);
    ExpectedFinding found;
    if (const Node* id = node.find("rule")) found.rule = rule(*id);
    found.where = text(node, "where");
    const auto severity = severity_from(text(node, "severity"));
    if (!severity || *severity == Severity::note)
      return fault(node.at.line, "`severity` must be weakens, spoils or danger");
    found.severity = *severity;
    lesson_.findings.push_back(std::move(found));
  }

  Lesson& lesson_;
  std::vector<LessonFault>& faults_;
  std::string file_;
};

bool good_name(std::string_view name) {
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  return name.size() > 3 && digit(name[0]) && digit(name[1]) && name[2] == '-' &&
         std::all_of(name.begin() + 3, name.end(),
                     [](char c) { return (c >= 'a' && c <= 'z') || c == '-'; });
}

void check_plan(const std::string& file, const std::string& bytes, LessonReading& reading) {
  const PlanResult result = read_plan(bytes);
  if (const auto* errors = std::get_if<std::vector<PlanError>>(&result))
    for (const PlanError& e : *errors)
      reading.faults.push_back({reading.lesson.name + "/" + file, e.line, e.says});
}

}  // namespace

LessonReading read_lesson(LessonFiles files) {
  LessonReading reading;
  Lesson& lesson = reading.lesson;
  lesson.name = std::move(files.name);
  lesson.text = std::move(files.text);
  lesson.plan = std::move(files.plan);
  lesson.mended = std::move(files.mended);
  if (!good_name(lesson.name))
    reading.faults.push_back(
        {lesson.name, 0, "the folder must be named NN-name, in small letters and hyphens"});
  if (lesson.text.empty()) reading.faults.push_back({lesson.name + "/lesson.md", 0, "is empty"});
  Expected(files.expected, reading);
  check_plan("plan.json", lesson.plan, reading);
  check_plan("mended.json", lesson.mended, reading);
  return reading;
}

}  // namespace starter
