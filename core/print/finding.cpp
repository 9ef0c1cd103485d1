#include "core/print/finding.h"

namespace swingroom {

const char* wordFor(PrintWord word) {
  switch (word) {
    case PrintWord::thinWall:
      return "thin wall";
    case PrintWord::thinPin:
      return "thin pin";
    case PrintWord::neck:
      return "neck";
    case PrintWord::thinEdge:
      return "thin edge";
    case PrintWord::tightFit:
      return "tight fit";
    case PrintWord::looseFit:
      return "loose fit";
    case PrintWord::unwantedFit:
      return "other fit than wanted";
    case PrintWord::strained:
      return "strained";
    case PrintWord::loose:
      return "loose";
    case PrintWord::overPressed:
      return "pressed too far";
    case PrintWord::openSeam:
      return "open seam";
    case PrintWord::notFlush:
      return "not flush";
    case PrintWord::droops:
      return "droops";
    case PrintWord::fallsOver:
      return "falls over";
    case PrintWord::nearlyFalls:
      return "nearly falls";
    case PrintWord::tooLarge:
      return "too large for the bed";
    case PrintWord::needsDrain:
      return "needs a drain";
    case PrintWord::closesAsPrinted:
      return "closes as printed";
    case PrintWord::rubsWithPlay:
      return "may rub";
    case PrintWord::withinScatter:
      return "within the scatter";
    case PrintWord::smallPart:
      return "small part";
    case PrintWord::smallBall:
      return "small ball";
    case PrintWord::fingerGap:
      return "finger gap";
    case PrintWord::sharpEdge:
      return "sharp edge";
  }
  return "";
}

}  // namespace swingroom
