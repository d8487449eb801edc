// What an answer is worth, against the printed table of the unit normal linear loss integral.

#include <gtest/gtest.h>

#include "engine/decision/envelope.h"

namespace kartwright {
namespace {

// Raiffa and Schlaifer, Applied Statistical Decision Theory, 1961, table of L_N(u): the expected
// value of perfect information where two acts break even u deviations off, per unit of slope. From
// memory, to the four figures of the table.
TEST(SampleInformation, OfTwoActsIsTheUnitNormalLossIntegral) {
  struct Printed {
    double u, loss;
  };
  for (const auto& [u, loss] : {Printed{0.0, 0.3989}, Printed{0.5, 0.1978}, Printed{1.0, 0.08332},
                                Printed{1.5, 0.02931}, Printed{2.0, 0.008491}}) {
    EXPECT_NEAR(worth_of_seeing({{0.0, 0.0}, {-u, 1.0}}), loss, 5e-4 * loss) << u;
    EXPECT_NEAR(worth_of_seeing({{0.0, 0.0}, {-3.0 * u, -3.0}}), 3.0 * loss, 15e-4 * loss) << u;
  }
}

}  // namespace
}  // namespace kartwright
