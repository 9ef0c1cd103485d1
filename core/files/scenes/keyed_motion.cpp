#include "core/files/scenes/keyed_motion.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "core/files/document/document_problems.h"
#include "core/files/document/json_value.h"
#include "core/files/scenes/keyed_pose.h"

namespace swingroom {
namespace {

constexpr double kSameTimeS = 1e-4;  // As times are typed and told.

std::vector<Eigen::Affine3d> partPlaces(const SceneFile& scene, const SceneAnimation& animation,
                                        double timeS) {
  const std::vector<Eigen::Affine3d> nodes = nodePlaces(scene.nodes, &animation, timeS);
  std::vector<Eigen::Affine3d> places;
  for (const ScenePart& part : scene.parts) {
    places.push_back(part.node ? scene.X_SF * nodes.at(*part.node) * scene.X_SF.inverse()
                               : part.X_SP);
  }
  return places;
}

std::string animationsText(const SceneFile& scene) {
  std::vector<std::string> names;
  for (const SceneAnimation& animation : scene.animations) names.push_back(animation.name);
  return "its animations are " + listed(names);
}

std::string timesText(const std::vector<double>& times) {
  std::vector<std::string> texts;
  for (const double time : times) texts.push_back(secondsText(time));
  constexpr std::size_t kMost = 8;
  std::string text = texts.front();
  for (std::size_t i = 1; i < std::min(texts.size(), kMost); ++i) text += ", " + texts[i];
  if (texts.size() > kMost) {
    text += " and " + std::to_string(texts.size() - kMost) + " more up to " + texts.back();
  }
  return "it is keyed at " + text;
}

/// A wish found in the file.
struct Moment {
  const SceneAnimation* animation = nullptr;
  double timeS = 0;
};

class KeyReader {
 public:
  KeyReader(const SceneFile& scene, const std::filesystem::path& file)
      : scene_(scene), file_(file.string()), together_(playedTogether(scene)) {}

  Outcome<KeyedMotion> read(const std::vector<KeyedModeWish>& wishes) {
    if (scene_.animations.empty()) {
      return problem("has no animation, so there are no keyed modes in it",
                     "key every part in each mode, or give a second file in the other mode");
    }
    if (std::none_of(scene_.animations.begin(), scene_.animations.end(),
                     [&](const SceneAnimation& one) { return movesParts(scene_, one); })) {
      return problem("has animations, but they move no part", animationsText(scene_));
    }
    std::vector<Moment> moments;
    for (const KeyedModeWish& wish : wishes) moments.push_back(momentOf(wish));
    if (!problems_.empty()) return problems_;
    for (std::size_t i = 0; i < wishes.size(); ++i) {
      if (i > 0) addBetween(moments[i - 1], moments[i]);
      add(moments[i], wishes[i].name);
    }
    return std::move(motion_);
  }

 private:
  Problem problem(const std::string& what, const std::string& hint) const {
    return {file_, what, hint};
  }

  const SceneAnimation* animationOf(const KeyedModeWish& wish) {
    if (!wish.animation) {
      if (together_) return &*together_;
      Problem told = together_.problems().front();
      told.where = file_ + ", mode " + wish.name;
      problems_.push_back(told);
      return nullptr;
    }
    const auto found = std::find_if(
        scene_.animations.begin(), scene_.animations.end(),
        [&](const SceneAnimation& one) { return one.name == *wish.animation; });
    if (found != scene_.animations.end()) return &*found;
    problems_.push_back({file_ + ", mode " + wish.name,
                         "there is no animation " + inQuotes(*wish.animation),
                         animationsText(scene_)});
    return nullptr;
  }

  Moment momentOf(const KeyedModeWish& wish) {
    const SceneAnimation* animation = animationOf(wish);
    if (!animation) return {};
    const std::vector<double> times = keyedTimes(*animation);
    const double timeS = wish.timeS.value_or(times.back());
    if (timeS < times.front() - kSameTimeS || timeS > times.back() + kSameTimeS) {
      problems_.push_back({file_ + ", mode " + wish.name,
                           "there is nothing at " + secondsText(timeS), timesText(times)});
      return {};
    }
    const auto nearest = *std::min_element(times.begin(), times.end(), [&](double a, double b) {
      return std::abs(a - timeS) < std::abs(b - timeS);
    });
    if (std::abs(nearest - timeS) <= kSameTimeS) return {animation, nearest};
    motion_.notes.push_back({file_ + ", mode " + wish.name,
                             "is between keys: at " + secondsText(timeS) +
                                 " the file's own way from key to key is taken",
                             timesText(times)});
    return {animation, timeS};
  }

  void add(const Moment& moment, const std::string& mode) {
    motion_.stations.push_back(
        {mode, moment.timeS, partPlaces(scene_, *moment.animation, moment.timeS)});
  }

  void addBetween(const Moment& from, const Moment& to) {
    if (from.animation != to.animation) return;
    std::vector<double> times = keyedTimes(*from.animation);
    std::erase_if(times, [&](double time) {
      return time <= std::min(from.timeS, to.timeS) + kSameTimeS ||
             time >= std::max(from.timeS, to.timeS) - kSameTimeS;
    });
    if (from.timeS > to.timeS) std::reverse(times.begin(), times.end());
    for (const double time : times) add({from.animation, time}, "");
  }

  const SceneFile& scene_;
  std::string file_;
  Outcome<SceneAnimation> together_;
  KeyedMotion motion_;
  Problems problems_;
};

}  // namespace

std::string secondsText(double timeS) {
  return numberText(std::round(timeS * 1e4) / 1e4) + " s";
}

bool movesParts(const SceneFile& scene, const SceneAnimation& animation) {
  std::vector<bool> moves(scene.nodes.size(), false);
  for (const SceneTrack& track : animation.tracks) moves.at(track.node) = true;
  for (std::size_t n = 0; n < scene.nodes.size(); ++n) {
    if (scene.nodes[n].parent && moves[*scene.nodes[n].parent]) moves[n] = true;
  }
  return std::any_of(scene.parts.begin(), scene.parts.end(),
                     [&](const ScenePart& part) { return part.node && moves[*part.node]; });
}

Outcome<SceneAnimation> playedTogether(const SceneFile& scene) {
  SceneAnimation all;
  std::set<std::pair<std::size_t, KeyedQuantity>> keyed;
  for (const SceneAnimation& animation : scene.animations) {
    for (const SceneTrack& track : animation.tracks) {
      if (!keyed.insert({track.node, track.quantity}).second) {
        return Problem{"", "several animations move the same parts: a time alone does not say which",
                       "write NAME=ANIMATION@TIME; " + animationsText(scene)};
      }
      all.tracks.push_back(track);
    }
  }
  return all;
}

Outcome<KeyedMotion> readKeyedMotion(const SceneFile& scene, const std::filesystem::path& file,
                                     const std::vector<KeyedModeWish>& wishes) {
  return KeyReader(scene, file).read(wishes);
}

}  // namespace swingroom
