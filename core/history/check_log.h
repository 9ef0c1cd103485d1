#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/history/comparison.h"

namespace swingroom {

/// One verdict that turned, or one gap that changed, since the check before.
struct LoggedTurn {
  Change change = Change::same;
  std::string a, b, way;

  bool operator==(const LoggedTurn&) const = default;
};

/// A check as the log keeps it: names and figures, no paths, no meshes.
struct LoggedCheck {
  std::int64_t when = 0;  ///< Seconds since 1970, UTC.
  std::string by;         ///< "window", "check", "watch".
  /// What has changed since the check before, as far as whoever checked knows: files without their
  /// folders, parts with another surface, edits by their names.
  std::vector<std::string> files, parts, edits;
  std::array<std::size_t, 6> counts{};  ///< By `kVerdicts`, of each pair the worst.
  /// Against the check before in the log, worst first; at most `kMostTurns`.
  std::vector<LoggedTurn> turns;
  std::size_t turnsInAll = 0;
  /// Pairs that are clear and farther than matters are left out; see `whole`.
  CheckFigures near;
  std::vector<std::string> names;                   ///< Of all parts that have pairs.
  std::vector<std::optional<double>> farAtLeastMm;  ///< By way: those left out are that far.

  static constexpr std::size_t kMostTurns = 24;

  /// The figures with the pairs that were left out: clear, and at least that far.
  CheckFigures whole() const;
  /// @param figures  Of a whole check: each pair of parts in each way.
  void put(const CheckFigures& figures);

  bool operator==(const LoggedCheck&) const = default;
};

/// What a log may take.
struct LogBounds {
  std::size_t checks = 300;               ///< Of one assembly; the oldest go first.
  std::uintmax_t bytes = 4u << 20;        ///< Of one assembly.
  std::uintmax_t bytesOfAll = 64u << 20;  ///< Logs that were not added to for longest go first.
};

/// The checks of each assembly, by where its file is. Whatever is wrong with the folder, nothing
/// fails: a log that is damaged is set aside (its name ends in .damaged) and what can be read of it
/// is kept; what cannot be written is not kept. Several programs may use one folder at once. Safe
/// from several threads.
class CheckLog {
 public:
  explicit CheckLog(std::filesystem::path folder, const LogBounds& bounds = {})
      : folder_(std::move(folder)), bounds_(bounds) {}

  /// Adds a check; `turns` and counts are worked out here. One that differs in nothing from the
  /// last one, and of which nothing is said to have changed, is not added.
  /// @param assemblyFile  Links are followed: one file has one log.
  /// @returns Whether it is in the log now.
  bool add(const std::filesystem::path& assemblyFile, LoggedCheck check);
  /// Oldest first.
  std::vector<LoggedCheck> read(const std::filesystem::path& assemblyFile) const;

  /// Forgets all assemblies' checks.
  void clear();
  std::uintmax_t bytesOnDisk() const;
  const std::filesystem::path& folder() const { return folder_; }
  /// Where the log of an assembly is, or would be.
  std::filesystem::path fileOf(const std::filesystem::path& assemblyFile) const;

 private:
  void dropOldLogs(const std::filesystem::path& kept) const;

  std::filesystem::path folder_;
  LogBounds bounds_;
};

/// Where this user's logs are: $XDG_DATA_HOME/swingroom/history, or with ~/.local/share (XDG Base
/// Directory Specification 0.8). None: neither is said by an absolute path.
std::optional<std::filesystem::path> userHistoryFolder();

/// The log in that folder; null where there is none.
std::shared_ptr<CheckLog> makeUserLog();

}  // namespace swingroom
