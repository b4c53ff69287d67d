#include "command/diagram.h"

#include <fmt/format.h>
#include <graphviz/cgraph.h>
#include <graphviz/gvc.h>

#include "output/characters.h"

namespace starter {
namespace {

constexpr int dots_per_inch = 192;  // of a PNG: sharp on a screen, small enough to send

/// What Graphviz complained of since it was last asked; it knows one function for all graphs.
std::string complaints;

int keep_complaint(char* text) {
  constexpr std::size_t enough = 400;
  if (text != nullptr && complaints.size() < enough) complaints += text;
  return 0;
}

struct CloseGraph {
  void operator()(Agraph_t* graph) const { agclose(graph); }
};
using Graph = std::unique_ptr<Agraph_t, CloseGraph>;

/// The layout of a graph, taken off it again before the graph goes.
class Layout {
 public:
  Layout(GVC_t* context, Agraph_t* graph)
      : context_(context), graph_(graph), made_(gvLayout(context, graph, "nop2") == 0) {}
  ~Layout() {
    if (made_) gvFreeLayout(context_, graph_);
  }
  Layout(const Layout&) = delete;
  Layout& operator=(const Layout&) = delete;
  explicit operator bool() const { return made_; }

 private:
  GVC_t* context_;
  Agraph_t* graph_;
  bool made_;
};

void set(Agraph_t* graph, const char* name, std::string value) {
  std::string key(name);
  std::string none;
  agsafeset(graph, key.data(), value.data(), none.data());
}

DrawingProblem problem(const std::string& what) {
  std::string why = visible(complaints);
  while (!why.empty() && why.back() == ' ') why.pop_back();
  return {what + (why.empty() ? "" : " (Graphviz says: " + why + ")")};
}

/// The day and hour that a PDF was made on is blanked, in the same number of bytes, so that equal
/// drawings are equal files. The dictionary it stands in is never compressed.
void blank_date(std::string& pdf) {
  const std::size_t begin = pdf.rfind("/CreationDate (");
  if (begin == std::string::npos) return;
  const std::size_t end = pdf.find(')', begin);
  if (end == std::string::npos) return;
  std::fill(pdf.begin() + static_cast<std::ptrdiff_t>(begin),
            pdf.begin() + static_cast<std::ptrdiff_t>(end) + 1, ' ');
}

std::string_view device(Picture picture) {
  switch (picture) {
    case Picture::svg:
      return "svg:svg:core";  // keeps text as text
    case Picture::pdf:
      return "pdf:cairo:cairo";
    case Picture::png:
      return "png:cairo:cairo";
    case Picture::dot:
      break;
  }
  return "dot";
}

constexpr std::pair<std::string_view, Picture> words[] = {
    {"svg", Picture::svg}, {"pdf", Picture::pdf}, {"png", Picture::png}, {"dot", Picture::dot}};

}  // namespace

std::optional<Picture> picture_from(std::string_view word) {
  for (const auto& [text, picture] : words)
    if (text == word) return picture;
  return std::nullopt;
}

std::string_view spelling(Picture picture) {
  for (const auto& [text, known] : words)
    if (known == picture) return text;
  return "";
}

struct DiagramMaker::Engine {
  Engine() : context(gvContext()) { agseterrf(keep_complaint); }
  ~Engine() {
    if (context != nullptr) gvFreeContext(context);
  }
  Engine(const Engine&) = delete;
  Engine& operator=(const Engine&) = delete;

  std::variant<std::string, DrawingProblem> render(const std::string& dot,
                                                   std::string_view format) {
    complaints.clear();
    if (context == nullptr) return problem("Graphviz could not be started");
    const Graph graph(agmemread(dot.c_str()));
    if (!graph) return problem("the drawing could not be read by Graphviz");
    if (format == device(Picture::png)) set(graph.get(), "dpi", std::to_string(dots_per_inch));
    const Layout layout(context, graph.get());
    if (!layout) return problem("the drawing could not be laid out");
    char* bytes = nullptr;
    unsigned int length = 0;
    if (gvRenderData(context, graph.get(), std::string(format).c_str(), &bytes, &length) != 0 ||
        bytes == nullptr)
      return problem(fmt::format("Graphviz cannot write “{}” here", format));
    std::string picture(bytes, length);
    gvFreeRenderData(bytes);
    return picture;
  }

  GVC_t* context;
};

DiagramMaker::DiagramMaker() : engine_(std::make_unique<Engine>()) {}
DiagramMaker::~DiagramMaker() = default;

std::variant<std::string, DrawingProblem> DiagramMaker::make(const std::string& dot,
                                                             Picture picture) {
  if (picture == Picture::dot) return dot;
  auto made = engine_->render(dot, device(picture));
  if (auto* bytes = std::get_if<std::string>(&made); bytes && picture == Picture::pdf)
    blank_date(*bytes);
  return made;
}

std::variant<std::string, DrawingProblem> DiagramMaker::positions(const std::string& dot) {
  return engine_->render(dot, "plain");
}

}  // namespace starter
