#include "app/window/samples.h"

#include <QCoreApplication>
#include <QDir>
#include <QFileInfo>

namespace swingroom {
namespace {

struct SampleText {
  Q_DECLARE_TR_FUNCTIONS(SampleText)
};

/// Empty: not found.
QString samplesFolder() {
  QDir folder(QCoreApplication::applicationDirPath());
  // Built in a folder of the sources, the program stands a few folders under them.
  for (int up = 0; up < 4; ++up) {
    for (const char* place : {"", "share/swingroom/"}) {
      const QString samples =
          folder.filePath(QString::fromLatin1(place) + QStringLiteral("sample_assemblies"));
      if (QFileInfo(samples).isDir()) return QFileInfo(samples).canonicalFilePath();
    }
    if (!folder.cdUp()) break;
  }
  return {};
}

}  // namespace

std::vector<Sample> samples() {
  const QString folder = samplesFolder();
  std::vector<Sample> there;
  if (folder.isEmpty()) return there;
  const std::pair<const char*, QString> all[] = {
      {"harbour_tug", SampleText::tr("A harbour tug that stands up")},
      {"harbour_tug_draft", SampleText::tr("Its first draft, which clashes")},
      {"harbour_tug_weak", SampleText::tr("Its weak print, which fails")},
      {"harbour_tug_detailed", SampleText::tr("The tug sculpted, with three heads")},
      {"folding_lamp", SampleText::tr("A folding lamp")},
      {"hatch_box", SampleText::tr("A box with a hatch and a bolt")}};
  for (const auto& [name, title] : all) {
    const QString place = QStringLiteral("%1/%2/").arg(folder, QString::fromLatin1(name));
    const QString file = place + QString::fromLatin1(name) + QStringLiteral(".swing.json");
    if (!QFileInfo::exists(file)) continue;
    there.push_back({title, file, place + QStringLiteral("picture.png")});
  }
  return there;
}

bool isSample(const QString& file) {
  const QString folder = samplesFolder();
  return !folder.isEmpty() &&
         QFileInfo(file).canonicalFilePath().startsWith(folder + QLatin1Char('/'));
}

}  // namespace swingroom
