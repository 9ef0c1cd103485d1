#include "tests/benchmarks/ribbon_pace.h"

#include <QElapsedTimer>
#include <QImage>
#include <QPainter>
#include <algorithm>
#include <cstdio>
#include <functional>
#include <vector>

#include "app/panels/way/ribbon_head.h"
#include "app/panels/way/way_ribbon.h"

namespace swingroom {
namespace {

/// 780 pairs of 40 parts, each with 160 runs, and every tenth with a stretch that is too tight.
Ribbon crowdedRibbon() {
  Ribbon ribbon;
  for (std::size_t a = 0; a < 40; ++a) {
    for (std::size_t b = a + 1; b < 40; ++b) {
      RibbonRow row;
      row.a = {a};
      row.b = {b};
      row.partNames = {QStringLiteral("part_%1").arg(a), QStringLiteral("part_%1").arg(b)};
      row.names = row.partNames[0] + QStringLiteral(", ") + row.partNames[1];
      const bool tight = ribbon.rows.size() % 10 == 0;
      row.verdict = tight ? Verdict::tight : Verdict::clear;
      for (int c = 0; c < 160; ++c) {
        const int level = (c * 7 + static_cast<int>(a + b)) % 32;
        row.runs.push_back({c / 160.0, (c + 1) / 160.0, RibbonTone::gap, level / 32.0});
      }
      if (tight) row.runs.push_back({0.4, 0.45, RibbonTone::tight, 0});
      ribbon.rows.push_back(row);
    }
  }
  return ribbon;
}

double medianMs(const std::function<void()>& work) {
  std::vector<double> times;
  for (int i = 0; i < 60; ++i) {
    QElapsedTimer timer;
    timer.start();
    work();
    times.push_back(static_cast<double>(timer.nsecsElapsed()) * 1e-6);
  }
  std::sort(times.begin(), times.end());
  return times[times.size() / 2];
}

}  // namespace

void printRibbonPace() {
  WayRibbon ribbon;
  ribbon.resize(1440, 310);
  WayLine way{QStringLiteral("from"), QStringLiteral("to"), {}, false};
  for (int s = 0; s < 9; ++s) way.steps += QStringLiteral("step");
  ribbon.setWay(way);
  const Ribbon data = crowdedRibbon();
  ribbon.setRibbon(data);
  QImage picture(ribbon.size(), QImage::Format_RGB32);
  const auto paint = [&] {
    QPainter painter(&picture);
    ribbon.render(&painter);
  };
  const auto print = [&](const char* what, double ms) {
    std::printf("%-36s %6.2f ms\n", what, ms);
    std::fflush(stdout);
  };
  print("ribbon of 780 pairs, painted", medianMs(paint));
  ribbon.setInstant(0.5);
  ribbon.zoomBy(8);
  print("the same, an eighth of the way", medianMs(paint));
  ribbon.showWholeWay();
  int turn = 0;
  print("780 pairs' rows put by part", medianMs([&] { ribbon.head().setByPart(++turn % 2 == 1); }));
  ribbon.head().setByPart(true);
  print("ribbon by part, painted", medianMs(paint));
  ribbon.head().foldButton().click();
  print("by part, 1600 rows open, painted", medianMs(paint));
}

}  // namespace swingroom
