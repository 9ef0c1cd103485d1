#include "tests/app/pictures/saves_pictures.h"

#include <QTest>
#include <cstring>
#include <fstream>
#include <sstream>

namespace swingroom {
namespace {

namespace fs = std::filesystem;

std::string fileBytes(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

void saveBytes(const fs::path& file, const std::string& bytes) {
  const fs::path beside = file.string() + ".tmp";
  std::ofstream(beside, std::ios::binary) << bytes;
  fs::rename(beside, file);
}

/// A binary STL, larger by a factor about the middle of its box.
std::string scaledStl(std::string bytes, float factor) {
  std::array<float, 3> low{1e9f, 1e9f, 1e9f}, high{-1e9f, -1e9f, -1e9f};
  const auto each = [&](auto act) {
    for (std::size_t at = 84; at + 50 <= bytes.size(); at += 50) {
      for (std::size_t i = 0; i < 9; ++i) {
        float number = 0;
        std::memcpy(&number, bytes.data() + at + 12 + 4 * i, 4);
        number = act(number, i % 3);
        std::memcpy(bytes.data() + at + 12 + 4 * i, &number, 4);
      }
    }
  };
  each([&](float x, std::size_t axis) {
    low[axis] = std::min(low[axis], x);
    high[axis] = std::max(high[axis], x);
    return x;
  });
  each([&](float x, std::size_t axis) {
    const float middle = (low[axis] + high[axis]) / 2;
    return middle + factor * (x - middle);
  });
  return bytes;
}

void waitForNews(Photographer& photographer, const std::function<void()>& save) {
  bool told = false;
  QObject context;
  QObject::connect(&photographer.window().saveNews(), &SaveNews::told, &context,
                   [&] { told = true; });
  save();
  QTest::qWaitFor([&] { return told; }, 60'000);
  QTest::qWait(300);
}

}  // namespace

void takeSaves(Photographer& photographer) {
  const QTemporaryDir folder;
  const fs::path tug = fs::path(folder.path().toStdString()) / "tug";
  fs::copy(SWINGROOM_SOURCE "/sample_assemblies/harbour_tug", tug, fs::copy_options::recursive);
  photographer.open(QString::fromStdString((tug / "harbour_tug.swing.json").string()));
  Session& session = photographer.window().session();
  const auto fileOf = [&](const char* part) {
    for (const DocumentPart& one : session.document().document().parts) {
      if (one.name == part) return tug / one.stages.at(one.use);
    }
    return fs::path();
  };
  const fs::path head = fileOf("head"), arm = fileOf("forearm_port");
  const std::string goodHead = fileBytes(head), goodArm = fileBytes(arm);
  waitForNews(photographer, [&] { saveBytes(arm, scaledStl(goodArm, 0.985f)); });
  photographer.take(QStringLiteral("save_better"));
  waitForNews(photographer, [&] { saveBytes(head, scaledStl(goodHead, 1.04f)); });
  photographer.take(QStringLiteral("save_worse"));
  waitForNews(photographer, [&] { saveBytes(head, scaledStl(goodHead, 1.005f)); });
  photographer.window().rightColumn().showPage(RightColumn::history);
  QTest::qWait(200);
  photographer.take(QStringLiteral("history"));
  std::ofstream(head, std::ios::binary) << goodHead.substr(0, goodHead.size() / 2);
  QTest::qWaitFor([&] { return !session.lateFiles().empty(); }, 20'000);
  photographer.take(QStringLiteral("save_half"));
}

}  // namespace swingroom
