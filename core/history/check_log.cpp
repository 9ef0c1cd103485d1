#include "core/history/check_log.h"

#include <algorithm>
#include <chrono>
#include <set>
#include <sstream>
#include <thread>

#include "core/base/digest.h"
#include "core/base/user_folder.h"
#include "core/files/replace_file.h"
#include "core/history/log_line.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

constexpr const char* kLogEnding = ".history";

/// Another program adds a check in a few hundredths of a second.
constexpr int kMostTries = 150;
constexpr std::chrono::milliseconds kTryAfter{20};

HeldFile holdSoon(const fs::path& file) {
  for (int i = 0; i < kMostTries; ++i) {
    HeldFile held = HeldFile::hold(file, HeldFile::IfAbsent::make);
    if (held.isHeld() || !held.isInUse()) return held;
    std::this_thread::sleep_for(kTryAfter);
  }
  return {};
}

struct ReadLog {
  std::vector<LoggedCheck> checks;
  bool sound = true;
};

ReadLog parseLog(const std::string& bytes) {
  ReadLog log;
  std::istringstream lines(bytes);
  std::string line;
  if (!std::getline(lines, line)) return log;  // A new one.
  log.sound = isLogHeading(line);
  if (!log.sound) return log;
  while (std::getline(lines, line)) {
    if (auto check = fromLogLine(line)) {
      log.checks.push_back(std::move(*check));
    } else {
      log.sound = false;
    }
  }
  return log;
}

/// The bytes of a log with these checks, the oldest left out where bounds want it.
std::string writeLog(const fs::path& assemblyFile, const std::vector<LoggedCheck>& checks,
                     const LogBounds& bounds) {
  std::vector<std::string> lines;
  std::uintmax_t bytes = 0;
  for (auto check = checks.rbegin(); check != checks.rend() && lines.size() < bounds.checks;
       ++check) {
    std::string line = toLogLine(*check) + "\n";
    bytes += line.size();
    if (!lines.empty() && bytes > bounds.bytes) break;
    lines.push_back(std::move(line));
  }
  std::string text = logHeading(assemblyFile.filename().string()) + "\n";
  for (auto line = lines.rbegin(); line != lines.rend(); ++line) text += *line;
  return text;
}

/// Left out of the log: it has nothing to tell but that it is far.
bool isFar(const PairFigure& pair) {
  return pair.verdict == Verdict::clear && !pair.upperMm && pair.depthMm == 0;
}

bool saysNothingNew(const LoggedCheck& check, const LoggedCheck& last) {
  return check.files.empty() && check.parts.empty() && check.edits.empty() &&
         check.near == last.near && check.names == last.names &&
         check.farAtLeastMm == last.farAtLeastMm;
}

void putTurns(LoggedCheck& check, const LoggedCheck& last) {
  const Comparison comparison = compare(last.whole(), check.whole());
  check.turns.clear();
  check.turnsInAll = comparison.changes.size();
  for (const PairChange& change : comparison.changes) {
    if (check.turns.size() == LoggedCheck::kMostTurns) break;
    check.turns.push_back({change.change, change.a, change.b, change.way});
  }
}

std::vector<fs::directory_entry> logsIn(const fs::path& folder) {
  std::vector<fs::directory_entry> logs;
  std::error_code error;
  for (fs::directory_iterator entry(folder, error), end; !error && entry != end;
       entry.increment(error)) {
    if (entry->path().filename().string().find(kLogEnding) != std::string::npos) {
      logs.push_back(*entry);
    }
  }
  return logs;
}

}  // namespace

void LoggedCheck::put(const CheckFigures& figures) {
  counts = countsOf(figures);
  near = {figures.assembly, figures.resolutionMm, {}};
  names.clear();
  farAtLeastMm.clear();
  std::set<std::string> seen;
  for (const WayFigures& way : figures.ways) {
    for (const PairFigure& pair : way.pairs) {
      for (const std::string& name : {pair.a, pair.b}) {
        if (seen.insert(name).second) names.push_back(name);
      }
    }
  }
  for (const WayFigures& way : figures.ways) {
    WayFigures& kept = near.ways.emplace_back(WayFigures{way.name, way.from, way.to, {}});
    std::optional<double> far;
    for (const PairFigure& pair : way.pairs) {
      if (isFar(pair)) {
        far = std::min(far.value_or(pair.lowerMm), pair.lowerMm);
      } else {
        kept.pairs.push_back(pair);
      }
    }
    farAtLeastMm.push_back(far);
  }
}

