#include "core/store/pair_record.h"

#include <algorithm>
#include <cstring>

#include "core/base/ensure.h"

namespace swingroom {
namespace {

/// Writer and reader have the same members, so that one description of the fields serves both.
class RecordWriter {
 public:
  explicit RecordWriter(const std::vector<JointId>& joints) : joints_(joints) {}

  template <typename Number>
  requires std::is_arithmetic_v<Number> || std::is_enum_v<Number>
  void field(const Number& number) {
    bytes_.append(reinterpret_cast<const char*>(&number), sizeof number);
  }
  void field(const std::string& text) {
    count(text.size());
    bytes_ += text;
  }
  void field(const ModeId& mode) { count(mode.index); }
  void field(const JointId& joint) {
    const auto found = std::find(joints_.begin(), joints_.end(), joint);
    SWINGROOM_ENSURE(found != joints_.end());
    count(static_cast<std::size_t>(found - joints_.begin()));
  }
  bool has(bool is) {
    field(is);
    return is;
  }
  std::size_t count(std::size_t size) {
    field(static_cast<std::uint32_t>(size));
    return size;
  }
  const std::string& bytes() const { return bytes_; }

 private:
  const std::vector<JointId>& joints_;
  std::string bytes_;
};

class RecordReader {
 public:
  RecordReader(std::string_view bytes, const std::vector<JointId>& joints)
      : bytes_(bytes), joints_(joints) {}

  template <typename Number>
  requires std::is_arithmetic_v<Number>
  void field(Number& number) {
    if (const char* from = take(sizeof number)) std::memcpy(&number, from, sizeof number);
  }
  void field(bool& truth) {
    std::uint8_t byte = 0;
    field(byte);
    good_ &= byte <= 1;
    truth = byte == 1;
  }
  void field(Verdict& verdict) {
    std::underlying_type_t<Verdict> number = 0;
    field(number);
    good_ &= number >= 0 && number <= static_cast<int>(Verdict::allowed);
    if (good_) verdict = static_cast<Verdict>(number);
  }
  void field(std::string& text) {
    const std::size_t size = count(0);
    if (const char* from = take(size)) text.assign(from, size);
  }
  void field(ModeId& mode) { mode.index = count(0); }
  void field(JointId& joint) {
    const std::size_t position = count(0);
    good_ &= position < joints_.size();
    if (good_) joint = joints_[position];
  }
  bool has(bool) {
    bool is = false;
    field(is);
    return good_ && is;
  }
  /// Zero once something was wrong: so that nothing large is made of damaged bytes.
  std::size_t count(std::size_t) {
    std::uint32_t size = 0;
    field(size);
    return good_ ? size : 0;
  }
  std::size_t left() const { return bytes_.size(); }
  bool good() const { return good_; }
  bool ended() const { return good_ && bytes_.empty(); }

 private:
  const char* take(std::size_t size) {
    good_ &= size <= bytes_.size();
    if (!good_) return nullptr;
    const char* from = bytes_.data();
    bytes_.remove_prefix(size);
    return from;
  }

  std::string_view bytes_;
  const std::vector<JointId>& joints_;
  bool good_ = true;
};

template <typename Archive, typename Value>
void optionally(Archive& archive, std::optional<Value>& value) {
  if (!archive.has(value.has_value())) return value.reset();
  if (!value) value.emplace();
  describe(archive, *value);
}

template <typename Archive, typename Value>
requires requires(Archive& archive, Value& value) {
  archive.field(value);
}
void describe(Archive& archive, Value& value) {
  archive.field(value);
}

template <typename Archive>
void describe(Archive& archive, Vector3d& point) {
  for (int i = 0; i < 3; ++i) archive.field(point[i]);
}

template <typename Archive>
void describe(Archive& archive, std::array<Vector3d, 2>& points) {
  for (Vector3d& point : points) describe(archive, point);
}

template <typename Archive>
void describe(Archive& archive, JointStand& stand) {
  describe(archive, stand.joint);
  describe(archive, stand.value);
}

template <typename Value>
void describeAll(RecordWriter& writer, std::vector<Value>& values);
template <typename Value>
void describeAll(RecordReader& reader, std::vector<Value>& values);

template <typename Archive>
void describe(Archive& archive, Stretch& stretch) {
  describe(archive, stretch.verdict);
  describe(archive, stretch.from);
  describe(archive, stretch.to);
  optionally(archive, stretch.depthMm);
  optionally(archive, stretch.deepestAt);
  optionally(archive, stretch.point_W);
  optionally(archive, stretch.mover);
  describeAll(archive, stretch.combination);
}

template <typename Archive>
void describe(Archive& archive, GapBracket& gap) {
  describe(archive, gap.lowerMm);
  optionally(archive, gap.upperMm);
  optionally(archive, gap.instant);
  optionally(archive, gap.points_W);
  describeAll(archive, gap.combination);
}

template <typename Archive>
void describe(Archive& archive, ModeGap& mode) {
  describe(archive, mode.mode);
  describe(archive, mode.lowerMm);
  optionally(archive, mode.upperMm);
}

template <typename Archive>
void describe(Archive& archive, JointResult& joint) {
  describe(archive, joint.joint);
  describe(archive, joint.verdict);
  describe(archive, joint.gap);
  describe(archive, joint.excusedAreaMm2);
}

template <typename Archive>
void describe(Archive& archive, LooseContact& loose) {
  describe(archive, loose.mode);
  describe(archive, loose.sentence);
}

template <typename Value>
void describeAll(RecordWriter& writer, std::vector<Value>& values) {
  writer.count(values.size());
  for (Value& value : values) describe(writer, value);
}

template <typename Value>
void describeAll(RecordReader& reader, std::vector<Value>& values) {
  const std::size_t size = reader.count(0);
  for (std::size_t i = 0; i < size && reader.good(); ++i) describe(reader, values.emplace_back());
}

/// Every field but the parts' ids. A new one is written here; the test of the round trip then has
/// to fill it.
template <typename Archive>
void describe(Archive& archive, PairResult& result) {
  describe(archive, result.verdict);
  describe(archive, result.requiredGapMm);
  describe(archive, result.gap);
  describeAll(archive, result.modes);
  optionally(archive, result.joint);
  describeAll(archive, result.stretches);
  describe(archive, result.insideJudged);
  describeAll(archive, result.looseContacts);
  describe(archive, result.nodeTests);
}

}  // namespace

std::string toRecord(const PairResult& result, const std::vector<JointId>& joints) {
  RecordWriter writer(joints);
  PairResult copy = result;
  describe(writer, copy);
  return writer.bytes();
}

std::optional<PairResult> fromRecord(std::string_view record, PartId a, PartId b,
                                     const std::vector<JointId>& joints) {
  RecordReader reader(record, joints);
  PairResult result;
  describe(reader, result);
  if (!reader.ended()) return std::nullopt;
  result.a = a;
  result.b = b;
  return result;
}

}  // namespace swingroom
