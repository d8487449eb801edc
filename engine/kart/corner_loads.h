// corner_loads.h - what each of the four wheels puts on the ground.

#pragma once

namespace kartwright {

/// Kilograms on the scales, newtons in a corner.
struct CornerLoads {
  double left_front = 0, right_front = 0, left_rear = 0, right_rear = 0;

  double total() const { return left_front + right_front + left_rear + right_rear; }
};

}  // namespace kartwright
