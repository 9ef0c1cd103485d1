#pragma once

#include <QString>

#include "app/models/print/print_standing.h"
#include "app/session/session.h"

namespace swingroom {

/// What the status line says at the left: what is going on, or how good the result is.
/// @param printed  What the print checks say by now.
QString activityText(const Session& session, const PrintStanding& printed = {});

/// At the right: the tightest pair that passes and where; empty while it is not known.
QString tightestText(const CheckBoard& board);

/// The one sentence over the list of findings, e.g. that there are none, as far as is known.
QString findingsSentence(const Session& session);

}  // namespace swingroom
