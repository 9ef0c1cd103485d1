#pragma once

#include <string>

#include "core/rigging/axis_fit.h"
#include "core/rigging/facing.h"

/// Reasons in words, English like all words of core.
namespace swingroom::rig {

/// "pin 4.00 mm in hole 4.48 mm, on one axis within 0.003 mm; clearance 0.48 on the diameter"
std::string pinInHole(const AxisFit& fit);
std::string plugInBore(const AxisFit& fit);
std::string pressed(const AxisFit& fit);
std::string gripped(const AxisFit& fit);
std::string ballInSocket(const SocketFit& fit);
std::string guided(const Facing& facing);
std::string held(const Facing& facing);
std::string touching(const Facing& facing);
/// To be added to the reason of a slide that ends here.
std::string stop();

/// Two digits, as sizes are told.
std::string sized(double mm);

}  // namespace swingroom::rig
