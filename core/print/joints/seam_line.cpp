#include "core/print/joints/seam_line.h"

#include <algorithm>
#include <cmath>
#include <deque>

namespace swingroom {
namespace {

constexpr double kLineSpacingMm = 0.25;
constexpr double kLineBracketMm = 0.01;
constexpr double kLineSamePoint = 1e-6;
constexpr double kLineSameOuter = 0.7;
constexpr int kLineMostHalvings = 24;

/// Shares of an edge at which it is looked at: its ends, where the other panel's rims end, and
/// between.
std::vector<double> sharesAlong(const SeamEdge& edge, const SeamRims& other) {
  std::vector<double> marks = other.endsAlong(edge);
  marks.push_back(0);
  marks.push_back(1);
  std::sort(marks.begin(), marks.end());
  const double length = (edge.to - edge.from).norm();
  std::vector<double> shares{0};
  for (std::size_t i = 1; i < marks.size(); ++i) {
    const double step = marks[i] - marks[i - 1];
    const int pieces = std::max(1, static_cast<int>(std::ceil(step * length / kLineSpacingMm)));
    for (int k = 1; k <= pieces; ++k) {
      const double share = marks[i - 1] + step * k / pieces;
      if (share > shares.back() + 1e-12) shares.push_back(share);
    }
  }
  return shares;
}

bool hasSeam(const SeamEdge& edge, const SeamRims& other) {
  const std::vector<double> shares = sharesAlong(edge, other);
  return std::any_of(shares.begin(), shares.end(),
                     [&](double share) { return other.readAt(edge, edge.at(share)).has_value(); });
}

SeamEdge turnedRound(SeamEdge edge) {
  std::swap(edge.from, edge.to);
  return edge;
}

/// The edge, turned as needed, that goes on from `end` with an outer face like `like`'s.
std::optional<SeamEdge> takeNext(std::vector<SeamEdge>& left, const SeamEdge& like,
                                 const Vector3d& end) {
  for (auto it = left.begin(); it != left.end(); ++it) {
    if (it->outer.dot(like.outer) < kLineSameOuter) continue;
    const bool begins = (it->from - end).norm() < kLineSamePoint;
    if (!begins && (it->to - end).norm() >= kLineSamePoint) continue;
    const SeamEdge next = begins ? *it : turnedRound(*it);
    left.erase(it);
    return next;
  }
  return std::nullopt;
}

/// The largest gap over one stretch between two places, narrowed down.
class GapBracketOnEdge {
 public:
  GapBracketOnEdge(const SeamEdge& edge, const SeamRims& other, SeamLine& line)
      : edge_(edge), other_(other), line_(line), length_((edge.to - edge.from).norm()) {}

  /// @param from, to  Shares, with their gaps.
  void narrow(double from, double gapFrom, double to, double gapTo, int halvings) {
    const double bound = (gapFrom + gapTo + (to - from) * length_) / 2;
    if (bound <= line_.gapLowerMm + kLineBracketMm || halvings == 0) {
      line_.gapUpperMm = std::max(line_.gapUpperMm, bound);
      return;
    }
    const double middle = (from + to) / 2;
    const auto reading = other_.readAt(edge_, edge_.at(middle));
    if (!reading) return;
    if (reading->gapMm > line_.gapLowerMm) {
      line_.gapLowerMm = reading->gapMm;
      line_.widest_W = edge_.at(middle);
    }
    narrow(from, gapFrom, middle, reading->gapMm, halvings - 1);
    narrow(middle, reading->gapMm, to, gapTo, halvings - 1);
  }

 private:
  const SeamEdge& edge_;
  const SeamRims& other_;
  SeamLine& line_;
  double length_;
};

}  // namespace

std::vector<SeamChain> seamChains(const std::vector<SeamEdge>& edges, const SeamRims& other) {
  std::vector<SeamEdge> left;
  for (const SeamEdge& edge : edges) {
    if (hasSeam(edge, other)) left.push_back(edge);
  }
  std::vector<SeamChain> chains;
  while (!left.empty()) {
    std::deque<SeamEdge> chain{left.front()};
    left.erase(left.begin());
    while (const auto next = takeNext(left, chain.back(), chain.back().to)) chain.push_back(*next);
    while (const auto before = takeNext(left, chain.front(), chain.front().from)) {
      chain.push_front(turnedRound(*before));
    }
    chains.emplace_back(chain.begin(), chain.end());
  }
  return chains;
}

SeamLine seamLineOf(const SeamChain& chain, const SeamRims& other) {
  struct SeamStretch {
    const SeamEdge* edge;
    double from, to;
    SeamReading first, second;
  };
  SeamLine line;
  std::vector<SeamStretch> stretches;
  double along = 0, weighed = 0;
  for (const SeamEdge& edge : chain) {
    const double length = (edge.to - edge.from).norm();
    std::optional<SeamReading> before;
    double beforeAt = 0;
    for (const double share : sharesAlong(edge, other)) {
      const auto reading = other.readAt(edge, edge.at(share));
      if (reading) {
        line.profile.push_back(
            {along + share * length, reading->gapMm, reading->stepMm, edge.at(share)});
      }
      if (reading && before) {
        stretches.push_back({&edge, beforeAt, share, *before, *reading});
        const double piece = (share - beforeAt) * length;
        line.lengthMm += piece;
        weighed += piece * (std::abs(before->stepMm) + std::abs(reading->stepMm)) / 2;
      }
      before = reading;
      beforeAt = share;
    }
    along += length;
  }
  if (line.profile.empty()) return line;
  line.leastGapMm = line.gapLowerMm = line.profile.front().gapMm;
  line.widest_W = line.highest_W = line.profile.front().at_W;
  for (const SeamPoint& point : line.profile) {
    line.leastGapMm = std::min(line.leastGapMm, point.gapMm);
    if (point.gapMm > line.gapLowerMm) {
      line.gapLowerMm = point.gapMm;
      line.widest_W = point.at_W;
    }
    if (std::abs(point.stepMm) > line.largestStepMm) {
      line.largestStepMm = std::abs(point.stepMm);
      line.highest_W = point.at_W;
    }
  }
  if (line.lengthMm > 0) line.meanStepMm = weighed / line.lengthMm;
  for (const SeamStretch& s : stretches) {
    GapBracketOnEdge(*s.edge, other, line)
        .narrow(s.from, s.first.gapMm, s.to, s.second.gapMm, kLineMostHalvings);
  }
  line.gapUpperMm = std::max(line.gapUpperMm, line.gapLowerMm);
  return line;
}

}  // namespace swingroom
