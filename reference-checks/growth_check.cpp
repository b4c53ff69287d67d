// How many cells, and when.

#include "science/growth.h"

#include "check.h"
#include "outside.h"
#include "science/extract.h"
#include "science/kinetics.h"

using namespace starter;
using namespace starter::science;
using namespace reference;

BOOST_AUTO_TEST_CASE(stirred) {
  Check check{"growth",
              "New cells a gram of extract on a stir plate, as a part of what the source's two "
              "decimals leave open",
              "K. Troester, home experiments, 2012–13, data/growth-stirred.csv", Label::memory,
              at_most(1, "of it")};
  Check plateau{"growth", "The same up to 1.4 billion pitched a gram", "the same", Label::memory,
                share_of_value(1e-9)};
  for (const Row& row : table("growth-stirred.csv")) {
    const double ours =
        new_cells(Aeration::stirred, CellCount::billion(100 * row[0]), Mass::grams(100), 1)
            .billion() /
        100;
    // 2.33 and 0.67 are each known to half a hundredth. The plateau has a check of its own, below.
    const double open = 0.005 + 0.005 * row[0];
    check.bounded(std::abs(ours - row[1]) / open, std::to_string(row[0]) + " billion/g");
  }
  for (double r : {0.2, 1.0, 1.4})
    plateau.point(
        new_cells(Aeration::stirred, CellCount::billion(100 * r), Mass::grams(100), 1).billion(),
        140);
}

BOOST_AUTO_TEST_CASE(still) {
  Check check{"growth", "Cells in the end in still wort of 1.036",
              "C. White and J. Zainasheff, Yeast, 2010, data/growth-still.csv", Label::memory,
              share_of_value(0.002)};
  // 97 g of dry extract as weighed are in a litre of 1.036.
  const double grams =
      dry_malt_equivalent(wort_of(Volume::litres(1), plato(SpecificGravity::sg(1.036))))
          .grams_per_litre();
  for (const Row& row : table("growth-still.csv"))
    check.point(
        100 + new_cells(Aeration::still, CellCount::billion(100), Mass::grams(grams * row[0]), 1)
                  .billion(),
        row[1], std::to_string(row[0]) + " L");
}

BOOST_AUTO_TEST_CASE(between_and_bounded) {
  Check half{"growth", "Shaken: halfway between still and stirred", "the trade", Label::practice,
             share_of_value(1e-9)};
  Check bound{"growth", "The most that sugar can make, yield × extract / cell mass",
              "0.05–0.10 g/g, 30 pg a cell", Label::memory, share_of_value(1e-9)};
  const auto pitched = CellCount::billion(100);
  for (double grams : {50.0, 100.0, 250.0}) {
    const auto extract = Mass::grams(grams);
    const double stirred = new_cells(Aeration::stirred, pitched, extract, 1).billion();
    const double still_ = new_cells(Aeration::still, pitched, extract, 1).billion();
    half.point(new_cells(Aeration::shaken, pitched, extract, 1, 0.5).billion(),
               (stirred + still_) / 2);
    bound.point(biomass_bound(extract, 0.05, 30).billion(), grams * 0.05 / 30e-12 / 1e9);
    bound.point(biomass_bound(extract, 0.10, 30).billion(), grams * 0.10 / 30e-12 / 1e9);
  }
  Check count{"growth", "Cells in, and what grew of the new ones; cells over volume", "arithmetic",
              Label::identity, share_of_value(1e-12)};
  count.point(cells_after_stage(pitched, CellCount::billion(140), Share::percent(50)).billion(),
              170);
  count.point(inoculation(pitched, Volume::litres(1.25)).million_per_mL(), 80);
}

BOOST_AUTO_TEST_CASE(time_course) {
  std::vector<Row> questions;
  for (double t : {8.0, 12.0, 16.0, 20.0, 24.0})
    for (double cells : {10.0, 70.0, 200.0})
      for (double p : {7.5, 10.0}) {
        const double extract = concentration(Plato::degrees(p)).grams_per_litre();
        questions.push_back({cells, extract, t, 400 / (t * t) * 18});
      }
  const auto answers = ask("growth.py", questions);
  const char* const source =
      "B. de Andrés-Toro and others, Math. Comput. Simul. 48, 1998, integrated by scipy (LSODA); "
      "coefficients from memory";
  Check needed{"growth", "Hours until 95 % are there, at 8, 12, 16, 20, 24 °C", source,
               Label::memory, share_of_value(1e-4)};
  Check grown{"growth", "Share of the new cells that is there", source, Label::memory,
              within(1e-4, "")};
  Check finished{"growth", "Whether growth is over within 480 hours", source, Label::memory,
                 within(0, "")};
  Check stretched{"growth", "The same above 20 °C with times stretched by 0.2 a kelvin",
                  "the trade: 18–48 h between 18 and 24 °C", Label::practice, share_of_value(1e-4)};
  for (std::size_t i = 0; i < questions.size(); ++i) {
    const Row& q = questions[i];
    const auto cells = CellDensity::million_per_mL(q[0]);
    const auto wort = Plato::degrees(i % 2 == 0 ? 7.5 : 10);
    const auto temperature = Temperature::celsius(q[2]);
    const auto at = Duration::hours(q[3]);
    const std::string where = std::to_string(q[0]) + " million/mL, " + std::to_string(q[2]) + " °C";
    const GrowthCourse c = published_growth_course(cells, wort, temperature, at);
    needed.point(c.needed.hours(), answers[i][0], where);
    grown.point(c.grown.ratio(), answers[i][1], where);
    const double stretch = q[2] > 20 ? 1 + 0.2 * (q[2] - 20) : 1;
    stretched.point(growth_time_needed(cells, wort, temperature, 1.4).hours(),
                    1.4 * stretch * answers[i][0], where);
    stretched.point(warm_stretch(temperature), stretch, where);
    stretched.point(share_grown(cells, wort, temperature, at * stretch), answers[i][1], where);
    stretched.point(growth_course(cells, wort, temperature, at * stretch, 1).grown.ratio(),
                    answers[i][1], where);
    stretched.point(growth_course(cells, wort, temperature, at, 1).needed.hours(),
                    stretch * answers[i][0], where);
    finished.point(c.finished, answers[i][3], where);
    finished.point(growth_course(cells, wort, temperature, at, 1).finished, answers[i][3], where);
  }
  Check outside{"growth", "Outside the measured 8–24 °C the nearer end counts", source,
                Label::memory, share_of_value(1e-9)};
  Check told{"growth", "Whether a temperature lies outside what was measured is told",
             "8–24 °C, B. de Andrés-Toro and others, abstract", Label::published, within(0, "")};
  const auto seventy = CellDensity::million_per_mL(70);
  const auto wort = Plato::degrees(9);
  const auto half_a_day = Duration::hours(12);
  auto published = [&](double t) {
    return published_growth_course(seventy, wort, Temperature::celsius(t), half_a_day);
  };
  for (double t : {2.0, 30.0})
    outside.point(published(t).needed.hours(), published(t < 8 ? 8 : 24).needed.hours());
  for (double t : {2.0, 7.9, 8.0, 16.0, 24.0, 24.1, 30.0}) {
    const bool beyond = t < 8 || t > 24;
    const std::string where = std::to_string(t) + " °C";
    told.point(published(t).temperature_clamped, beyond, where);
    told.point(
        growth_course(seventy, wort, Temperature::celsius(t), half_a_day, 1).temperature_clamped,
        beyond, where);
  }
}
