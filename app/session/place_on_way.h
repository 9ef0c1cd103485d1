#pragma once

#include <optional>

#include "app/session/scene.h"

namespace swingroom {

/// Where on a scene's ways it stands.
struct WayPlace {
  std::size_t way = 0;
  double instant = 0;

  bool operator==(const WayPlace&) const = default;
};

/// The instant of a way at which everything stands so, within 1e-6; the first, if there are
/// several.
std::optional<double> instantOf(const Assembly& assembly, const Sequence& way,
                                const Configuration& standing);

/// Where to stand in an edited scene so that what is seen stays if it can: in the way of the same
/// name, or that moves the same; there at the same instant if everything stands the same, else
/// where it does, else as far into the step of the same name. None: the way is gone.
std::optional<WayPlace> samePlace(const Scene& before, const WayPlace& place, const Scene& now);

}  // namespace swingroom
