#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/sweep/result.h"

namespace swingroom {

/// A pair's result as bytes, doubles bit by bit, without the parts' ids. Points are kept as they
/// are: in the first part's frame, if they are to be of use elsewhere.
/// @param joints  Those that the result may name, see PairKey: they are written as positions in it.
std::string toRecord(const PairResult& result, const std::vector<JointId>& joints);

/// The result again, for parts `a` and `b` of a file in which the joints have these ids.
/// @returns None if the bytes are no such record: never throws, never reads beyond them.
std::optional<PairResult> fromRecord(std::string_view record, PartId a, PartId b,
                                     const std::vector<JointId>& joints);

}  // namespace swingroom
