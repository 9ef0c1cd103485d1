#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>

class TCollection_HAsciiString;
class TDF_Label;
class TopoDS_Shape;
class TopoDS_TShape;

namespace swingroom {

/// A name that somebody gave, UTF-8; empty where programs fill in what says nothing ("NAUO12",
/// "SOLID", "=>[0:1:1:2]").
std::string givenNameOf(const TDF_Label& label);

/// The same of a record's name, whose letters are ISO 10303-21's.
std::string givenNameOf(const TCollection_HAsciiString& name);

/// Bodies' own names, by what they are wherever they stand.
using BodyNames = std::map<const TopoDS_TShape*, std::string>;

/// "#RRGGBB" of a product or of where it is placed.
std::optional<std::string> colourOf(const TDF_Label& label);

/// Of a body: its own, or the one that all of its faces have.
std::optional<std::string> colourOf(const TopoDS_Shape& body, const TDF_Label& product);

/// Gives each name once: "pin", "pin 2", "pin 3".
class UniqueNames {
 public:
  std::string make(const std::string& wanted);

 private:
  std::set<std::string> taken_;
  std::map<std::string, int> counts_;
};

}  // namespace swingroom
