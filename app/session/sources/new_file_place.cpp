#include "app/session/sources/new_file_place.h"

#include <QFileInfo>
#include <QStandardPaths>
#include <string>

namespace swingroom {

std::filesystem::path placeForNew(const std::filesystem::path& source) {
  std::error_code ignored;
  const auto whole = std::filesystem::absolute(source, ignored).lexically_normal();
  const auto named = whole.has_filename() ? whole : whole.parent_path();
  const bool isFolder = std::filesystem::is_directory(named, ignored);
  const std::string name = (isFolder ? named.filename() : named.stem()).string();
  std::filesystem::path folder = named.parent_path();
  if (!QFileInfo(QString::fromStdString(folder.string())).isWritable()) {
    folder = QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation).toStdString();
  }
  auto file = folder / (name + ".swing.json");
  for (int i = 2; std::filesystem::exists(file, ignored); ++i) {
    file = folder / (name + " " + std::to_string(i) + ".swing.json");
  }
  return file;
}

}  // namespace swingroom
