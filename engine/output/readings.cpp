#include "output/readings.h"

#include <string_view>

#include "process/process.h"
#include "science/extract.h"

namespace starter {
namespace {

class Places {
 public:
  Places(const Judgement& j, int step, UnitSystem units)
      : plan_(j.plan),
        step_(plan_.steps[static_cast<std::size_t>(step)]),
        stage_(plan_.stages[static_cast<std::size_t>(step_.stage)]),
        working_(j.workings.stages[static_cast<std::size_t>(step_.stage)]),
        index_(step),
        units_(units) {}

  std::vector<ReadingPlace> all() {
    if (!step_.does) {
      clock("done at");
      return std::move(places_);
    }
    switch (*step_.does) {
      case Do::weigh:
        if (stage_.extract_kind != ExtractKind::wort)
          add("weighed", write(stage_.extract_mass, units_), mass());
        break;
      case Do::dissolve:
        add("water", write(stage_.water, units_), volume());
        break;
      case Do::heat:
        clock("begun at");
        temperature("reached", step_.to);
        break;
      case Do::boil:
        clock("boil begun at");
        clock("heat off at");
        break;
      case Do::chill:
        clock("begun at");
        clock("ended at");
        temperature("wort", step_.to);
        break;
      case Do::sanitise:
        clock("begun at");
        clock("ended at");
        break;
      case Do::check_temperature:
        temperature("wort", working_.pitch_temperature);
        break;
      case Do::pitch:
        clock("pitched at");
        temperature("wort", std::nullopt);
        temperature("yeast", std::nullopt);
        break;
      case Do::agitate:
      case Do::rest:
        clock("begun at");
        clock("ended at");
        temperature("room", std::nullopt);
        break;
      case Do::crash:
      case Do::store:
        clock("into the cold at");
        clock("out at");
        temperature("fridge", step_.at);
        break;
      case Do::decant:
        add("poured off", "", volume());
        break;
      case Do::warm:
        temperature("slurry", step_.to);
        break;
      case Do::pitch_to_beer:
      case Do::krausen_pitch:
        clock("pitched at");
        temperature("yeast", std::nullopt);
        temperature("beer", plan_.beer.ferment_at);
        break;
      case Do::add:
      case Do::cover:
      case Do::move:
        clock("done at");
        break;
    }
    if (index_ == hydrometer_step()) {
      add("gravity", write(science::sg(working_.gravity), units_), "SG");
      add("volume", write(working_.volume, units_), volume());
    }
    return std::move(places_);
  }

 private:
  bool us() const { return units_ == UnitSystem::us; }
  std::string mass() const { return us() ? "oz" : "g"; }
  std::string volume() const { return us() ? "qt" : "L"; }

  void add(std::string what, std::string planned, std::string unit) {
    places_.push_back({std::move(what), std::move(planned), std::move(unit)});
  }
  void clock(const char* what) { add(what, "", ""); }
  void temperature(const char* what, const std::optional<Temperature>& planned) {
    add(what, planned ? write(*planned, units_) : "", us() ? "°F" : "°C");
  }

  /// The last step of the stage with cool wort and no yeast in it yet: there gravity and volume are
  /// read.
  int hydrometer_step() const {
    for (const Do what : {Do::check_temperature, Do::chill, Do::boil})
      if (const auto step = last_step(plan_, what, step_.stage)) return *step;
    return -1;
  }

  const Plan& plan_;
  const Step& step_;
  const Stage& stage_;
  const StageWorking& working_;
  int index_;
  UnitSystem units_;
  std::vector<ReadingPlace> places_;
};

}  // namespace

std::vector<ReadingPlace> reading_places(const Judgement& j, int step, UnitSystem units) {
  return Places(j, step, units).all();
}

}  // namespace starter
