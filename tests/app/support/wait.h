#pragma once

#include <QTest>
#include <functional>

#include "app/session/session.h"

namespace swingroom {

/// Long: it ends a test that hangs, and says nothing about speed.
constexpr int kPatienceMs = 120'000;

inline bool waitUntil(const std::function<bool()>& holds) {
  return QTest::qWaitFor(holds, kPatienceMs);
}

/// Nothing is being read or checked any more.
inline bool waitUntilQuiet(const Session& session) {
  return waitUntil([&] { return !session.isLoading() && !session.isChecking(); });
}

/// Lets everything that was posted arrive, and what comes a few times a second too.
inline void letTimePass() {
  QTest::qWait(250);
}

}  // namespace swingroom
