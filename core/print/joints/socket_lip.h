#pragma once

#include "core/print/joints/fits.h"
#include "core/rigging/axis_fit.h"

namespace swingroom {

/// How a ball gets into its socket: of all straight ways out of the socket the widest is looked
/// for; what stands nearest to it is the lip. From the mesh itself, facets and all; the opening is
/// that of the mesh within 0.001 mm where one way is the widest.
/// @param socket  The socket's part, as it stands.
SocketLip socketLip(const RigPart& socket, const SocketFit& fit);

}  // namespace swingroom