CheckFigures LoggedCheck::whole() const {
  CheckFigures figures = near;
  for (std::size_t w = 0; w < figures.ways.size(); ++w) {
    if (!farAtLeastMm.at(w)) continue;
    auto& pairs = figures.ways[w].pairs;
    std::set<std::pair<std::string, std::string>> there;
    for (const PairFigure& pair : pairs) there.insert(std::minmax(pair.a, pair.b));
    for (std::size_t a = 0; a < names.size(); ++a) {
      for (std::size_t b = a + 1; b < names.size(); ++b) {
        if (there.contains(std::minmax(names[a], names[b]))) continue;
        PairFigure& far = pairs.emplace_back();
        far.a = names[a], far.b = names[b];
        far.verdict = Verdict::clear;
        far.lowerMm = *farAtLeastMm[w];
      }
    }
  }
  return figures;
}

fs::path CheckLog::fileOf(const fs::path& assemblyFile) const {
  std::error_code error;
  const fs::path followed = fs::weakly_canonical(assemblyFile, error);
  const std::string path =
      error ? fs::absolute(assemblyFile).lexically_normal().string() : followed.string();
  Hasher hasher;
  hasher.add(path.data(), path.size());
  return folder_ / (toHex(hasher.take()).substr(0, 24) + kLogEnding);
}

bool CheckLog::add(const fs::path& assemblyFile, LoggedCheck check) {
  std::error_code error;
  fs::create_directories(folder_, error);
  const fs::path file = fileOf(assemblyFile);
  HeldFile held = holdSoon(file);
  if (!held.isHeld()) return false;
  const std::string bytes = held.read(4 * bounds_.bytes);
  ReadLog log = parseLog(bytes);
  if (!log.sound) replaceFile(file.string() + ".damaged", bytes);
  if (!log.checks.empty()) {
    if (log.sound && saysNothingNew(check, log.checks.back())) return true;
    putTurns(check, log.checks.back());
  }
  log.checks.push_back(std::move(check));
  const bool written = !replaceFile(file, writeLog(assemblyFile, log.checks, bounds_), &held);
  if (written) dropOldLogs(file);
  return written;
}

std::vector<LoggedCheck> CheckLog::read(const fs::path& assemblyFile) const {
  const fs::path file = fileOf(assemblyFile);
  std::error_code error;
  if (!fs::exists(file, error)) return {};
  // It is only ever replaced whole: there is no need to hold it.
  std::string bytes;
  if (FILE* in = std::fopen(file.c_str(), "rbe")) {
    char piece[1 << 16];
    while (const std::size_t got = std::fread(piece, 1, sizeof piece, in)) {
      bytes.append(piece, got);
      if (bytes.size() > 4 * bounds_.bytes) break;
    }
    std::fclose(in);
  }
  return parseLog(bytes).checks;
}

void CheckLog::dropOldLogs(const fs::path& kept) const {
  struct Log {
    fs::file_time_type used;
    std::uintmax_t bytes;
    fs::path file;
  };
  std::vector<Log> logs;
  std::uintmax_t bytes = 0;
  for (const auto& entry : logsIn(folder_)) {
    std::error_code gone;  // Another program drops logs too.
    const auto size = entry.file_size(gone);
    const auto used = entry.last_write_time(gone);
    if (gone) continue;
    bytes += size;
    if (entry.path() != kept) logs.push_back({used, size, entry.path()});
  }
  std::sort(logs.begin(), logs.end(), [](const Log& a, const Log& b) { return a.used < b.used; });
  for (const Log& log : logs) {
    if (bytes <= bounds_.bytesOfAll) break;
    std::error_code error;
    fs::remove(log.file, error);
    bytes -= log.bytes;
  }
}

void CheckLog::clear() {
  std::error_code error;
  for (const auto& entry : logsIn(folder_)) fs::remove(entry.path(), error);
}

std::uintmax_t CheckLog::bytesOnDisk() const {
  std::uintmax_t bytes = 0;
  for (const auto& entry : logsIn(folder_)) {
    std::error_code gone;
    const auto size = entry.file_size(gone);
    if (!gone) bytes += size;
  }
  return bytes;
}

std::optional<fs::path> userHistoryFolder() {
  const auto folder = userFolder(UserFolder::data);
  return folder ? std::optional(*folder / "history") : std::nullopt;
}

std::shared_ptr<CheckLog> makeUserLog() {
  const auto folder = userHistoryFolder();
  return folder ? std::make_shared<CheckLog>(*folder) : nullptr;
}

}  // namespace swingroom
