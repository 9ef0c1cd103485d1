#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>

class TDF_Label;
class TopoDS_Shape;

namespace swingroom {

/// A name that somebody gave, UTF-8; empty where programs fill in what says nothing ("NAUO12",
/// "SOLID", "=>[0:1:1:2]").
std::string givenNameOf(const TDF_Label& label);

/// The body's own name within its product's label.
std::string givenNameOf(const TopoDS_Shape& body, const TDF_Label& product);

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
