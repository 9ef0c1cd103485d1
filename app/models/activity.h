#pragma once

#include <QString>

#include "app/session/session.h"

namespace swingroom {

/// What the status line says at the left: what is going on, or how good the result is.
QString activityText(const Session& session);

/// At the right: the tightest pair that passes and where; empty while it is not known.
QString tightestText(const CheckBoard& board);

/// The one sentence over the list of findings, e.g. that there are none, as far as is known.
QString findingsSentence(const Session& session);

}  // namespace swingroom
