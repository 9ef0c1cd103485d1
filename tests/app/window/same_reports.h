#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace swingroom {

/// Parts of one assembly by those of another: of the same mesh file, standing in the same place
/// (its vertices as they are placed, within 0.001 mm). Empty for a part that has no counterpart.
std::map<std::string, std::string> samePlaces(const std::filesystem::path& file,
                                              const std::filesystem::path& other);

/// What of the JSON reports of two checks differs, a sentence each: pairs that only one has, their
/// verdicts, those inside of joint zones, required gaps, least gaps and gaps in each mode (which
/// brackets have to agree within the resolution). How near two parts come beside their joint's zone
/// depends on how long the zone was made, and is not compared. Ways and modes are matched by their
/// order.
/// @param names  Of the first report's parts in the second.
std::vector<std::string> differences(const std::string& report, const std::string& other,
                                     const std::map<std::string, std::string>& names,
                                     const std::vector<std::string>& modes,
                                     const std::vector<std::string>& otherModes);

}  // namespace swingroom
