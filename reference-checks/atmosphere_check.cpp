// Air pressure by altitude.

#include "science/atmosphere.h"

#include "check.h"
#include "outside.h"

using namespace starter;
using namespace starter::science;
using namespace reference;

BOOST_AUTO_TEST_CASE(pressure_by_altitude) {
  Check iso{"atmosphere", "Pressure, 0–5000 m", "ISO 2533:1975, table, data/iso-2533.csv",
            Label::memory, within(0.002, "kPa")};
  for (const Row& row : table("iso-2533.csv"))
    iso.point(air_pressure(Altitude::metres(row[0])).kilopascals(), row[1],
              std::to_string(row[0]) + " m");
  Check us{"atmosphere", "Pressure, −5000–15,000 ft",
           "U.S. Standard Atmosphere 1976, data/us-standard-atmosphere-1976.csv", Label::published,
           within(0.0065, "kPa")};
  for (const Row& row : table("us-standard-atmosphere-1976.csv"))
    us.point(air_pressure(Altitude::feet(row[0])).kilopascals(), 6.894757293168361 * row[1],
             std::to_string(row[0]) + " ft");
}

BOOST_AUTO_TEST_CASE(the_air_above_is_weighed) {
  std::vector<Row> heights;
  for (double h = -1000; h <= 6000; h += 500) heights.push_back({h});
  const auto answers = ask("atmosphere.py", heights);
  Check check{"atmosphere", "Pressure, −1000–6000 m, by integrating the weight of the air",
              "hydrostatics, dp/dh = −ρg, by scipy", Label::identity, share_of_value(1e-7)};
  for (std::size_t i = 0; i < heights.size(); ++i)
    check.point(air_pressure(Altitude::metres(heights[i][0])).kilopascals(), answers[i][0]);
}
