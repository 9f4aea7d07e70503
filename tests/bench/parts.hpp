// The parts of the benchmark, each printing its rows.
#pragma once

namespace whichwire::bench {

void measure_nets();
void measure_large_vehicle();
void measure_program();
void measure_drawing();
void measure_comparing();
void measure_fleet();
void measure_soak();

}  // namespace whichwire::bench
