#include "app/session/scene.h"

#include <QCoreApplication>
#include <algorithm>

#include "core/sweep/sweep.h"

namespace swingroom {
namespace {

struct SceneText {
  Q_DECLARE_TR_FUNCTIONS(SceneText)
};

/// Where modes say which mount holds, no ring is left; without modes the first mounts count.
std::optional<Problem> ringAtHome(const LoadedAssembly& loaded, const std::filesystem::path& file) {
  if (!loaded.modes.empty()) return std::nullopt;
  const auto part = findRing(loaded.assembly, loaded.assembly.home());
  if (!part) return std::nullopt;
  return Problem{file.string() + "#/modes",
                 SceneText::tr("are not there, and by its first joint \"%1\" hangs on itself")
                     .arg(QString::fromStdString(loaded.assembly.part(*part).name))
                     .toStdString(),
                 SceneText::tr("add a mode that says which mounts hold").toStdString()};
}

/// What there is to see of an assembly without modes: it stands at home.
LoadedAssembly withSomeMode(LoadedAssembly&& loaded) {
  if (loaded.modes.empty())
    loaded.modes.push_back(
        {QCoreApplication::translate("swingroom::Scene", "as modelled").toStdString(),
         loaded.assembly.home()});
  return std::move(loaded);
}

double lowestOf(const Assembly& assembly, const std::vector<Mode>& modes, const Vector3d& up_W) {
  double lowest = std::numeric_limits<double>::infinity();
  for (const Mode& mode : modes) {
    const auto X_WPs = posesOf(assembly, mode.configuration);
    for (std::size_t p = 0; p < X_WPs.size(); ++p) {
      const auto& mesh = assembly.parts()[p].mesh;
      if (!mesh) continue;
      const Vector3d up_P = X_WPs[p].linear().transpose() * up_W;
      const double offset = up_W.dot(X_WPs[p].translation());
      for (const Vector3d& vertex : mesh->vertices) {
        lowest = std::min(lowest, up_P.dot(vertex) + offset);
      }
    }
  }
  return std::isfinite(lowest) ? lowest : 0;
}

}  // namespace

Scene::Scene(AssemblyDocument written, LoadedAssembly&& made, unsigned threads, const Scene* before)
    : document(std::move(written)),
      loaded(withSomeMode(std::move(made))),
      geometry(prepareGeometry(loaded.assembly, threads,
                               before ? before->geometry : AssemblyGeometry())),
      gaps(loaded.assembly, geometry, threads),
      ways(waysToCheck(loaded.modes, loaded.sequences)),
      up_W(Vector3d(document.up.data()).normalized()) {
  const Vector3d front(document.front.data());
  front_W = (front - up_W * up_W.dot(front)).normalized();
  floorMm = lowestOf(loaded.assembly, loaded.modes, up_W);
}

std::string Scene::modeName(ModeId mode) const {
  return loaded.modes.at(mode.index).name;
}

Outcome<ScenePtr> makeScene(const AssemblyDocument& document, const std::filesystem::path& file,
                            const MeshSource& source, const Scene* before) {
  Outcome<LoadedAssembly> loaded = loadAssembly(document, file, source);
  if (!loaded) return loaded.problems();
  if (const auto ring = ringAtHome(*loaded, file)) return *ring;
  return ScenePtr(
      std::make_shared<const Scene>(document, std::move(loaded).value(), source.threads, before));
}

}  // namespace swingroom
