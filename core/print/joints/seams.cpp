#include "core/print/joints/seams.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "core/print/joints/seam_line.h"
#include "core/tree/ray_query.h"

namespace swingroom {
namespace {

constexpr double kSeamReachMm = 3;
constexpr double kSeamShortestMm = 0.5;
constexpr double kSeamSkyMm = 0.01;  // Off the rim, along the outer face's normal.
constexpr std::size_t kSeamSkyLooks = 40;

Eigen::AlignedBox3d seamBox(const TriangleMesh& mesh, const Pose& X_WP) {
  return boundsOf(mesh).transformed(Eigen::Affine3d(X_WP));
}

class SeamMeasurer {
 public:
  SeamMeasurer(const PrintSubject& subject, SeamFigure& seam)
      : subject_(subject),
        contact_(subject.assembly->ruleFor(seam.a, seam.b)->contacts[seam.contact]),
        poses_(posesOf(*subject.assembly, (*subject.modes)[seam.mode.index].configuration)),
        seam_(seam) {}

  void measure() {
    const PartPrint &a = subject_.print(seam_.a), &b = subject_.print(seam_.b);
    for (const PartPrint* print : {&a, &b}) {
      if (print->printed) seam_.growthMm += print->process.growthOutsideMm.value;
    }
    // A face's place differs by half of what a size does.
    const auto half = [](const PartPrint& print) {
      return print.printed ? print.process.scatterMm.value / 2 : 0;
    };
    seam_.scatterMm = std::hypot(half(a), half(b));
    if (contact_.gapMm) seam_.wantedMm = FitSpan{contact_.gapMm->min, contact_.gapMm->max};
    const std::vector<SeamEdge> ofA = edgesOf(seam_.a, seam_.b), ofB = edgesOf(seam_.b, seam_.a);
    const SeamRims rims(ofB, kSeamReachMm);
    std::vector<std::pair<double, SeamLine>> lines;
    for (const SeamChain& chain : seamChains(ofA, rims)) {
      SeamLine line = seamLineOf(chain, rims);
      if (line.lengthMm < kSeamShortestMm) continue;
      line.visible = seesSky(chain);
      lines.emplace_back(outwardness(chain), std::move(line));
    }
    std::stable_sort(lines.begin(), lines.end(), [](const auto& x, const auto& y) {
      if (x.second.visible != y.second.visible) return x.second.visible;
      const int longX = lengthClass(x.second), longY = lengthClass(y.second);
      return longX != longY ? longX > longY : x.first > y.first;
    });
    for (auto& [rank, line] : lines) seam_.lines.push_back(std::move(line));
  }

 private:
  /// Lines of about one length are told apart by what lies outermost.
  static int lengthClass(const SeamLine& line) {
    return static_cast<int>(std::floor(std::log(line.lengthMm) / std::log(1.5)));
  }

  std::vector<SeamEdge> edgesOf(PartId of, PartId against) const {
    const Part &part = subject_.part(of), &other = subject_.part(against);
    Eigen::AlignedBox3d near = seamBox(*other.mesh, poses_[against.index]);
    near.min() -= Vector3d::Constant(kSeamReachMm);
    near.max() += Vector3d::Constant(kSeamReachMm);
    std::vector<SeamEdge> edges = seamEdgesOf(*part.mesh, poses_[of.index], near);
    if (contact_.place) {
      std::erase_if(edges, [&](const SeamEdge& edge) {
        return (edge.at(0.5) - contact_.place->at).norm() > contact_.place->radiusMm;
      });
    }
    return edges;
  }

  /// Whether at least half of the places see nothing of the figure outwards.
  bool seesSky(const SeamChain& chain) const {
    std::size_t free = 0, looked = 0;
    const std::size_t step = std::max<std::size_t>(1, chain.size() / kSeamSkyLooks);
    for (std::size_t i = 0; i < chain.size(); i += step) {
      ++looked;
      // A little inside the panel's own face, so that the seam itself is not looked into.
      const Vector3d p = chain[i].at(0.5) + kSeamSkyMm * (chain[i].outer - chain[i].across);
      free += isFree(p, chain[i].outer);
    }
    return 2 * free >= looked;
  }

  bool isFree(const Vector3d& p, const Vector3d& way) const {
    for (std::size_t i = 0; i < poses_.size(); ++i) {
      if (!subject_.hasMesh({i})) continue;
      const Pose X_PW = poses_[i].inverse();
      const BoundingTree& tree = (*subject_.geometry)[i]->surface->tree;
      if (firstHit(tree, X_PW * p, X_PW.linear() * way)) return false;
    }
    return true;
  }

  /// How far out the line lies on its side of the two panels.
  double outwardness(const SeamChain& chain) const {
    Eigen::AlignedBox3d both = seamBox(*subject_.part(seam_.a).mesh, poses_[seam_.a.index]);
    both.extend(seamBox(*subject_.part(seam_.b).mesh, poses_[seam_.b.index]));
    double sum = 0, length = 0;
    for (const SeamEdge& edge : chain) {
      const double here = (edge.to - edge.from).norm();
      sum += here * (edge.at(0.5) - both.center()).dot(edge.outer);
      length += here;
    }
    return sum / length;
  }

  const PrintSubject& subject_;
  const Contact& contact_;
  const std::vector<Pose> poses_;
  SeamFigure& seam_;
};

template <typename... Figures>
std::string seamText(const char* format, Figures... figures) {
  char text[300];
  std::snprintf(text, sizeof text, format, figures...);
  return text;
}

class SeamJudge {
 public:
  SeamJudge(const PrintSubject& subject, const SeamFigure& seam, PrintFindings& findings)
      : subject_(subject), seam_(seam), findings_(findings) {}

  void judge() {
    if (seam_.lines.empty()) {
      add(PrintWord::openSeam, PrintGrade::finding, std::nullopt, kSeamReachMm, kSeamReachMm, {},
          "no sharp rims of the two face each other within 3 mm: they do not close, or their rims "
          "are rounded");
      return;
    }
    const auto judged = [&](const SeamLine& line) {
      // Without a line that is seen all count.
      return line.visible || !seam_.lines.front().visible;
    };
    const SeamLine *widest = nullptr, *highest = nullptr;
    for (const SeamLine& line : seam_.lines) {
      if (!judged(line)) continue;
      if (!widest || line.gapUpperMm > widest->gapUpperMm) widest = &line;
      if (!highest || line.largestStepMm > highest->largestStepMm) highest = &line;
    }
    gap(*widest);
    step(*highest);
  }

 private:
  void gap(const SeamLine& line) {
    const double printed = line.gapLowerMm - seam_.growthMm;
    if (seam_.wantedMm) {
      const double most = seam_.wantedMm->mostMm;
      if (line.gapLowerMm <= most + subject_.assembly->resolutionMm()) return;
      add(PrintWord::openSeam, PrintGrade::finding, line.widest_W, line.gapLowerMm, line.gapUpperMm,
          most,
          seamText("%.2f mm open at its widest as modelled (%.2f as printed); at most %.2f is "
                   "wanted",
                   line.gapLowerMm, printed, most));
    } else if (printed > seam_.scatterMm) {
      add(PrintWord::openSeam, PrintGrade::finding, line.widest_W, line.gapLowerMm, line.gapUpperMm,
          seam_.growthMm + seam_.scatterMm,
          seamText("%.2f mm open at its widest as modelled, %.2f as printed: more than the %.2f by "
                   "which two prints differ",
                   line.gapLowerMm, printed, seam_.scatterMm));
    }
  }

  void step(const SeamLine& line) {
    if (line.largestStepMm <= seam_.scatterMm) return;
    add(PrintWord::notFlush, PrintGrade::hint, line.highest_W, line.largestStepMm,
        line.largestStepMm, seam_.scatterMm,
        seamText("the outer faces stand up to %.2f mm off each other, %.2f on the mean; two prints "
                 "differ by %.2f",
                 line.largestStepMm, line.meanStepMm, seam_.scatterMm));
  }

  void add(PrintWord word, PrintGrade grade, std::optional<Vector3d> at_W, double lower,
           double upper, std::optional<double> needed, std::string sentence) {
    PrintFinding finding;
    finding.word = word;
    finding.grade = grade;
    finding.parts = {seam_.a, seam_.b};
    finding.mode = seam_.mode;
    if (at_W) {
      const auto poses =
          posesOf(*subject_.assembly, (*subject_.modes)[seam_.mode.index].configuration);
      finding.at_P = poses[seam_.a.index].inverse() * *at_W;
    }
    finding.lower = lower;
    finding.upper = upper;
    finding.needed = needed;
    finding.unit = "mm";
    finding.sentence = std::move(sentence);
    findings_.push_back(std::move(finding));
  }

  const PrintSubject& subject_;
  const SeamFigure& seam_;
  PrintFindings& findings_;
};

}  // namespace

SeamsResult checkSeams(const PrintSubject& subject, WorkMonitor& monitor) {
  SeamsResult result;
  for (const PairRule& rule : subject.assembly->pairRules()) {
    if (!subject.hasMesh(rule.a) || !subject.hasMesh(rule.b)) continue;
    for (std::size_t c = 0; c < rule.contacts.size(); ++c) {
      if (rule.contacts[c].kind != ContactKind::seam) continue;
      for (const ModeId mode : rule.contacts[c].modes) {
        SeamFigure seam;
        seam.a = rule.a;
        seam.b = rule.b;
        seam.contact = c;
        seam.mode = mode;
        result.seams.push_back(seam);
      }
    }
  }
  parallelFor(result.seams.size(), subject.threads, [&](std::size_t i) {
    if (monitor.cancelled()) return;
    SeamMeasurer(subject, result.seams[i]).measure();
    monitor.advance();
  });
  return result;
}

void addSeamFindings(const PrintSubject& subject, const SeamsResult& result,
                     PrintFindings& findings) {
  for (const SeamFigure& seam : result.seams) SeamJudge(subject, seam, findings).judge();
}

}  // namespace swingroom
